import { Inflate, strFromU8, strToU8, zlibSync } from 'fflate';
import { codeOf } from '../piecing/codes.ts';
import { phrase } from '../words/phrase.ts';
import { type OpenedFile, openFile } from './file.ts';
import { MAX_FILE_BYTES } from './limits.ts';
import type { Project } from './project.ts';
import { toText } from './to-text.ts';

/**
 * A whole project in an address: `#project=1.<check>.<text>`, the text of its file packed (zlib, RFC 1950) and written
 * in base64url (RFC 4648, section 5). What stands after `#` is never sent to any server.
 */
const MARK = '#project=';
const VERSION = '1';
/** So many signs tell whether the text is the one that was sent. */
const CHECK_SIGNS = 6;

/** Longer links are not made, in characters: programs that pass messages on cut them. */
export const MAX_LINK_CHARS = 60_000;

/** Longer ones some programs for mail and chat break: a caution from practice, no standard says so. */
export const EASY_LINK_CHARS = 2_000;

/** Longer ones are not read, in characters: no browser passes on as much in one piece. */
const MAX_READ_CHARS = 4_000_000;

/** The link that holds a project, however long. `base`: the address of the app, without anything after `#`. */
export function linkOf(project: Project, base: string): string {
  const text = toBase64Url(zlibSync(strToU8(toText(project)), { level: 9 }));
  return `${base}${MARK}${VERSION}.${codeOf(text, CHECK_SIGNS)}.${text}`;
}

/** The project without pictures under its drawings and of its fabrics, which take most room. */
export const withoutPictures = (project: Project): Project => ({
  ...project,
  fabrics: project.fabrics.map(({ picture: _, ...fabric }) => fabric),
  blocks: project.blocks.map(({ picture: _, ...block }) => block),
});

export const hasPictures = ({ fabrics, blocks }: Project): boolean =>
  [...fabrics, ...blocks].some(({ picture }) => picture !== undefined);

/** Whether the part of an address after `#`, with it, claims to hold a project. */
export const isLink = (hash: string): boolean => hash.startsWith(MARK);

/** The project in a link, from its `#` on. What is broken or too large comes as one sentence. Never throws. */
export function openLink(hash: string): OpenedFile {
  if (hash.length > MAX_READ_CHARS) return TOO_LARGE();
  const [version, check, text, ...rest] = hash.slice(MARK.length).split('.');
  if (Number(version) > Number(VERSION) && text !== undefined)
    return refused(phrase('The link is of a newer kind: open it with a newer Underpaper.'));
  const isAsSent =
    version === VERSION && rest.length === 0 && text !== undefined && codeOf(text, CHECK_SIGNS) === check;
  const packed = isAsSent ? fromBase64Url(text) : null;
  if (packed === null)
    return refused(
      phrase(
        'The link is broken: a part of it is missing or has changed on its way. Ask for it again, or for a file.',
      ),
    );
  const unpacked = unpack(packed);
  if (unpacked === 'too-large') return TOO_LARGE();
  if (unpacked === null) return refused(phrase('The link is broken: what it holds cannot be unpacked.'));
  return openFile(unpacked);
}

const refused = (message: string): OpenedFile => ({ ok: false, error: { kind: 'invalid', message } });

const TOO_LARGE = (): OpenedFile =>
  refused(phrase('The link holds more than a project may have. Ask for it as a file.'));

/** Unpacks no more than a project file may have, so that a small link cannot fill the memory. */
function unpack(packed: Uint8Array): string | 'too-large' | null {
  const parts: Uint8Array[] = [];
  let length = 0;
  let isWhole = false;
  // Two bytes of head and four of sum stand round the packed text itself.
  const inflate = new Inflate((part, isLast) => {
    length += part.length;
    if (length > MAX_FILE_BYTES) throw new TooLarge();
    parts.push(part);
    isWhole = isLast;
  });
  const body = packed.subarray(2, -4);
  try {
    // A small piece may unpack a thousandfold, so it is asked after each.
    const step = 4_096;
    for (let at = 0; at < body.length; at += step)
      inflate.push(body.subarray(at, at + step), at + step >= body.length);
  } catch (trouble) {
    return trouble instanceof TooLarge ? 'too-large' : null;
  }
  if (!isWhole) return null;
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return strFromU8(whole);
}

class TooLarge extends Error {}

function toBase64Url(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += 8_192)
    parts.push(String.fromCharCode(...bytes.subarray(at, at + 8_192)));
  return btoa(parts.join('')).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

function fromBase64Url(text: string): Uint8Array | null {
  if (!/^[\w-]+$/.test(text)) return null;
  try {
    return Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), (char) =>
      char.charCodeAt(0),
    );
  } catch {
    return null;
  }
}
