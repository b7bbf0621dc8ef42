import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { moveCut } from '../../src/document/edit-cuts.ts';
import { openFile } from '../../src/document/file.ts';
import { lightnessOf } from '../../src/document/lightness.ts';
import type { Block, Project } from '../../src/document/project.ts';
import { type BlockPlace, isBlockPlace, JOININGS } from '../../src/document/quilt.ts';
import { toText } from '../../src/document/to-text.ts';
import type { Point, Ring } from '../../src/geometry/point.ts';
import { boxOf } from '../../src/geometry/ring.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan, Verdict } from '../../src/piecing/plan.ts';
import { joiningOf } from '../../src/quilt/joining.ts';
import { layOut } from '../../src/quilt/layout.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { polygonizerFaces } from '../designs/polygonizer-peer.ts';
import { joiningFaults } from '../quilt/check-joining.ts';
import { checked } from '../quilt/places.ts';

/** The demo project, as a first visit opens it. */
const text = readFileSync(
  new URL('../../public/demo/harbour-sampler.underpaper.json', import.meta.url),
  'utf8',
);

function demo(): Project {
  const file = openFile(text);
  if (!file.ok) throw new Error(file.error.message);
  return file.project;
}

const project = demo();
const planOf = (block: Block): PiecingPlan => piece(block, { lightness: lightnessOf(project.fabrics) });
const blockNamed = ({ blocks }: Project, name: string): Block => {
  const block = blocks.find((b) => b.name === name);
  if (!block) throw new Error(`no block ‘${name}’`);
  return block;
};

/** What each block is drawn to show: size in inches, patches counted on the drawing, papers, verdict. */
const DESIGNS: readonly (readonly [
  name: string,
  width: number,
  height: number,
  patches: number,
  foundations: number,
  verdict: Verdict,
])[] = [
  ['Lighthouse', 12, 12, 17, 3, 'several-foundations'],
  ['Sailing boat', 12, 12, 11, 1, 'one-foundation'],
  ['Gull over waves', 12, 12, 59, 7, 'several-foundations'],
  ['Harbour houses', 12, 12, 59, 6, 'several-foundations'],
  ['Compass star', 12, 12, 32, 8, 'several-foundations'],
  ['Ferry', 12, 6, 29, 4, 'several-foundations'],
  ['Fish', 12, 6, 21, 4, 'several-foundations'],
  ['Bell buoy', 6, 12, 17, 2, 'several-foundations'],
  ['Ship’s lantern', 6, 6, 11, 1, 'one-foundation'],
  ['Lifebuoy', 6, 6, 5, 2, 'set-in-seams'],
  ['Scallop shell', 12, 6 * Math.sqrt(3), 18, 2, 'several-foundations'],
  ['Moon over the water', 6, 6, 12, 2, 'several-foundations'],
  ['Evening star', 6, 6, 18, 4, 'several-foundations'],
  ['Signal flag', 6, 6, 9, 3, 'several-foundations'],
  ['Striped signal', 6, 6, 6, 1, 'one-foundation'],
  ['Bunting', 12, 6, 10, 1, 'one-foundation'],
  ['Bunting at dusk', 12, 6, 10, 1, 'one-foundation'],
  ['Breaker', 6, 6, 4, 1, 'one-foundation'],
  ['Dinghy', 6, 6, 8, 3, 'several-foundations'],
  ['Anchor', 6, 12, 25, 7, 'several-foundations'],
  ['Harbour crane', 12, 12, 24, 8, 'several-foundations'],
];

/** Twice the area, by the shoelace formula. */
const twiceArea = (ring: Ring): number =>
  ring.reduce((sum, [x, y], i) => {
    const [u, v] = ring[(i + 1) % ring.length]!;
    return sum + x * v - u * y;
  }, 0);

/** Least distance between two parallel lines that hold a convex ring: one of them lies on a side. */
const widthOf = (ring: Ring): number =>
  Math.min(
    ...ring.map(([ax, ay], i) => {
      const [bx, by] = ring[(i + 1) % ring.length]!;
      const length = Math.hypot(bx - ax, by - ay);
      return Math.max(
        ...ring.map(([x, y]) => Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length),
      );
    }),
  );

const degreesAt = (before: Point, [x, y]: Point, after: Point): number => {
  const turn = Math.atan2(after[1] - y, after[0] - x) - Math.atan2(before[1] - y, before[0] - x);
  return (Math.acos(Math.cos(turn)) * 180) / Math.PI;
};

