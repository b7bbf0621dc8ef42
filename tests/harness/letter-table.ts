import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { create } from 'fontkit';
import { isPlain, type LetterTable } from '../../src/foundations/type/letter-measures.ts';
import type { Face } from '../../src/foundations/type/typeface.ts';

/**
 * `npm run letters`: how far the letters of the typeface reach, as fontkit lays them out, written down as tables, so
 * that sheets can be laid out before a font or that library is loaded. To be run again when the package of the
 * typeface changes; takes some minutes. tests/foundations/type/letter-measures.test.ts holds the tables true.
 */

const FILES: Readonly<Record<Face, string>> = {
  regular: '400Regular/SourceSans3_400Regular.ttf',
  semibold: '600SemiBold/SourceSans3_600SemiBold.ttf',
};

type OpenFont = ReturnType<typeof create> & { readonly characterSet: readonly number[] };
type Lay = (text: string) => Laid;

interface Laid {
  readonly glyphs: readonly {
    readonly advanceWidth: number;
    /** The box that the font states for it; of no meaning where nothing is drawn. */
    readonly cbox: { readonly minY: number; readonly maxY: number };
    readonly path: { readonly commands: readonly unknown[] };
  }[];
  readonly positions: readonly { readonly xAdvance: number }[];
}

function tableOf(bytes: Uint8Array): LetterTable {
  const font = create(bytes) as OpenFont;
  const lay: Lay = (text) => font.layout(text) as unknown as Laid;
  const all = font.characterSet.map((code) => String.fromCodePoint(code));
  const letters = all.filter(isPlain);
  const joined = ligaturesAmong(letters, lay);
  const entries = [...letters, ...joined];
  const glyphs = entries.map((entry) => lay(entry).glyphs[0]!);
  const kerns = entries.map(() => entries.map(() => 0));
  for (const [a, first] of entries.entries()) kernsBeside(a, first, entries, lay, kerns);
  const rows = alike(kerns);
  const columns = alike(entries.map((_, i) => kerns.map((row) => row[i]!)));
  return {
    unitsPerEm: font.unitsPerEm,
    letters: letters.join(''),
    others: all.filter((letter) => !isPlain(letter)).join(''),
    joined,
    advance: glyphs.map(({ advanceWidth }) => advanceWidth),
    up: glyphs.map(({ cbox, path }) => (path.commands.length > 0 ? cbox.maxY : null)),
    down: glyphs.map(({ cbox, path }) => (path.commands.length > 0 ? cbox.minY : null)),
    left: rows.kindOf,
    right: columns.kindOf,
    kerns: rows.firsts.map((row) => columns.firsts.map((column) => kerns[row]![column]!)),
  };
}

/** Letters that are drawn as one where they follow each other, the longest first. */
function ligaturesAmong(letters: readonly string[], lay: Lay): string[] {
  const pairs = letters.flatMap((first) => {
    const isPlainBeside = (others: readonly string[]): boolean =>
      lay(others.map((other) => first + other).join('')).glyphs.length === 2 * others.length;
    if (isPlainBeside(letters)) return [];
    return letters.map((other) => first + other).filter((pair) => lay(pair).glyphs.length === 1);
  });
  const triples = pairs.flatMap((pair) =>
    letters.map((other) => pair + other).filter((three) => lay(three).glyphs.length === 1),
  );
  return [...triples, ...pairs];
}

/** What is added between an entry and each other one, on either side of it. */
function kernsBeside(
  a: number,
  first: string,
  entries: readonly string[],
  lay: Lay,
  kerns: number[][],
): void {
  const whole = lay(entries.map((other) => first + other).join(''));
  const isWhole = whole.glyphs.length === 2 * entries.length;
  for (const [b, other] of entries.entries()) {
    const added = (laid: Laid, at: number): number =>
      Math.round(1e3 * (laid.positions[at]!.xAdvance - laid.glyphs[at]!.advanceWidth)) / 1e3;
    if (isWhole) {
      kerns[a]![b] = added(whole, 2 * b);
      if (b + 1 < entries.length) kerns[b]![a] = added(whole, 2 * b + 1);
      continue;
    }
    for (const [one, two, left, right] of [
      [first, other, a, b],
      [other, first, b, a],
    ] as const) {
      const pair = lay(one + two);
      kerns[left]![right] = pair.glyphs.length === 2 ? added(pair, 0) : 0;
    }
  }
}

/** Which rows are the same: the kind of each, and the first of each kind. */
function alike(rows: readonly (readonly number[])[]): {
  readonly kindOf: number[];
  readonly firsts: number[];
} {
  const kinds = new Map<string, number>();
  const firsts: number[] = [];
  const kindOf = rows.map((row, i) => {
    const key = row.join();
    const known = kinds.get(key);
    if (known !== undefined) return known;
    kinds.set(key, firsts.length);
    return firsts.push(i) - 1;
  });
  return { kindOf, firsts };
}

const { resolve } = createRequire(import.meta.url);
for (const face of ['regular', 'semibold'] as const) {
  const table = tableOf(readFileSync(resolve(`@expo-google-fonts/source-sans-3/${FILES[face]}`)));
  const to = fileURLToPath(new URL(`../../src/foundations/type/letters-${face}.json`, import.meta.url));
  writeFileSync(to, `${JSON.stringify(table)}\n`);
  console.log(`${to}: ${[...table.letters].length} letters, ${table.joined.length} ligatures`);
}
