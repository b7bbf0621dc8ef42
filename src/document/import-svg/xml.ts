/**
 * A reader of XML, as much of it as a drawing needs: elements and their attributes, one after the other, as they
 * begin and end. Nothing is looked up, fetched or run. Entities that a file defines for itself are never spelled
 * out: a value that holds one comes with the reference in it, as it was written.
 * Source: Extensible Markup Language (XML) 1.0, fifth edition.
 */

export type XmlStep =
  | {
      readonly kind: 'begin';
      /** Without its prefix, `svg:path` → `path`; as written, for names are told apart by case. */
      readonly name: string;
      readonly attributes: ReadonlyMap<string, string>;
    }
  | { readonly kind: 'end'; readonly name: string };

export interface XmlFault {
  /** What is wrong, as a sentence without its subject: `ends in the middle of a tag`. */
  readonly message: string;
}

/** Deeper nesting than this is no drawing. */
export const MAX_DEPTH = 500;

/** More elements than this are not read. */
export const MAX_ELEMENTS = 500_000;

const NAME = /[^\s/>=<"']+/y;
const BLANK = /\s*/y;

/**
 * Reads a document and hands over its steps in turn, until `visit` answers false or a fault is found; null when it
 * was read to its end, or left early on request. Cost: O(length).
 */
export function readXml(text: string, visit: (step: XmlStep) => boolean): XmlFault | null {
  const open: string[] = [];
  let elements = 0;
  let at = 0;
  const skipPast = (mark: string): boolean => {
    const found = text.indexOf(mark, at);
    if (found < 0) return false;
    at = found + mark.length;
    return true;
  };
  while (at < text.length) {
    const bracket = text.indexOf('<', at);
    if (bracket < 0) break;
    at = bracket;
    if (text.startsWith('<!--', at)) {
      at += 4;
      if (!skipPast('-->')) return { message: 'ends in the middle of a comment' };
    } else if (text.startsWith('<![CDATA[', at)) {
      if (!skipPast(']]>')) return { message: 'ends in the middle of a piece of text' };
    } else if (text.startsWith('<?', at)) {
      if (!skipPast('?>')) return { message: 'ends in the middle of an instruction' };
    } else if (text.startsWith('<!', at)) {
      const end = pastDeclaration(text, at);
      if (end < 0) return { message: 'ends in the middle of a declaration' };
      at = end;
    } else if (text.startsWith('</', at)) {
      const end = text.indexOf('>', at);
      if (end < 0) return { message: 'ends in the middle of a tag' };
      const name = localName(text.slice(at + 2, end).trim());
      const expected = open.pop();
      if (expected === undefined || expected !== name)
        return {
          message: `closes “${shown(name)}” where ${expected === undefined ? 'nothing is open' : `“${shown(expected)}” is open`}`,
        };
      at = end + 1;
      if (!visit({ kind: 'end', name })) return null;
    } else {
      const tag = readTag(text, at + 1);
      if (typeof tag === 'string') return { message: tag };
      at = tag.end;
      if (++elements > MAX_ELEMENTS)
        return { message: `has more than ${MAX_ELEMENTS.toLocaleString('en')} parts` };
      if (open.length >= MAX_DEPTH) return { message: `is nested deeper than ${MAX_DEPTH} levels` };
      const { name, attributes } = tag;
      if (!visit({ kind: 'begin', name, attributes })) return null;
      if (!tag.isEmpty) open.push(name);
      else if (!visit({ kind: 'end', name })) return null;
    }
  }
  return open.length === 0 ? null : { message: `ends while “${shown(open.at(-1)!)}” is still open` };
}

interface Tag {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly isEmpty: boolean;
  readonly end: number;
}

/** The tag whose name begins at `start`, or what is wrong with it. */
function readTag(text: string, start: number): Tag | string {
  const match = (pattern: RegExp, at: number): string => {
    pattern.lastIndex = at;
    return pattern.exec(text)?.[0] ?? '';
  };
  const name = match(NAME, start);
  if (name === '') return 'has a “<” that begins no tag';
  let at = start + name.length;
  const attributes = new Map<string, string>();
  for (;;) {
    const blank = match(BLANK, at);
    at += blank.length;
    if (text.startsWith('/>', at)) return { name: localName(name), attributes, isEmpty: true, end: at + 2 };
    if (text[at] === '>') return { name: localName(name), attributes, isEmpty: false, end: at + 1 };
    const key = match(NAME, at);
    if (at >= text.length) return 'ends in the middle of a tag';
    if (key === '' || blank === '') return `has a tag “${shown(name)}” that cannot be read`;
    at += key.length;
    at += match(BLANK, at).length;
    if (text[at] !== '=') return `has a tag “${shown(name)}” with a value missing`;
    at += 1;
    at += match(BLANK, at).length;
    const quote = text[at];
    if (quote !== '"' && quote !== "'") return `has a tag “${shown(name)}” with a value not in quotes`;
    const end = text.indexOf(quote, at + 1);
    if (end < 0) return 'ends in the middle of a value';
    // The first of two alike counts; a prefixed one (xlink:href) keeps its prefix and stands for nothing here.
    if (!attributes.has(key)) attributes.set(key, unescaped(text.slice(at + 1, end)));
    at = end + 1;
  }
}

/** Past a `<!DOCTYPE … >` with whatever it declares in brackets; -1 when it does not end. */
function pastDeclaration(text: string, start: number): number {
  let brackets = 0;
  for (let at = start; at < text.length; at++) {
    const sign = text[at];
    if (sign === '"' || sign === "'") {
      const end = text.indexOf(sign, at + 1);
      if (end < 0) return -1;
      at = end;
    } else if (text.startsWith('<!--', at)) {
      const end = text.indexOf('-->', at);
      if (end < 0) return -1;
      at = end + 2;
    } else if (sign === '[') brackets++;
    else if (sign === ']') brackets--;
    else if (sign === '>' && brackets <= 0) return at + 1;
  }
  return -1;
}

const KNOWN: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

/** The five entities XML itself knows and numbered signs; any other reference stays as it is. */
function unescaped(value: string): string {
  if (!value.includes('&')) return value;
  return value.replace(/&(#x[0-9a-f]{1,6}|#[0-9]{1,7}|[a-z]+);/gi, (whole, name: string) => {
    if (!name.startsWith('#')) return KNOWN[name] ?? whole;
    const code = /^#x/i.test(name) ? Number.parseInt(name.slice(2), 16) : Number(name.slice(1));
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}

const localName = (name: string): string => name.slice(name.indexOf(':') + 1);

const shown = (name: string): string => (name.length > 24 ? `${name.slice(0, 24)}…` : name);
