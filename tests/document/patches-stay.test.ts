import polygonClipping from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import { addCuts, moveCut, removeCuts, shiftCuts } from '../../src/document/edit-cuts.ts';
import { moveCorner, scaleBlock } from '../../src/document/edit-outline.ts';
import { paintPatches } from '../../src/document/edit-paint.ts';
import { setOrder } from '../../src/document/edit-plan.ts';
import { MIRRORS, type Turn, turnBlock, turnBy, turned } from '../../src/document/edit-turn.ts';
import { openFile } from '../../src/document/file.ts';
import { patchesOf } from '../../src/document/patches-of.ts';
import type { Block, PatchEntry, Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { splitAtCrossings } from '../../src/editing/split.ts';
import type { Point, Ring } from '../../src/geometry/point.ts';
import { boxOf } from '../../src/geometry/ring.ts';
import { insideShape, type Shape, shapeArea } from '../checker/shared-boundary.ts';
import { designOf } from '../designs/designs.ts';
import { Prng } from '../designs/prng.ts';
import { blockOf, frozen, harbour } from './projects.ts';

/** Thousands of seeded edits, each judged from polygons alone: which face lies where, and which entry in it. */
const SEEDS = process.env.UNDERPAPER_THOROUGH === '1' ? 4000 : 150;
const EDITS = 12;
const FABRICS = ['night-sea', 'lamp', 'sand', 'gull'];

const projectOf = (block: Block): Project =>
  frozen({
    ...harbour,
    fabrics: FABRICS.map((id) => ({ id, name: id, color: '#1d3557' })),
    blocks: [block],
  });

interface Face extends Shape {
  readonly entry: PatchEntry;
}

/** Smaller faces than this, square inches, have no inside that can be told from their edges. */
const SPECK = 1e-6;

/** Faces with the one entry each must have; null while the drawing is unusable. */
function facesOf(block: Block, say: (fault: string) => void): readonly Face[] | null {
  const areas = patchesOf(block);
  if (areas.length === 0) return null;
  if (new Set(block.patches.map(({ id }) => id)).size < block.patches.length) say('two entries have one id');
  return areas.flatMap((area) => {
    if (shapeArea(area) < SPECK) return [];
    const inside = block.patches.filter(({ at }) => insideShape(at, area));
    if (inside.length !== 1) say(`a patch has ${inside.length} entries`);
    return inside.slice(0, 1).map((entry) => ({ ...area, entry }));
  });
}

/** Area two faces have in common, by a library; null where it gives up. */
function common(a: Shape, b: Shape): number | null {
  const [p, q] = [boxOf(a.polygon), boxOf(b.polygon)];
  if (p.minX >= q.maxX || q.minX >= p.maxX || p.minY >= q.maxY || q.minY >= p.maxY) return 0;
  const closed = (ring: Ring) => ring.map(([x, y]): [number, number] => [x, y]);
  try {
    return polygonClipping
      .intersection([a.polygon, ...a.holes].map(closed), [b.polygon, ...b.holes].map(closed))
      .reduce((sum, [outer, ...holes]) => sum + shapeArea({ polygon: outer!, holes }), 0);
  } catch {
    return null;
  }
}

/** What must hold of the faces after an edit, where `before` are the old ones in the places the edit took them to. */
function judge(before: readonly Face[], after: readonly Face[], say: (fault: string) => void): void {
  const oldIds = new Map(before.map((face) => [face.entry.id, face]));
  const newIds = new Set(after.map(({ entry }) => entry.id));
  const unchanged = new Map(before.map((face) => [outlineOf(face), face]));
  const heirs = after.map((face) => {
    const same = unchanged.get(outlineOf(face));
    if (same !== undefined) {
      if (same.entry.id !== face.entry.id) say(`${same.entry.id} did not change and is ${face.entry.id}`);
      return null;
    }
    const shares = before.map((old) => common(face, old));
    if (shares.includes(null)) return null;
    const most = Math.max(...(shares as number[]));
    const best = before.filter((_, i) => shares[i]! >= most * (1 - 1e-6) && most > SPECK);
    return { face, best, shares: shares as number[] };
  });
  for (const heir of heirs) {
    if (heir === null) continue;
    const { face, best, shares } = heir;
    const { id, fabric } = face.entry;
    const own = oldIds.get(id);
    if (own !== undefined && shares[before.indexOf(own)]! <= 0) say(`${id} jumps to where it was not`);
    if (best.length === 0) continue;
    if (own !== undefined && !best.includes(own)) {
      // Only so that two live on: half of it lies here, and the other has gone to a patch that it overlaps.
      const isHere = shares[before.indexOf(own)]! >= shapeArea(own) * (0.5 - 1e-6);
      const isElsewhere = best.some(({ entry }) => entry.id !== id && newIds.has(entry.id));
      if (!isHere || !isElsewhere) say(`${id} is not the patch it overlaps most`);
      if (own.entry.fabric !== fabric) say(`${id} wears ${fabric} and had ${own.entry.fabric}`);
    } else if (!best.some(({ entry }) => entry.fabric === fabric)) say(`${id} wears ${fabric}`);
    // A new id only where whatever it takes after went to another that overlaps it as much or more.
    if (own === undefined && best.length === 1 && !newIds.has(best[0]!.entry.id))
      say(`${id} is new, and ${best[0]!.entry.id} is gone`);
  }
}

const outlineOf = ({ polygon, holes }: Shape): string =>
  JSON.stringify([polygon, ...holes].map((ring) => ring.map(String).sort()));

/** What is left of an order keeps its order; nothing is left of one of which one patch is left. */
function judgeOrders(before: Block, after: Block, say: (fault: string) => void): void {
  const there = new Set(after.patches.map(({ id }) => id));
  const expected = (before.orders ?? [])
    .map((order) => ({ order, left: order.filter((id) => there.has(id)) }))
    .filter(({ order, left }) => left.length > 1 || (order.length === 1 && left.length === 1))
    .map(({ left }) => left);
  if (JSON.stringify(after.orders ?? []) !== JSON.stringify(expected)) say('an order by hand is another');
}

type Step = readonly [name: string, project: Project, move: (point: Point) => Point];
const stays = (point: Point): Point => point;

function randomStep(rng: Prng, project: Project): Step {
  const block = blockOf(project, project.blocks[0]!.id);
  const { minX, minY, maxX, maxY } = boxOf(block.outline);
  const size = Math.max(maxX - minX, maxY - minY);
  const anywhere = (): Point => [
    rng.between(minX - 0.1 * size, maxX + 0.1 * size),
    rng.between(minY - 0.1 * size, maxY + 0.1 * size),
  ];
  const near = ([x, y]: Point): Point => {
    const by = size * rng.pick([0.01, 0.05, 0.3]);
    return [x + rng.between(-by, by), y + rng.between(-by, by)];
  };
  const cut = block.cuts.length === 0 ? null : rng.pick(block.cuts);
  const kind = rng.whole(0, 11);
  if (cut !== null) {
    if (kind < 4) {
      const ends = rng.chance(0.5) ? { from: near(cut.from) } : { to: near(cut.to) };
      return ['move cut', moveCut(project, block.id, cut.id, ends), stays];
    }
    if (kind === 4) return ['shift cut', shiftCuts(project, block.id, [cut.id], near([0, 0])), stays];
    if (kind === 5) return ['remove cut', removeCuts(project, block.id, [cut.id]), stays];
    if (kind === 6) return ['split cut', splitAtCrossings(project, block.id, [cut.id]), stays];
  }
  if (kind === 7) {
    const corner = rng.whole(0, block.outline.length - 1);
    return ['move corner', moveCorner(project, block.id, corner, near(block.outline[corner]!)), stays];
  }
  if (kind === 8) {
    const turn: Turn = rng.pick([turnBy(90), turnBy(180), turnBy(31), ...Object.values(MIRRORS)]);
    const box = boxOf(block.outline.map((point) => turned(turn, [0, 0], point)));
    const move = (point: Point): Point => {
      const [x, y] = turned(turn, [0, 0], point);
      return [x + minX - box.minX, y + minY - box.minY];
    };
    return ['turn block', turnBlock(project, block.id, turn), move];
  }
  if (kind === 9) {
    const [across, down] = [rng.between(0.5, 1.8), rng.between(0.5, 1.8)];
    const move = ([x, y]: Point): Point => [minX + (x - minX) * across, minY + (y - minY) * down];
    return ['scale block', scaleBlock(project, block.id, across, down), move];
  }
  const cuts = Array.from({ length: rng.whole(1, 2) }, () => ({ from: anywhere(), to: anywhere() }));
  return ['add cuts', addCuts(project, block.id, cuts), stays];
}

describe('patches stay themselves', () => {
  it(`through ${(SEEDS * EDITS).toLocaleString('en')} seeded edits`, () => {
    const faults: string[] = [];
    let edits = 0;
    for (let seed = 1; seed <= SEEDS && faults.length < 10; seed++) {
      const rng = new Prng(seed);
      const { block } = designOf(seed, { patches: [3, 12] });
      let project = projectOf(block);
      // Painted and ordered by hand here and there, which also gives every patch its entry.
      const { minX, minY, maxX, maxY } = boxOf(block.outline);
      const spots = Array.from(
        { length: 4 },
        (): Point => [rng.between(minX, maxX), rng.between(minY, maxY)],
      );
      project = paintPatches(project, block.id, spots, rng.pick(FABRICS));
      project = setOrder(project, block.id, []);
      const ids = blockOf(project, block.id).patches.map(({ id }) => id);
      project = frozen(setOrder(project, block.id, rng.shuffled(ids).slice(0, rng.whole(1, ids.length))));
      for (let step = 1; step <= EDITS; step++) {
        const [name, edited, move] = randomStep(rng, project);
        const [was, is] = [blockOf(project, block.id), blockOf(edited, block.id)];
        if (was === is) continue;
        edits++;
        const say = (fault: string): void => {
          faults.push(`seed ${seed}, edit ${step} (${name}): ${fault}`);
        };
        const before = facesOf(was, () => undefined);
        const after = facesOf(is, say);
        if (before !== null && after !== null) {
          const moved = before.map((face) => ({
            ...face,
            polygon: face.polygon.map(move),
            holes: face.holes.map((hole) => hole.map(move)),
          }));
          judge(moved, after, say);
        }
        if (after !== null) judgeOrders(was, is, say);
        project = frozen(edited);
      }
      const file = openFile(toText(project));
      if (!file.ok) faults.push(`seed ${seed}: ${file.error.message}`);
      else if (
        JSON.stringify(blockOf(file.project, block.id).patches) !== JSON.stringify(project.blocks[0]!.patches)
      )
        faults.push(`seed ${seed}: the file holds other patches`);
    }
    expect(faults).toEqual([]);
    expect(edits).toBeGreaterThan((SEEDS * EDITS) / 2);
  });
});
