import { describe, expect, it } from 'vitest';
import {
  type Drawing,
  type DrawingRequest,
  drawFoundation,
  titleOfCopy,
} from '../../../src/foundations/foundation/draw-foundation.ts';
import type { FabricLabel, LabelRoom } from '../../../src/foundations/foundation/label-request.ts';
import { tickCounts } from '../../../src/foundations/foundation/tick-counts.ts';
import { type Mark, PT } from '../../../src/foundations/marks.ts';
import type { Point, Segment } from '../../../src/geometry/point.ts';
import type { Block } from '../../../src/piecing/block.ts';
import { piece } from '../../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../../src/piecing/plan.ts';
import { designOf } from '../../designs/designs.ts';
import { TEN_TROUBLES } from '../../designs/ten-troubles.ts';
import {
  block,
  calm,
  gull,
  inkCorners,
  net,
  pennant,
  rope,
  square,
  textsOf,
  typeface,
  whirlpool,
  windmill,
} from '../harbour.ts';
import { overlappingTexts, textsOverLines } from '../overlaps.ts';

const wide: LabelRoom = { minX: -1, minY: -1, maxX: 40, maxY: 40, barriersX: [], barriersY: [], lines: [] };

const labels = new Map<string, FabricLabel>(
  ['Morning sky', 'Signal red', 'Lamp yellow', 'Night sea'].map((name, i) => [
    `f${i + 1}`,
    { name, code: `#${i + 1}`, meaning: name, look: { color: '#264f79', number: i } },
  ]),
);

function draw(plan: PiecingPlan, section = 'A', more: Partial<DrawingRequest> = {}): Drawing {
  return drawFoundation({
    plan,
    section,
    blockName: 'Harbour block',
    fabrics: labels,
    allowance: 0.25,
    side: 'printed',
    copies: 4,
    unit: 'in',
    room: wide,
    ticks: tickCounts(plan),
    style: 'outline',
    grain: false,
    large: false,
    typeface,
    ...more,
  });
}

const allMarks = (paper: Drawing): Mark[] => [...paper.marks, ...titleOfCopy(typeface, paper, 1)];
const words = (paper: Drawing): string[] => textsOf(allMarks(paper)).map(({ text }) => text);

const segments = (paper: Drawing, pen: string): Segment[] =>
  paper.marks.flatMap((mark): Segment[] =>
    mark.kind === 'line' && mark.pen === pen ? [[mark.points[0]!, mark.points[1]!]] : [],
  );

const edgeOf = (paper: Drawing): readonly Point[] => {
  const mark = paper.marks.find((one) => one.kind === 'polygon' && one.pen === 'edge');
  if (mark?.kind !== 'polygon') throw new Error('no outer sewing line');
  return mark.ring;
};

/** Whether some drawn segment runs over the given stretch, either way round. */
const drawnAlong = (lines: readonly Segment[], [p, q]: Segment): boolean =>
  lines.some(([a, b]) => {
    const off = (c: Point): number =>
      Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) /
      Math.hypot(b[0] - a[0], b[1] - a[1]);
    const along = (c: Point): number =>
      ((c[0] - a[0]) * (b[0] - a[0]) + (c[1] - a[1]) * (b[1] - a[1])) /
      ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2);
    return [p, q].every((c) => off(c) < 1e-4 && along(c) > -1e-4 && along(c) < 1 + 1e-4);
  });

