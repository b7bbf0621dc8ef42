import type * as z from 'zod/mini';
import { snap } from '../geometry/lattice.ts';
import { numeral } from '../words/numeral.ts';
import { phrase } from '../words/phrase.ts';
import { checkWhole } from './file-check.ts';
import { type Path, placeOf, sentenceOf } from './file-place.ts';
import { type FileProject, fileProject } from './file-schema.ts';
import { MAX_FILE_BYTES, onLattice } from './limits.ts';
import type { JsonObject } from './migration.ts';
import { FILE_VERSION, migrate } from './migrations.ts';
import { DEFAULT_SEAM_ALLOWANCE_IN, type Project, type UnderPicture } from './project.ts';
import { readQuilt } from './read-quilt.ts';
import { pictureSpot, USUAL_STRENGTH } from './under-picture.ts';
import { settledFromVersion1 } from './version-1.ts';

/**
 * - `too-large`: over `MAX_FILE_BYTES`. `empty`: nothing but blanks. `cut-off`: stops in the middle.
 * - `not-json`: no JSON at all. `too-deep`: nested deeper than any project. `other-program`: JSON of something else.
 * - `newer-version`: made by a later Underpaper. `invalid`: something in it is missing, wrong or too much.
 */
export type FileErrorKind =
  | 'too-large'
  | 'empty'
  | 'cut-off'
  | 'not-json'
  | 'too-deep'
  | 'other-program'
  | 'newer-version'
  | 'invalid';

export interface FileError {
  readonly kind: FileErrorKind;
  /** One plain sentence on one line. */
  readonly message: string;
  /** Where, in plain words, when it is somewhere: `Block 3 ‘Gull’, cut 2` or `line 12`. */
  readonly place?: string;
}

export type OpenedFile =
  | { readonly ok: true; readonly project: Project }
  | { readonly ok: false; readonly error: FileError };

/** Nesting no project comes near to; what is deeper could overflow whatever reads it after us. */
const MAX_DEPTH = 64;

/** Says whether a file is too large to read at all, so that callers can refuse before reading. Null when it is not. */
export function checkFileSize(bytes: number): FileError | null {
  if (bytes <= MAX_FILE_BYTES) return null;
  const megabytes = (size: number) => numeral(Math.ceil(size / 1_000_000));
  return {
    kind: 'too-large',
    message: phrase('The file is {megabytes} MB; files of up to {megabytes2} MB can be opened.', {
      megabytes: megabytes(bytes),
      megabytes2: megabytes(MAX_FILE_BYTES),
    }),
  };
}

/**
 * Reads the text of a project file, any version up to this one. All of it is checked before anything comes out:
 * either a whole project, every coordinate on the lattice, or one error. Never throws. An outline that cannot be
 * used (crossing itself, without area) is no error here: such a block opens and its piecing plan says why.
 */
export function openFile(text: string): OpenedFile {
  const tooLarge = checkFileSize(text.length);
  if (tooLarge !== null) return { ok: false, error: tooLarge };
  const parsed = parseJson(text.replace(/^\uFEFF/, ''));
  if (!parsed.ok) return parsed;
  const opened = openJson(parsed.json);
  // A file with NaN in it parses only in its mended form: if nothing there was wrong but that, say that.
  return parsed.trouble !== null && opened.ok ? { ok: false, error: parsed.trouble } : opened;
}

type ParsedJson =
  | { readonly ok: true; readonly json: unknown; readonly trouble: FileError | null }
  | { readonly ok: false; readonly error: FileError };

