import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { openFile } from '../../../src/document/file.ts';
import type { Block } from '../../../src/document/project.ts';
import type { Mark } from '../../../src/foundations/marks.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { boxOf, contains } from '../../../src/geometry/ring.ts';
import { piece } from '../../../src/piecing/piece.ts';
import { inkCorners, print } from '../harbour.ts';

const demo = openFile(
  readFileSync(new URL('../../../public/demo/harbour-sampler.underpaper.json', import.meta.url), 'utf8'),
);
if (!demo.ok) throw new Error(demo.error.message);

/** The same drawing so many inches across at most, on the lattice. */
function resized(block: Block, inches: number): Block {
  const { minX, minY, maxX, maxY } = boxOf(block.outline);
  const scale = inches / Math.max(maxX - minX, maxY - minY);
  const place = ([x, y]: Point): Point => [
    Math.round((x - minX) * scale * 65_536) / 65_536,
    Math.round((y - minY) * scale * 65_536) / 65_536,
  ];
  return {
    ...block,
    outline: block.outline.map(place),
    cuts: block.cuts.map((cut) => ({ ...cut, from: place(cut.from), to: place(cut.to) })),
    patches: [],
    orders: [],
  };
}

const trimOf = (marks: readonly Mark[]): readonly Point[] =>
  marks.flatMap((mark) => (mark.kind === 'polygon' && mark.pen === 'trim' ? [mark.ring] : []))[0] ?? [];

it.each([
  [3, 0.05],
  [4, 0.02],
  [6, 0],
])('papers of blocks of %d in keep section, copy and stamp when they are trimmed', (inches, share) => {
  const blocks = demo.project.blocks.map((block) => resized(block, inches));
  const stamps = new Map(
    blocks.map((block) => [
      block.id,
      new Map(piece(block).sections.map(({ letter, stamp }) => [letter, stamp])),
    ]),
  );
  const { sheets } = print(blocks, { copies: 2, project: { fabrics: demo.project.fabrics } });
  const papers = sheets.flatMap(({ parts }) => parts.filter(({ paper }) => paper !== null));
  const cutOff = papers.filter(({ paper, marks }) => {
    const stamp = stamps.get(paper!.block)!.get(paper!.section)!;
    const says = (text: string): boolean => text.includes(stamp);
    const own = marks.filter((mark) => mark.kind === 'text' && says(mark.text));
    const trim = trimOf(marks);
    return !own.some((mark) => mark.kind === 'text' && inkCorners(mark).every((p) => contains(trim, p)));
  });
  expect(papers.length).toBeGreaterThan(100);
  expect(cutOff.length).toBeLessThanOrEqual(share * papers.length);
});