describe('a foundation on paper', () => {
  // Fabric lies on the blank side and the stitching is done from the printed side, so the print is the mirror
  // image of the finished front (common practice).
  it('is the mirror image of the front, and the front when asked', () => {
    const plan = piece(pennant);
    expect(plan.verdict).toBe('one-foundation');
    for (const side of ['printed', 'front'] as const) {
      const paper = draw(plan, 'A', { side });
      const [left, top] = [
        Math.min(...edgeOf(paper).map((p) => p[0])),
        Math.min(...edgeOf(paper).map((p) => p[1])),
      ];
      const seams = segments(paper, 'seam');
      for (const { from, to } of pennant.cuts) {
        const place = ([x, y]: Point): Point => [left + (side === 'printed' ? 6 - x : x), top + y];
        const wrong = ([x, y]: Point): Point => [left + (side === 'printed' ? x : 6 - x), top + y];
        const sampled: Segment = [
          from,
          [from[0] + 0.1 * (to[0] - from[0]), from[1] + 0.1 * (to[1] - from[1])],
        ];
        expect(drawnAlong(seams, [place(sampled[0]), place(sampled[1])])).toBe(true);
        expect(drawnAlong(seams, [wrong(sampled[0]), wrong(sampled[1])])).toBe(false);
      }
    }
  });

  it('keeps every length: the outer sewing line of a 6 in block is 6 in, the trim line 6 1/2 in', () => {
    const paper = draw(piece(pennant));
    const [xs, ys] = [edgeOf(paper).map((p) => p[0]), edgeOf(paper).map((p) => p[1])];
    expect(Math.max(...xs) - Math.min(...xs)).toBe(6);
    expect(Math.max(...ys) - Math.min(...ys)).toBe(6);
    const trim = paper.marks.find((mark) => mark.kind === 'polygon' && mark.pen === 'trim');
    const trimX = trim?.kind === 'polygon' ? trim.ring.map((p) => p[0]) : [];
    expect(Math.max(...trimX) - Math.min(...trimX)).toBe(6.5);
  });

  it('draws every seam once and ticks it across the allowance where it meets the outline', () => {
    const paper = draw(piece(gull));
    expect(segments(paper, 'seam')).toHaveLength(2);
    const ticks = segments(paper, 'tick');
    // Both seams meet the outline at the beak and at a lower corner: four ticks, each from the sewing line to the
    // trim line, going on in the direction of its seam (45°): 0.25 · √2 long.
    expect(ticks).toHaveLength(4);
    for (const [a, b] of ticks) {
      expect(Math.hypot(b[0] - a[0], b[1] - a[1])).toBeCloseTo(0.25 * Math.SQRT2, 5);
      expect(Math.abs(b[0] - a[0])).toBeCloseTo(Math.abs(b[1] - a[1]), 5);
    }
  });

  it('says block, section, copy, stamp, and a length that its edge really has', () => {
    const plan = piece(gull);
    const paper = draw(plan);
    expect(words(paper)).toContain(`Harbour block, section A, copy 1 of 4 · ${plan.sections[0]!.stamp}`);
    expect(textsOf(titleOfCopy(typeface, paper, 3)).map(({ text }) => text)).toContain(
      `Harbour block, section A, copy 3 of 4 · ${plan.sections[0]!.stamp}`,
    );
    expect(words(paper)).toContain('this edge 4 in');
    expect(words(draw(piece(gull), 'A', { unit: 'mm' }))).toContain('this edge 101.6 mm');
  });

  it('names mate and step on each joining edge, and labels its registration points', () => {
    const plan = piece(windmill);
    for (const [letter, mate] of [
      ['A', 'B'],
      ['B', 'A'],
    ] as const) {
      const texts = words(draw(plan, letter));
      expect(texts).toContain(`join 1: to ${mate}`);
      expect(texts).toEqual(expect.arrayContaining(['1a', '1b', '1c']));
    }
  });

  it('says where a seam is set in, on both sides of its corner', () => {
    const plan = piece(whirlpool);
    expect(plan.verdict).toBe('set-in-seams');
    for (const { letter } of plan.sections)
      expect(
        words(draw(plan, letter)).filter((text) => text.includes('set in')).length,
      ).toBeGreaterThanOrEqual(1);
  });

  it('draws one patch with nothing to sew', () => {
    const paper = draw(piece(calm));
    expect(segments(paper, 'seam')).toHaveLength(0);
    expect(words(paper)).toContain('A1');
  });

  it('names fabrics under the number, by code where the name has no room', () => {
    const texts = words(draw(piece(pennant)));
    expect(texts).toEqual(expect.arrayContaining(['Signal red', 'Morning sky', 'Lamp yellow']));
    const paper = draw(piece(rope));
    expect(new Set(words(paper).filter((text) => /^A\d+ /.test(text)))).toHaveLength(60);
    expect(paper.crowded).toEqual([]);
  });

  it('draws no allowance where there is none', () => {
    const paper = draw(piece(gull), 'A', { allowance: 0 });
    expect(
      paper.marks.some((mark) => mark.kind !== 'text' && (mark.pen === 'trim' || mark.pen === 'tick')),
    ).toBe(false);
    expect(words(paper)).toEqual(expect.arrayContaining(['A1', 'A2', 'A3', 'this edge 4 in']));
    expect(overlappingTexts(allMarks(paper))).toEqual([]);
  });

  it('starts from a finished unit where the plan says so', () => {
    const { block } = designOf(7);
    const plan = piece(block, { plan: 'unit-first' });
    const last = plan.sections.find(({ startsFrom }) => startsFrom.length > 0)!;
    const paper = draw(plan, last.letter);
    expect(words(paper)).toEqual(
      expect.arrayContaining([`${last.letter}1`, `unit ${last.startsFrom.join(', ')}`]),
    );
    // Its own patches go on from position 2; the unit's are on other papers.
    expect(words(paper)).toEqual(expect.arrayContaining([...last.order]));
    for (const letter of last.startsFrom) {
      const texts = words(draw(plan, letter));
      const touches = plan.patches.some(
        ({ section, neighbours }) => section === letter && neighbours.some((id) => last.order.includes(id)),
      );
      if (touches) expect(texts).toContain(`start of ${last.letter}`);
      expect(texts).not.toContain(`${last.letter}1`);
    }
  });

  it('leaves the allowance inside the hole for an island', () => {
    const island = block('island', 'Island', square(6), [
      [
        [2, 2],
        [4, 2],
      ],
      [
        [4, 2],
        [4, 4],
      ],
      [
        [4, 4],
        [2, 4],
      ],
      [
        [2, 4],
        [2, 2],
      ],
    ]);
    const plan = piece(island);
    const holed = plan.sections.find(({ holes }) => holes.length > 0)!;
    const paper = draw(plan, holed.letter);
    const widths = paper.marks.flatMap((mark) => {
      if (mark.kind !== 'polygon' || mark.pen !== 'trim') return [];
      const xs = mark.ring.map((p) => p[0]);
      return [Math.max(...xs) - Math.min(...xs)];
    });
    // The hole is 2 in wide, less 1/4 in on either side.
    expect(widths.sort()).toEqual([1.5, 6.5]);
  });

  it('refuses a section that the plan has not', () => {
    expect(() => draw(piece(gull), 'Z')).toThrow('no section Z');
  });
});

