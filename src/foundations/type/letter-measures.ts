/**
 * How far plain texts reach in a TrueType font: its letters, their ligatures and their kerning, read from the font's
 * own tables (OpenType 1.9: cmap 4 and 12, hmtx, glyf, GSUB 4 of `liga`, GPOS 2 of `kern`). Nothing is drawn or
 * embedded by it, so that sheets can be laid out and shown before the library that does that is loaded.
 */
export interface LetterMeasures {
  readonly unitsPerEm: number;
  has(codePoint: number): boolean;
  /** Ink of a text, in the font's units: `up` the highest above the baseline, `down` the lowest, less than 0 below it. */
  extent(text: string): { readonly width: number; readonly up: number; readonly down: number };
}

/**
 * Whether a text is no more than its letters one after another. Marks set on letters, fractions to be built and Greek
 * letters among Latin ones, which change their look there, are more.
 */
export const isPlain = (text: string): boolean => !/[\p{M}\p{Script=Greek}\u2044]/u.test(text);

/** Throws when the bytes are no TrueType font. */
export function readMeasures(bytes: Uint8Array): LetterMeasures {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const table = tablesOf(view);
  const head = table('head');
  const glyf = table('glyf');
  const loca = table('loca');
  const hmtx = table('hmtx');
  const isLong = view.getInt16(head + 50) === 1;
  const widths = view.getUint16(table('hhea') + 34);
  const letterOf = letters(view, table('cmap'));
  const ligatures = lookupsOf(view, table('GSUB'), 'liga', 4).flatMap((at) => ligaturesOf(view, at));
  const kerning = lookupsOf(view, table('GPOS'), 'kern', 2).map((at) => pairsOf(view, at));

  const placeOf = (glyph: number): number =>
    isLong ? view.getUint32(loca + 4 * glyph) : 2 * view.getUint16(loca + 2 * glyph);
  const advanceOf = (glyph: number): number => view.getUint16(hmtx + 4 * Math.min(glyph, widths - 1));

  const glyphsOf = (text: string): number[] => {
    const glyphs = Array.from(text, (letter) => letterOf(letter.codePointAt(0)!));
    for (let i = 0; i < glyphs.length; i++) {
      const joined = ligatures.find(
        ({ first, rest }) => first === glyphs[i] && rest.every((next, k) => next === glyphs[i + 1 + k]),
      );
      if (joined) glyphs.splice(i, 1 + joined.rest.length, joined.glyph);
    }
    return glyphs;
  };
  return {
    unitsPerEm: view.getUint16(head + 18),
    has: (codePoint) => letterOf(codePoint) !== 0,
    extent(text) {
      let width = 0;
      let up = Number.NEGATIVE_INFINITY;
      let down = Number.POSITIVE_INFINITY;
      const glyphs = glyphsOf(text);
      for (const [i, glyph] of glyphs.entries()) {
        width += advanceOf(glyph);
        const next = glyphs[i + 1];
        if (next !== undefined) for (const kern of kerning) width += kern(glyph, next);
        const at = placeOf(glyph);
        // A letter without ink, such as the blank, has no box.
        if (placeOf(glyph + 1) === at) continue;
        down = Math.min(down, view.getInt16(glyf + at + 4));
        up = Math.max(up, view.getInt16(glyf + at + 8));
      }
      return { width, up, down };
    },
  };
}

/** Where each table of a font begins. */
function tablesOf(view: DataView): (tag: string) => number {
  const places = new Map<string, number>();
  for (let i = 0; i < view.getUint16(4); i++) {
    const at = 12 + 16 * i;
    places.set(tagAt(view, at), view.getUint32(at + 8));
  }
  return (tag) => {
    const at = places.get(tag);
    if (at === undefined) throw new Error(`The font has no table ${tag}.`);
    return at;
  };
}

const tagAt = (view: DataView, at: number): string =>
  String.fromCharCode(...[0, 1, 2, 3].map((i) => view.getUint8(at + i)));

/** The number of the glyph that stands for a code point; 0 for none. */
function letters(view: DataView, cmap: number): (codePoint: number) => number {
  const glyphs = new Map<number, number>();
  const formats = new Map<number, number>();
  for (let i = 0; i < view.getUint16(cmap + 2); i++) {
    const at = cmap + view.getUint32(cmap + 4 + 8 * i + 4);
    formats.set(view.getUint16(at), at);
  }
  const wide = formats.get(12);
  const narrow = formats.get(4);
  if (wide !== undefined) {
    for (let i = 0; i < view.getUint32(wide + 12); i++) {
      const at = wide + 16 + 12 * i;
      const [first, last] = [view.getUint32(at), view.getUint32(at + 4)];
      for (let code = first; code <= last; code++) glyphs.set(code, view.getUint32(at + 8) + code - first);
    }
  } else if (narrow !== undefined) {
    const double = view.getUint16(narrow + 6);
    for (let at = narrow + 14; at < narrow + 14 + double; at += 2) {
      const start = at + 2 + double;
      const [first, last] = [view.getUint16(start), view.getUint16(at)];
      const delta = view.getUint16(start + double);
      const range = start + 2 * double;
      const offset = view.getUint16(range);
      for (let code = first; code <= last && code < 0xffff; code++) {
        const glyph = offset === 0 ? code : view.getUint16(range + offset + 2 * (code - first));
        if (glyph !== 0) glyphs.set(code, (glyph + delta) & 0xffff);
      }
    }
  } else throw new Error('The font names its letters in a way that is not read here.');
  return (codePoint) => glyphs.get(codePoint) ?? 0;
}

