/**
 * What `npm run letters` writes down of a face: its letters, those that are drawn as one (`ff`), and for each of both,
 * in that order, its advance, the box of its ink (null for none) and its kinds as the left and the right of two. All
 * in the font's own units.
 */
export interface LetterTable {
  readonly unitsPerEm: number;
  readonly letters: string;
  /** What else the face has: letters that are not plain, see `isPlain`. */
  readonly others: string;
  /** Longer ones before those they begin with. */
  readonly joined: readonly string[];
  readonly advance: readonly number[];
  readonly up: readonly (number | null)[];
  readonly down: readonly (number | null)[];
  readonly left: readonly number[];
  readonly right: readonly number[];
  /** What is added between two, by the kind of the left and then of the right. */
  readonly kerns: readonly (readonly number[])[];
}

/**
 * How far plain texts reach: their letters, ligatures and kerning, from a table. Nothing is drawn or embedded by it,
 * so that sheets can be laid out and shown before the library that does that, and the font itself, are loaded.
 */
export interface LetterMeasures {
  readonly unitsPerEm: number;
  has(codePoint: number): boolean;
  /** Ink of a text, in the font's units: `up` the highest above the baseline, `down` the lowest, less than 0 below it. */
  extent(text: string): { readonly width: number; readonly up: number; readonly down: number };
}

/**
 * Whether a text is no more than its letters one after another. Marks set on letters, signs that are not seen,
 * fractions to be built, and Greek letters among Latin ones, which change their look there, are more.
 */
export const isPlain = (text: string): boolean => !/[\p{M}\p{Cf}\p{Script=Greek}\u2044]/u.test(text);

/** The measures of a face; cost: O(letters) at first, then O(length of the text). */
export function measuresOf(table: LetterTable): LetterMeasures {
  const letters = [...table.letters];
  const has = new Set([...letters, ...table.others]);
  const numberOf = new Map([...letters, ...table.joined].map((entry, i) => [entry, i]));
  const entriesOf = (text: string): number[] => {
    const entries: number[] = [];
    const signs = [...text];
    for (let i = 0; i < signs.length; ) {
      const joined = table.joined.find((one) => [...one].every((sign, k) => sign === signs[i + k]));
      const entry = numberOf.get(joined ?? signs[i]!);
      if (entry !== undefined) entries.push(entry);
      i += joined === undefined ? 1 : [...joined].length;
    }
    return entries;
  };
  return {
    unitsPerEm: table.unitsPerEm,
    has: (codePoint) => has.has(String.fromCodePoint(codePoint)),
    extent(text) {
      let width = 0;
      let up = Number.NEGATIVE_INFINITY;
      let down = Number.POSITIVE_INFINITY;
      let before: number | null = null;
      for (const entry of entriesOf(text)) {
        if (before !== null) width += table.kerns[table.left[before]!]![table.right[entry]!]!;
        width += table.advance[entry]!;
        up = Math.max(up, table.up[entry] ?? up);
        down = Math.min(down, table.down[entry] ?? down);
        before = entry;
      }
      return { width, up, down };
    },
  };
}