function parseJson(text: string): ParsedJson {
  if (text.trim() === '')
    return { ok: false, error: { kind: 'empty', message: phrase('The file is empty.') } };
  const { endsOpen, deepest, notNumbers } = scan(text);
  if (deepest > MAX_DEPTH) return { ok: false, error: TOO_DEEP };
  try {
    return { ok: true, json: JSON.parse(text), trouble: null };
  } catch (thrown) {
    if (endsOpen && /^\s*[{[]/.test(text)) {
      return {
        ok: false,
        error: { kind: 'cut-off', message: phrase('The file stops in the middle: its end is missing.') },
      };
    }
    const trouble = notJson(text, thrown);
    const mended = notNumbers.length === 0 ? null : parseOrNull(withNulls(text, notNumbers));
    return mended === null ? { ok: false, error: trouble } : { ok: true, json: mended, trouble };
  }
}

const TOO_DEEP: FileError = {
  kind: 'too-deep',
  message: phrase('The file is not an Underpaper project: it is nested more than {maxDepth} levels deep.', {
    maxDepth: MAX_DEPTH,
  }),
};

/** What one look through a text tells before it is parsed. */
interface Scan {
  /** It ends inside a string or inside brackets. */
  readonly endsOpen: boolean;
  /** Most brackets open at once: parsers and whatever walks the result need that much stack. */
  readonly deepest: number;
  /** Where NaN and the like stand. */
  readonly notNumbers: readonly Stretch[];
}

type Stretch = readonly [from: number, to: number];

function scan(text: string): Scan {
  const notNumbers: Stretch[] = [];
  const notNumber = /-?(?:NaN|Infinity)\b/y;
  let depth = 0;
  let deepest = 0;
  let isInString = false;
  for (let i = 0; i < text.length; i++) {
    const char = text[i];
    if (isInString) {
      if (char === '\\') i++;
      else if (char === '"') isInString = false;
    } else if (char === '"') isInString = true;
    else if (char === '{' || char === '[') deepest = Math.max(deepest, ++depth);
    else if (char === '}' || char === ']') depth--;
    else if ((char === 'N' || char === 'I' || char === '-') && notNumbers.length < MOST_MENDED) {
      notNumber.lastIndex = i;
      if (!notNumber.test(text)) continue;
      notNumbers.push([i, notNumber.lastIndex]);
      i = notNumber.lastIndex - 1;
    }
  }
  return { endsOpen: isInString || depth > 0, deepest, notNumbers };
}

/** More than so many NaN in one file are not worth the place of the first. */
const MOST_MENDED = 100_000;

/**
 * Some programs write NaN and Infinity, which JSON does not have. With null in their places the rest can be
 * checked, and the error can name the block and the cut instead of a line.
 */
function withNulls(text: string, stretches: readonly Stretch[]): string {
  const parts: string[] = [];
  let done = 0;
  for (const [from, to] of stretches) {
    parts.push(text.slice(done, from), 'null');
    done = to;
  }
  return parts.join('') + text.slice(done);
}

function parseOrNull(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function notJson(text: string, thrown: unknown): FileError {
  const place = lineOf(text, thrown instanceof Error ? thrown.message : '');
  return {
    kind: 'not-json',
    message: phrase(
      'The file is not an Underpaper project: {isPlace, select, true {it} other {{place}}} is not valid JSON.',
      { isPlace: place === null, place },
    ),
    ...(place === null ? {} : { place }),
  };
}

/** The line a parser complains about, from the words each engine uses for it; null when it does not say. */
function lineOf(text: string, complaint: string): string | null {
  const line = /line (\d+)/.exec(complaint)?.[1];
  if (line !== undefined) return phrase('line {line}', { line });
  const position = /position (\d+)/.exec(complaint)?.[1];
  return position === undefined
    ? null
    : phrase('line {split}', { split: text.slice(0, Number(position)).split('\n').length });
}

const invalid = (place: string | null, message: string): OpenedFile => ({
  ok: false,
  error: { kind: 'invalid', message, ...(place === null ? {} : { place }) },
});

function openJson(json: unknown): OpenedFile {
  if (!isJsonObject(json) || json.format !== 'underpaper') {
    return {
      ok: false,
      error: {
        kind: 'other-program',
        message: phrase(
          'The file is not an Underpaper project: it does not begin with "format": "underpaper".',
        ),
      },
    };
  }
  const { version } = json;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return invalid(null, phrase('The file does not say which version of the format it has.'));
  }
  if (version > FILE_VERSION) {
    return {
      ok: false,
      error: {
        kind: 'newer-version',
        message: phrase(
          'The file has version {version} of the format, and this Underpaper reads up to version {fileVersion}: open it with a newer Underpaper.',
          { version, fileVersion: FILE_VERSION },
        ),
      },
    };
  }
  const unsafe = unsafeError(json);
  if (unsafe !== null) return { ok: false, error: unsafe };

  const { file: migrated, ...step } = migrate(json, version);
  const wrong = (issue: z.core.$ZodIssue | undefined): OpenedFile => {
    const path = issue?.path ?? [];
    return invalid(placeOf(path, migrated), sentenceOf(path, issue?.message ?? phrase('is wrong'), migrated));
  };
  if (!step.ok) return wrong(step.issue);
  const checked = fileProject.safeParse(migrated);
  if (!checked.success) return wrong(checked.error.issues[0]);
  const fault = checkWhole(checked.data);
  if (fault !== null) {
    return invalid(placeOf(fault.path, migrated), sentenceOf(fault.path, fault.predicate, migrated));
  }
  const project = toProject(checked.data);
  return { ok: true, project: version === 1 ? settledFromVersion1(project) : project };
}

const isJsonObject = (json: unknown): json is JsonObject =>
  typeof json === 'object' && json !== null && !Array.isArray(json);

function unsafeError(json: JsonObject): FileError | null {
  const path = pathOfUnsafeKey(json);
  if (path === null) return null;
  const place = placeOf(path, json);
  return {
    kind: 'invalid',
    message: sentenceOf(path, phrase('has a key ‘__proto__’, which a file cannot use'), json),
    ...(place === null ? {} : { place }),
  };
}

/** The path to what holds a key that must not reach code copying objects key by key; null when nothing does. */
function pathOfUnsafeKey(value: unknown): Path | null {
  if (typeof value !== 'object' || value === null) return null;
  if (Array.isArray(value)) {
    for (let i = 0; i < value.length; i++) {
      const path = pathOfUnsafeKey(value[i]);
      if (path !== null) return [i, ...path];
    }
    return null;
  }
  for (const [key, inner] of Object.entries(value)) {
    if (key === '__proto__') return [];
    const path = pathOfUnsafeKey(inner);
    if (path !== null) return [key, ...path];
  }
  return null;
}

/** Snaps, fills in what is left out, and keeps the keys that this version does not know. */
function toProject({ format: _format, version: _version, quilt, ...file }: FileProject): Project {
  return {
    ...file,
    unit: file.unit ?? 'in',
    seamAllowance: snap(file.seamAllowance ?? DEFAULT_SEAM_ALLOWANCE_IN) + 0,
    fabrics: (file.fabrics ?? []).map((fabric) => ({ ...fabric, color: fabric.color.toLowerCase() })),
    blocks: file.blocks.map(({ picture, orders, ...block }) => ({
      ...block,
      outline: block.outline.map(onLattice),
      cuts: (block.cuts ?? []).map(({ locked, ...cut }) => ({
        ...cut,
        from: onLattice(cut.from),
        to: onLattice(cut.to),
        role: cut.role ?? 'auto',
        ...(locked === true ? { locked } : {}),
      })),
      patches: (block.patches ?? []).map(({ fabric, ...patch }) => ({
        ...patch,
        at: onLattice(patch.at),
        ...(fabric === undefined ? {} : { fabric }),
      })),
      ...(orders && { orders }),
      ...(picture && { picture: toUnderPicture(picture) }),
    })),
    ...(quilt && { quilt: readQuilt(quilt) }),
  };
}

function toUnderPicture(picture: NonNullable<FileProject['blocks'][number]['picture']>): UnderPicture {
  const [a, b, c, d] = picture.corners;
  return {
    ...picture,
    corners: [pictureSpot(a), pictureSpot(b), pictureSpot(c), pictureSpot(d)],
    strength: picture.strength ?? USUAL_STRENGTH,
    shown: picture.shown ?? true,
    locked: picture.locked ?? false,
  };
}