/** All lookups of a kind that a feature has in any script, in order. */
function lookupsOf(view: DataView, table: number, feature: string, kind: number): number[] {
  const features = table + view.getUint16(table + 6);
  const lookups = table + view.getUint16(table + 8);
  const wanted = new Set<number>();
  for (let i = 0; i < view.getUint16(features); i++) {
    const record = features + 2 + 6 * i;
    if (tagAt(view, record) !== feature) continue;
    const at = features + view.getUint16(record + 4);
    for (let k = 0; k < view.getUint16(at + 2); k++) wanted.add(view.getUint16(at + 4 + 2 * k));
  }
  return [...wanted]
    .sort((a, b) => a - b)
    .map((number) => lookups + view.getUint16(lookups + 2 + 2 * number))
    .filter((at) => kindOf(view, at) === kind);
}

/** A lookup may be an extension: then its parts say what kind they are (GSUB 7, GPOS 9). */
function kindOf(view: DataView, lookup: number): number {
  const kind = view.getUint16(lookup);
  return kind === 7 || kind === 9 ? view.getUint16(lookup + view.getUint16(lookup + 6) + 2) : kind;
}

function partsOf(view: DataView, lookup: number): number[] {
  const isExtension = kindOf(view, lookup) !== view.getUint16(lookup);
  return Array.from({ length: view.getUint16(lookup + 4) }, (_, i) => {
    const at = lookup + view.getUint16(lookup + 6 + 2 * i);
    return isExtension ? at + view.getUint32(at + 4) : at;
  });
}

interface Ligature {
  readonly first: number;
  readonly rest: readonly number[];
  readonly glyph: number;
}

function ligaturesOf(view: DataView, lookup: number): Ligature[] {
  return partsOf(view, lookup).flatMap((part) =>
    [...covered(view, part + view.getUint16(part + 2))].flatMap(([first, index]): Ligature[] => {
      const set = part + view.getUint16(part + 6 + 2 * index);
      return Array.from({ length: view.getUint16(set) }, (_, i) => {
        const at = set + view.getUint16(set + 2 + 2 * i);
        const rest = Array.from({ length: view.getUint16(at + 2) - 1 }, (_, k) =>
          view.getUint16(at + 4 + 2 * k),
        );
        return { first, rest, glyph: view.getUint16(at) };
      });
    }),
  );
}

type Pairs = (left: number, right: number) => number;

/** What is added between two glyphs: by the first part of the lookup that knows the pair. */
function pairsOf(view: DataView, lookup: number): Pairs {
  const parts = partsOf(view, lookup).map((part) => pairPart(view, part));
  return (left, right) => {
    for (const part of parts) {
      const added = part(left, right);
      if (added !== null) return added;
    }
    return 0;
  };
}

function pairPart(view: DataView, part: number): (left: number, right: number) => number | null {
  const index = covered(view, part + view.getUint16(part + 2));
  const [one, two] = [view.getUint16(part + 4), view.getUint16(part + 6)];
  const size = 2 * (bits(one) + bits(two));
  // The advance of the left glyph comes after its two placements, where they are there.
  const advance = (at: number): number => (one & 4 ? view.getInt16(at + 2 * bits(one & 3)) : 0);
  if (view.getUint16(part) === 1)
    return (left, right) => {
      const known = index.get(left);
      if (known === undefined) return null;
      const set = part + view.getUint16(part + 10 + 2 * known);
      // Sorted by the right glyph.
      let [low, high] = [0, view.getUint16(set)];
      while (low < high) {
        const middle = (low + high) >> 1;
        const at = set + 2 + (2 + size) * middle;
        const glyph = view.getUint16(at);
        if (glyph === right) return advance(at + 2);
        if (glyph < right) low = middle + 1;
        else high = middle;
      }
      return null;
    };
  const lefts = classes(view, part + view.getUint16(part + 8));
  const rights = classes(view, part + view.getUint16(part + 10));
  const across = view.getUint16(part + 14);
  return (left, right) =>
    index.has(left)
      ? advance(part + 16 + size * (across * (lefts.get(left) ?? 0) + (rights.get(right) ?? 0)))
      : null;
}

const bits = (mask: number): number => mask.toString(2).replaceAll('0', '').length;

/** The glyphs that a coverage table lists, each with its index. */
function covered(view: DataView, at: number): Map<number, number> {
  const index = new Map<number, number>();
  const count = view.getUint16(at + 2);
  for (let i = 0; i < count; i++) {
    if (view.getUint16(at) === 1) index.set(view.getUint16(at + 4 + 2 * i), i);
    else {
      const [first, last, start] = triple(view, at + 4 + 6 * i);
      for (let glyph = first; glyph <= last; glyph++) index.set(glyph, start + glyph - first);
    }
  }
  return index;
}

/** The class of each glyph that a class table lists; all others are of class 0. */
function classes(view: DataView, at: number): Map<number, number> {
  const classOf = new Map<number, number>();
  if (view.getUint16(at) === 1) {
    const first = view.getUint16(at + 2);
    for (let i = 0; i < view.getUint16(at + 4); i++) classOf.set(first + i, view.getUint16(at + 6 + 2 * i));
  } else
    for (let i = 0; i < view.getUint16(at + 2); i++) {
      const [first, last, its] = triple(view, at + 4 + 6 * i);
      for (let glyph = first; glyph <= last; glyph++) classOf.set(glyph, its);
    }
  return classOf;
}

const triple = (view: DataView, at: number): [number, number, number] => [
  view.getUint16(at),
  view.getUint16(at + 2),
  view.getUint16(at + 4),
];
