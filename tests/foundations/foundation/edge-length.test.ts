import { describe, expect, it } from 'vitest';
import { PAGES } from '../../../src/document/pages.ts';
import { layOutBooklet } from '../../../src/foundations/booklet/booklet.ts';
import { marksOf } from '../../../src/foundations/sheet/sheet.ts';
import { distance } from '../../../src/geometry/ring.ts';
import { piece } from '../../../src/piecing/piece.ts';
import { block, harbour, pennant, print, textsOf, typeface } from '../harbour.ts';

const wordsOn = (sheets: ReturnType<typeof print>['sheets']): readonly string[] =>
  sheets.flatMap((sheet) => textsOf(marksOf(sheet)).map(({ text }) => text));

describe('the edge that a paper names', () => {
  it('has its length in the unit of the project, against the nearest line of a ruler', () => {
    // A square standing on a corner: four edges of 3 · √2 in, which no ruler shows.
    const corners = [
      [3, 0],
      [6, 3],
      [3, 6],
      [0, 3],
    ] as const;
    const buoy = block('buoy', 'Mooring buoy', corners, []);
    const saidIn = (unit: 'in' | 'mm') =>
      wordsOn(print([buoy], { project: { unit } }).sheets).filter((text) => text.startsWith('this edge'));
    // 3 · √2 = 4.2426 (OEIS A010474: 4.24264068…), and 4 1/4 is 4.25.
    expect(saidIn('in')).toEqual(['this edge just under 4 1/4 in']);
    const said = saidIn('mm');
    expect(said).toHaveLength(1);
    const found = /^this edge ([\d.]+) mm$/.exec(said[0]!);
    // 1 in = 25.4 mm exactly (NBS Circular 572 addendum, 1960); a ruler is read to half a millimetre at best.
    expect(Math.abs(Number(found?.[1]) / 25.4 - distance(corners[0], corners[1]))).toBeLessThan(0.1 / 25.4);
  });
});

describe('the fabrics on the cover', () => {
  it('keep every letter of a long name', () => {
    const name = 'Deep water off the breakwater before a storm, second dyeing, left side of the bolt';
    const project = {
      ...harbour,
      fabrics: harbour.fabrics.map((fabric) => ({ ...fabric, name })),
      blocks: [pennant],
    };
    const { sheets } = layOutBooklet(
      { project, jobs: [{ block: pennant, plan: piece(pennant), copies: 1, isMirrored: false }] },
      { page: PAGES.letter, margin: 0.25, side: 'printed', printedOn: '24 November 2026', typeface },
      new Set(['cover']),
    );
    const words = wordsOn(sheets);
    expect(words.join(' ')).toContain(name);
    expect(words.filter((text) => text.includes('…'))).toEqual([]);
  });
});