describe('the demo project', () => {
  it('opens, in the canonical form it would be saved in', () => {
    expect(toText(project)).toBe(text);
  });

  it('is a sampler of the blocks it is meant to have', () => {
    expect(project.blocks.map(({ name }) => name)).toEqual(DESIGNS.map(([name]) => name));
  });

  it('lays every one of its fabrics somewhere, each with a name of its own', () => {
    const laid = new Set(project.blocks.flatMap(({ patches }) => patches.map(({ fabric }) => fabric)));
    expect([...laid].sort()).toEqual(project.fabrics.map(({ id }) => id).sort());
    expect(new Set(project.fabrics.map(({ name }) => name)).size).toBe(project.fabrics.length);
    expect(new Set(project.fabrics.map(({ color }) => color)).size).toBe(project.fabrics.length);
  });

  for (const [name, width, height, patches, foundations, verdict] of DESIGNS) {
    describe(name, () => {
      const block = blockNamed(project, name);
      const plan = planOf(block);

      it(`has ${patches} patches on ${foundations} foundations: ${verdict}`, () => {
        expect(plan.verdict).toBe(verdict);
        expect(plan.patches).toHaveLength(patches);
        expect(plan.sections).toHaveLength(foundations);
        expect(plan.fewest).toBe(verdict !== 'set-in-seams');
      });

      it('has its finished size', () => {
        const xs = block.outline.map(([x]) => x);
        const ys = block.outline.map(([, y]) => y);
        expect([Math.min(...xs), Math.min(...ys)]).toEqual([0, 0]);
        expect(Math.max(...xs)).toBeCloseTo(width, 4);
        expect(Math.max(...ys)).toBeCloseTo(height, 4);
      });

      // Faces by JSTS, the JavaScript form of the JTS Topology Suite.
      it('is divided as another hand divides it, without loose ends', () => {
        const peer = polygonizerFaces(
          block.outline,
          block.cuts.map(({ from, to }) => [from, to] as const),
        );
        expect(peer.dangles).toBe(0);
        const areas = plan.patches.map(({ polygon }) => Math.abs(twiceArea(polygon)) / 2);
        expect(areas).toHaveLength(peer.areas.length);
        areas
          .sort((a, b) => b - a)
          .forEach((area, i) => {
            expect(area).toBeCloseTo(peer.areas[i]!, 2);
          });
      });

      it('passes the independent check of its plan', () => {
        expect(checkPlan(block, plan)).toEqual([]);
      });

      it('has a fabric on every patch', () => {
        expect(plan.patches.filter(({ fabric }) => fabric === null)).toEqual([]);
        expect(block.patches).toHaveLength(patches);
      });

      // Common practice: no patch narrower than the two allowances under it need, no needle-sharp tips.
      it('has no patch narrower than 1/4 in, and no corner under 15°', () => {
        for (const { id, polygon } of plan.patches) {
          expect(widthOf(polygon), id).toBeGreaterThanOrEqual(0.25);
          const n = polygon.length;
          polygon.forEach((corner, i) => {
            const angle = degreesAt(polygon[(i + n - 1) % n]!, corner, polygon[(i + 1) % n]!);
            expect(angle, id).toBeGreaterThanOrEqual(15);
          });
        }
      });

      it('has no findings but notes, and the trouble it is meant to have', () => {
        const serious = plan.findings.filter(({ severity }) => severity !== 'note');
        expect(serious.map(({ code }) => code)).toEqual(verdict === 'set-in-seams' ? ['ring'] : []);
      });
    });
  }
});

/**
 * Five pieces in a spiral are the smallest division that no straight seam can part: of the 92 floorplans with five
 * rooms 90 are slicing (OEIS A001181 and A006318), and the other two are this spiral and its mirror image.
 */
describe('the lifebuoy, which straight seams cannot join', () => {
  const lifebuoy = blockNamed(project, 'Lifebuoy');

  it('is joined by one line carried on to a corner of the outline, whichever of the four it is', () => {
    for (const [i, cut] of lifebuoy.cuts.entries()) {
      const corner = lifebuoy.outline[(2 * i + 2) % 8]!;
      const cured = blockNamed(moveCut(project, lifebuoy.id, cut.id, { to: corner }), 'Lifebuoy');
      const plan = planOf(cured);
      expect(plan.verdict).toBe('several-foundations');
      expect(plan.patches).toHaveLength(6);
      expect(plan.joins.map(({ kind }) => kind)).toEqual(['straight']);
      expect(plan.findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
      expect(plan.patches.every(({ fabric }) => fabric !== null)).toBe(true);
      expect(checkPlan(cured, plan)).toEqual([]);
    }
  });
});

describe('the quilt of the demo', () => {
  const layout = layOut({ places: project.quilt!.places }, project.blocks);
  const blocks = layout.pieces.filter(({ place }) => isBlockPlace(place));

  it('has at least 30 places in three sizes or more, without a gap, and straight seams join it', () => {
    const sizes = blocks.map(({ polygon }) => {
      const { minX, minY, maxX, maxY } = boxOf(polygon);
      return `${maxX - minX} × ${maxY - minY}`;
    });
    expect(blocks.length).toBeGreaterThanOrEqual(30);
    expect(new Set(sizes).size).toBeGreaterThanOrEqual(3);
    expect(layout.gaps).toEqual([]);
    expect(layout.overlaps).toEqual([]);
    for (const way of JOININGS) {
      const joined = joiningOf(layout, way);
      if (!joined.ok) throw new Error(joined.why);
      expect(joined.plan.steps.every(({ kind }) => kind === 'straight')).toBe(true);
      expect(joiningFaults(checked(layout), joined.plan.steps)).toEqual([]);
    }
  });

  it('is sewn from blocks that meet no trouble, each with straight joins', () => {
    for (const id of new Set(blocks.map(({ place }) => (place as BlockPlace).block))) {
      const block = project.blocks.find((one) => one.id === id)!;
      const plan = planOf(block);
      expect(plan.verdict, block.name).not.toBe('set-in-seams');
      expect(
        plan.findings.filter(({ severity }) => severity === 'trouble'),
        block.name,
      ).toEqual([]);
    }
  });

  it('names a fabric for every plain piece', () => {
    for (const { place } of layout.pieces) if (!isBlockPlace(place)) expect(place.fabric).toBeDefined();
  });
});
