import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { insideShape, pointInside } from '../checker/shared-boundary.ts';
import { designOf } from '../designs/designs.ts';
import { entriesAt } from '../designs/entries.ts';
import { apart, areaOf, distanceToStretch, rotated, roundPoint } from '../designs/plane.ts';
import { Prng } from '../designs/prng.ts';

/** The same block, turned, mirrored, moved, drawn in another order: what can be sewn stays what it is. */

const moved = (block: Block, place: (p: Point) => Point): Block => ({
  ...block,
  outline: block.outline.map(place),
  cuts: block.cuts.map((cut) => ({ ...cut, from: place(cut.from), to: place(cut.to) })),
  patches: block.patches.map((patch) => ({ ...patch, at: place(patch.at) })),
});

const answerOf = (plan: PiecingPlan) => ({
  verdict: plan.verdict,
  patches: plan.patches.length,
  foundations: plan.verdict === 'set-in-seams' ? null : plan.sections.length,
  setIn: plan.joins.filter((join) => join.kind === 'set-in').length,
  fewest: plan.fewest,
});

const designs = Array.from({ length: 150 }, (_, i) =>
  designOf(6001 + i, { patches: [4, 30], endErrors: 'none' }),
);
const answers = designs.map((design) => answerOf(piece(design.block)));

const changes: readonly [string, (block: Block, rng: Prng) => Block][] = [
  ['turned by a quarter', (block) => moved(block, ([x, y]) => [-y, x])],
  ['turned by a half', (block) => moved(block, ([x, y]) => [-x, -y])],
  [
    'turned by an odd angle',
    (block, rng) => {
      const angle = rng.between(0, 2 * Math.PI);
      return moved(block, (p) => roundPoint(rotated(p, [3, 3], angle)));
    },
  ],
  ['mirrored', (block) => moved(block, ([x, y]) => [-x, y])],
  ['mirrored along the diagonal', (block) => moved(block, ([x, y]) => [y, x])],
  ['twice as large', (block) => moved(block, ([x, y]) => [2 * x, 2 * y])],
  ['a third larger', (block) => moved(block, ([x, y]) => roundPoint([(4 * x) / 3, (4 * y) / 3]))],
  ['moved aside', (block) => moved(block, ([x, y]) => [x + 17.25, y - 40.5])],
  ['its cuts in another order', (block, rng) => ({ ...block, cuts: rng.shuffled(block.cuts) })],
  [
    'its cuts drawn the other way',
    (block) => ({
      ...block,
      cuts: block.cuts.map((cut) => ({ ...cut, from: cut.to, to: cut.from })),
    }),
  ],
  ['its outline the other way round', (block) => ({ ...block, outline: [...block.outline].reverse() })],
  [
    'its outline from another corner',
    (block) => ({
      ...block,
      outline: [...block.outline.slice(1), block.outline[0]!],
    }),
  ],
];

describe('the answer stays the same when the block is', () => {
  it.each(changes)('%s', (_, change) => {
    for (const [i, design] of designs.entries()) {
      const block = change(design.block, new Prng(i));
      const plan = piece(block);
      expect({ seed: design.seed, ...answerOf(plan) }).toEqual({ seed: design.seed, ...answers[i] });
      expect(checkPlan(block, plan), `seed ${design.seed}`).toEqual([]);
    }
  });

  it('pieced twice: the plan is equal to the last number', () => {
    for (const design of designs) expect(piece(design.block)).toEqual(piece(structuredClone(design.block)));
  });
});

/** Is every patch of one plan where the other has the patch of the same name? */
function isNumberedAlike(before: PiecingPlan, after: PiecingPlan): boolean {
  return before.patches.every((patch) => {
    const at = pointInside(patch);
    return after.patches.find((other) => insideShape(at, other))?.id === patch.id;
  });
}

describe('the numbering stays under small edits', () => {
  it('a loose end, a line drawn twice or a line outside renumbers nothing', () => {
    for (const { seed, block } of designs) {
      const plan = piece(block);
      const patch = plan.patches[seed % plan.patches.length]!;
      const at = pointInside(patch);
      const size = Math.sqrt(areaOf(patch.polygon)) / 50;
      const added = [
        { id: 'loose', from: at, to: [at[0] + size, at[1]] as Point, role: 'auto' as const },
        { ...block.cuts[seed % block.cuts.length]!, id: 'again' },
        { id: 'outside', from: [90, 90] as Point, to: [95, 91] as Point, role: 'auto' as const },
      ];
      for (const cut of added) {
        const edited = piece({ ...block, cuts: [...block.cuts, cut] });
        expect({ seed, cut: cut.id, same: isNumberedAlike(plan, edited) }).toEqual({
          seed,
          cut: cut.id,
          same: true,
        });
        expect(
          edited.findings.some((finding) => finding.cuts.includes(cut.id)),
          `seed ${seed}, ${cut.id}`,
        ).toBe(true);
      }
    }
  });

  it('an end moved 1/64 in along its line renumbers nothing, but for one design in twenty', () => {
    let same = 0;
    const other: number[] = [];
    for (let seed = 1; seed <= 200; seed++) {
      const { block } = designOf(seed, { kind: 'chords', patches: [5, 40], endErrors: 'none' });
      const edited = withEndMoved(block);
      if (!edited) continue;
      const [before, after] = [piece(block), piece(edited)];
      // Where the edit left another line's end behind, or bent a straight line, there is another block to sew.
      if (before.patches.length !== after.patches.length || before.sections.length !== after.sections.length)
        continue;
      if (isNumberedAlike(before, after)) same++;
      else other.push(seed);
    }
    expect(same).toBeGreaterThan(120);
    expect(other.length / (same + other.length), `seeds ${other}`).toBeLessThan(0.05);
  });

  it('paint moves no patch to another foundation', () => {
    for (const { seed, block } of designs) {
      const plain = piece({ ...block, patches: [] });
      const rng = new Prng(seed);
      const paint = plain.patches.map((patch) => ({
        at: pointInside(patch),
        fabric: rng.pick(['sand', 'lamp']),
      }));
      const painted = piece({ ...block, patches: entriesAt(paint) });
      const groups = (plan: PiecingPlan): string[] =>
        plan.sections
          .map((section) =>
            plain.patches
              .filter((patch) => {
                const at = pointInside(patch);
                return plan.patches.find((p) => insideShape(at, p))!.section === section.letter;
              })
              .map((patch) => patch.id)
              .join(),
          )
          .sort();
      expect({ seed, groups: groups(painted) }).toEqual({ seed, groups: groups(plain) });
    }
  });

  /** The block with the first end that rests on one line alone moved 1/64 in along it, or null. */
  function withEndMoved(block: Block): Block | null {
    const rim = block.outline.map((p, i) => [p, block.outline[(i + 1) % block.outline.length]!] as const);
    for (const [k, cut] of block.cuts.entries()) {
      const others = block.cuts.filter((_, i) => i !== k).map(({ from, to }) => [from, to] as const);
      const hosts = [...rim, ...others].filter(([a, b]) => distanceToStretch(cut.from, a, b) < 1e-4);
      const [host] = hosts;
      if (hosts.length !== 1 || !host || host.some((end) => apart(end, cut.from) < 0.3)) continue;
      const step = 1 / 64 / apart(...host);
      const along = (axis: 0 | 1): number => cut.from[axis] + (host[1][axis] - host[0][axis]) * step;
      const from = roundPoint([along(0), along(1)]);
      return { ...block, cuts: block.cuts.map((c, i) => (i === k ? { ...c, from } : c)) };
    }
    return null;
  }
});
