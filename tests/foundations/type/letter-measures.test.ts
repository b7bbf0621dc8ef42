import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create } from 'fontkit';
import { describe, expect, it } from 'vitest';
import { isPlain, measuresOf } from '../../../src/foundations/type/letter-measures.ts';
import regular from '../../../src/foundations/type/letters-regular.json' with { type: 'json' };
import semibold from '../../../src/foundations/type/letters-semibold.json' with { type: 'json' };
import { suffices } from '../../../src/foundations/type/typeface.ts';
import { Prng } from '../../designs/prng.ts';
import { typeface } from '../harbour.ts';

/** The tables against the font as it is installed, laid out by fontkit, which also sets the text of the PDF. */
const FACES = [
  ['400Regular/SourceSans3_400Regular.ttf', regular],
  ['600SemiBold/SourceSans3_600SemiBold.ttf', semibold],
] as const;

describe.each(FACES)('the letters of %s', (file, table) => {
  const bytes = readFileSync(
    createRequire(import.meta.url).resolve(`@expo-google-fonts/source-sans-3/${file}`),
  );
  const measures = measuresOf(table);
  const font = create(bytes) as ReturnType<typeof create> & { readonly characterSet: readonly number[] };
  const letters = font.characterSet.map((code) => String.fromCodePoint(code)).filter(isPlain);
  const differing = (texts: readonly string[]): string[] =>
    texts.filter((text) => {
      const run = font.layout(text);
      const { width, up, down } = measures.extent(text);
      // A font states the box of a letter in whole units, the library works it out along its curves.
      const isFar =
        text.trim() !== '' && Math.max(Math.abs(run.bbox.maxY - up), Math.abs(run.bbox.minY - down)) > 4;
      return run.advanceWidth !== width || isFar;
    });

  it('are all there, and no others', () => {
    expect(letters.length).toBeGreaterThan(1_000);
    expect(font.characterSet.filter((code) => !measures.has(code))).toEqual([]);
    for (const code of [0x378, 0x3042, 0x627, 0x1f9f5]) expect(measures.has(code)).toBe(false);
  });

  it('reach as far as they are set, each alone', () => expect(differing(letters)).toEqual([]));

  it('are kerned and joined as they are set, in pairs of the keyboard and in words', () => {
    const keys = letters.filter((letter) => letter >= ' ' && letter <= '~');
    expect(differing(keys.flatMap((a) => keys.map((b) => a + b)))).toEqual([]);
    expect(differing(['ffi', 'fi ', 'offset', 'fft', 'ffj', 'Tyto', 'AVA ', 'L’Été', 'Żółw'])).toEqual([]);
    const seed = 20_260_611;
    const random = new Prng(seed);
    const some = (): string => letters[random.whole(0, letters.length - 1)]!;
    const words = Array.from({ length: 10_000 }, () =>
      Array.from({ length: random.whole(2, 8) }, some).join(''),
    );
    expect(differing(words), `seed ${seed}`).toEqual([]);
  });
});

describe('a name', () => {
  it.each(['Harbour sampler', 'Łódź – kuter', 'Ship’s lantern', 'Маяк', '', 'a\u0301'])(
    'such as “%s” needs no more than the typeface',
    (name) => expect(suffices(typeface, name)).toBe(true),
  );

  it.each(['灯台', 'منارة', 'Φάρος', 'x\u0323\u0301', '1\u20442'])('such as “%s” needs more', (name) =>
    expect(suffices(typeface, name)).toBe(false),
  );
});