/** Distances from the first registration point of a join to the others, as drawn on one paper, by label. */
function pointsAlong(plan: PiecingPlan, letter: string, step: number): Map<string, number> {
  const paper = draw(plan, letter);
  const join = plan.joins.find((one) => one.step === step)!;
  // A cross is two arms of equal length about one middle, and its label is the nearest text of its name.
  const arms = segments(paper, 'registration').filter(
    ([a, b]) => Math.abs(Math.hypot(b[0] - a[0], b[1] - a[1]) - 0.09) < 1e-6,
  );
  const middles: Point[] = arms.map(([a, b]) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
  const at = new Map<string, Point>();
  for (const { label } of join.points) {
    const text = textsOf(paper.marks).find((mark) => mark.text === label);
    if (!text) continue;
    const corners = inkCorners(text);
    const spot: Point = [(corners[0]![0] + corners[2]![0]) / 2, (corners[0]![1] + corners[2]![1]) / 2];
    const apart = (p: Point): number => Math.hypot(p[0] - spot[0], p[1] - spot[1]);
    at.set(
      label,
      middles.reduce((best, p) => (apart(p) < apart(best) ? p : best)),
    );
  }
  const [first] = [...at.values()];
  return new Map([...at].map(([label, p]) => [label, Math.hypot(p[0] - first![0], p[1] - first![1])]));
}

describe('registration points', () => {
  it('lie at the same distance along the seam on both mates’ papers', () => {
    for (const block of [windmill, net]) {
      const plan = piece(block);
      for (const join of plan.joins.slice(0, 3)) {
        const papers = [...join.left, ...join.right]
          .map((letter) => pointsAlong(plan, letter, join.step))
          .filter((map) => map.size > 1);
        const [left, ...others] = papers.filter((map) => map.size === join.points.length);
        expect(others.length).toBeGreaterThanOrEqual(1);
        // 0.1 mm, the width of a printed line.
        for (const other of others)
          for (const [label, distance] of left!)
            expect(Math.abs(other.get(label)! - distance)).toBeLessThan(0.1 / 25.4);
      }
    }
  });

  it('stand on both sides of every straight join of 60 random designs, all of them', () => {
    let joins = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const plan = piece(designOf(seed, { patches: [3, 40] }).block);
      const drawn = new Map(plan.sections.map(({ letter }) => [letter, draw(plan, letter)]));
      for (const join of plan.joins) {
        joins++;
        for (const unit of [join.left, join.right]) {
          const crosses = unit.flatMap((letter) => words(drawn.get(letter)!));
          for (const { label } of join.points)
            expect(crosses, `seed ${seed}, join ${join.step}`).toContain(label);
        }
      }
    }
    expect(joins).toBeGreaterThan(100);
  });
});

describe('labels', () => {
  const blocks: readonly Block[] = [pennant, gull, calm, windmill, whirlpool, net, rope];

  it('of the harbour blocks lie over no line and over no other label', () => {
    for (const block of blocks) {
      const plan = piece(block);
      for (const { letter } of plan.sections) {
        const paper = draw(plan, letter);
        expect(paper.crowded, `${block.name} ${letter}`).toEqual([]);
        expect(overlappingTexts(allMarks(paper)), `${block.name} ${letter}`).toEqual([]);
        const over = textsOverLines(allMarks(paper), ['seam', 'edge', 'trim', 'tick', 'registration']);
        expect(
          over.map(({ text }) => text),
          `${block.name} ${letter}`,
        ).toEqual([]);
      }
    }
  });

  it('of 150 random designs overlap nowhere, are 6 pt or more, and hardly ever lie over a line', () => {
    let papers = 0;
    let crowded = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const plan = piece(designOf(seed).block);
      for (const { letter, order } of plan.sections) {
        const paper = draw(plan, letter, { fabrics: new Map([...labels, ...seaFabrics]) });
        const marks = allMarks(paper);
        papers++;
        if (paper.crowded.length > 0) crowded++;
        expect(overlappingTexts(marks), `seed ${seed} ${letter}`).toEqual([]);
        const over = textsOverLines(marks, ['seam', 'edge', 'trim', 'tick']);
        if (paper.crowded.length === 0)
          expect(
            over.map(({ text }) => text),
            `seed ${seed} ${letter}`,
          ).toEqual([]);
        expect(
          Math.min(...textsOf(marks).map(({ size }) => size)),
          `seed ${seed} ${letter}`,
        ).toBeGreaterThanOrEqual(6 * PT - 1e-9);
        const shown = words(paper).join(' ').split(/[ ,]+/);
        for (const id of order) if (!paper.crowded.includes(id)) expect(shown, `seed ${seed}`).toContain(id);
        // Upright, or turned by no more than a quarter: never upside down.
        for (const { turn, text } of textsOf(marks))
          expect(Math.abs(turn), text).toBeLessThanOrEqual(90.0001);
      }
    }
    expect(papers).toBeGreaterThan(300);
    expect(crowded / papers).toBeLessThan(0.03);
  });

  it('marks on both papers where a partial seam stops and is gone on with, at the same place of it', () => {
    const plan = piece({ ...TEN_TROUBLES[1]!.block, plan: 'partial-seams' });
    const [begun] = plan.joins;
    expect(begun!.leftOpen).toBeDefined();
    const stops = plan.sections.flatMap(({ letter }) => {
      const paper = draw(plan, letter);
      const dots = paper.marks.flatMap((mark) =>
        mark.kind === 'circle' && mark.filled && mark.pen === 'registration' ? [mark.at] : [],
      );
      const says = words(paper).some((text) => text.includes('stop at the dot'));
      return dots.map((at) => ({ letter, at, says, edge: edgeOf(paper) }));
    });
    expect(stops.map(({ letter }) => letter).sort()).toEqual([...begun!.left, ...begun!.right].sort());
    for (const { at, says, edge } of stops) {
      expect(says).toBe(true);
      // The seam is 2 in long: stitched for 1 in, and 1 in is left for later.
      const beside = edge.map((corner, k): Segment => [corner, edge[(k + 1) % edge.length]!]);
      const ends = beside.filter(
        ([a, b]) =>
          Math.abs(
            Math.hypot(a[0] - at[0], a[1] - at[1]) +
              Math.hypot(b[0] - at[0], b[1] - at[1]) -
              Math.hypot(b[0] - a[0], b[1] - a[1]),
          ) < 1e-6,
      );
      expect(ends).toHaveLength(1);
      expect(ends[0]!.some((end) => Math.abs(Math.hypot(end[0] - at[0], end[1] - at[1]) - 1) < 1e-6)).toBe(
        true,
      );
    }
  });
});

const seaFabrics: readonly (readonly [string, FabricLabel])[] = ['night-sea', 'lamp', 'sand', 'gull'].map(
  (id, i) => [
    id,
    { name: `The ${id} cloth`, code: `#${i + 5}`, meaning: id, look: { color: '#a6322b', number: i } },
  ],
);
