import { carryPatches } from '../document/carry-patches.ts';
import { type Turn, turned } from '../document/edit-turn.ts';
import { changeBlock, findBlock } from '../document/find.ts';
import { freeCutIds } from '../document/ids.ts';
import { CUTS_PER_BLOCK, cleanPoint } from '../document/limits.ts';
import { cleanOutline } from '../document/outline.ts';
import type { Block, Cut, Project, ProjectEdit } from '../document/project.ts';
import { carryPicture } from '../document/under-picture.ts';
import type { Point, Ring } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import { samePlace } from '../geometry/segments.ts';
import { middleOf, type Symmetry, turnsOf } from './symmetry.ts';

/**
 * An edit done at every place that is the same under a symmetry: what it moves, takes away, adds or makes a join of is
 * moved, taken away, added and made one at all images of it. A place on an axis, which is its own image, stays on it.
 * Only what has an image in the drawing before takes part, so that a drawing need not be symmetric throughout.
 */
export function everywhere(change: ProjectEdit, blockId: string, symmetry: Symmetry): ProjectEdit {
  if (symmetry === 'none') return change;
  return (project) => {
    const after = change(project);
    const before = findBlock(project, blockId);
    const changed = findBlock(after, blockId);
    if (before === null || changed === null || changed === before) return after;
    return withBlock(after, blockId, symmetrized(before, changed, symmetry));
  };
}

const withBlock = (project: Project, blockId: string, block: Block): Project =>
  changeBlock(project, blockId, () => block);

/** Images nearer than this are one, inches: forgives the lattice, nothing more. */
const SAME_IN = 1 / 1000;

/** A thing that a turn takes another thing of the drawing to; `swaps`: its ends change places. */
interface Source<Thing> {
  readonly of: Thing;
  readonly turn: Turn;
  readonly swaps: boolean;
}

/** For each cut, the cuts it is an image of, itself among them. */
type Sources = ReadonlyMap<string, readonly Source<Cut>[]>;

/** The cuts that are images of some cuts under a symmetry, those themselves first. */
export function withTwins(block: Block, cutIds: readonly string[], symmetry: Symmetry): readonly string[] {
  if (symmetry === 'none' || cutIds.length === 0) return cutIds;
  const chosen = new Set(cutIds);
  const sources = sourcesOf(block, symmetry);
  const twins = block.cuts.filter(
    ({ id }) => !chosen.has(id) && sources.get(id)!.some(({ of }) => chosen.has(of.id)),
  );
  return [...cutIds, ...twins.map(({ id }) => id)];
}

const known = new WeakMap<Block, Map<Symmetry, Sources>>();

function sourcesOf(block: Block, symmetry: Symmetry): Sources {
  const ofBlock = known.get(block) ?? new Map<Symmetry, Sources>();
  known.set(block, ofBlock);
  const found = ofBlock.get(symmetry);
  if (found !== undefined) return found;
  const middle = middleOf(block.outline);
  const byPlace = new Map<string, Cut[]>();
  for (const cut of block.cuts)
    for (const key of keysNear(cut.from)) byPlace.set(key, [...(byPlace.get(key) ?? []), cut]);
  const sources = new Map(block.cuts.map(({ id }): [string, Source<Cut>[]] => [id, []]));
  for (const of of block.cuts)
    for (const turn of turnsOf(symmetry)) {
      const [from, to] = [turned(turn, middle, of.from), turned(turn, middle, of.to)];
      for (const [start, end, swaps] of [
        [from, to, false],
        [to, from, true],
      ] as const) {
        const image = byPlace
          .get(keyOf(start))
          ?.find((cut) => distance(cut.from, start) <= SAME_IN && distance(cut.to, end) <= SAME_IN);
        if (image !== undefined) sources.get(image.id)!.push({ of, turn, swaps });
      }
    }
  ofBlock.set(symmetry, sources);
  return sources;
}

/** Cells far larger than the reach, so that a place and what is near it share one, or lie in neighbours. */
const CELL_IN = 1 / 8;

const cell = (value: number): number => Math.floor(value / CELL_IN);
const keyOf = ([x, y]: Point): string => `${cell(x)} ${cell(y)}`;

/** The cells that places within reach of one can fall into. */
const keysNear = ([x, y]: Point): ReadonlySet<string> =>
  new Set([-SAME_IN, SAME_IN].flatMap((dx) => [-SAME_IN, SAME_IN].map((dy) => keyOf([x + dx, y + dy]))));

function symmetrized(before: Block, after: Block, symmetry: Symmetry): Block {
  const middle = middleOf(before.outline);
  const sources = sourcesOf(before, symmetry);
  const is = new Map(after.cuts.map((cut) => [cut.id, cut]));
  const was = new Set(before.cuts.map(({ id }) => id));

  const kept = before.cuts.flatMap((cut): readonly Cut[] => {
    if (cut.locked === true) return [is.get(cut.id) ?? cut];
    const all = sources.get(cut.id)!;
    // One whose image goes, goes too.
    if (!is.has(cut.id) || all.some(({ of }) => !is.has(of.id) && of.locked !== true)) return [];
    return [placedBy(cut, all, is, middle)];
  });
  const ids = freeCutIds({ ...before, cuts: [...before.cuts, ...after.cuts] });
  const cuts = [...kept];
  for (const added of after.cuts.filter(({ id }) => !was.has(id)))
    for (const [k, turn] of turnsOf(symmetry).entries()) {
      const from = cleanPoint(turned(turn, middle, added.from));
      const to = cleanPoint(turned(turn, middle, added.to));
      if (from === null || to === null || cuts.some((cut) => isLine(cut, from, to))) continue;
      if (cuts.length < CUTS_PER_BLOCK)
        cuts.push({ ...added, id: k === 0 ? added.id : ids.next().value, from, to });
    }
  const outline = symmetrizedOutline(before.outline, after.outline, symmetry);
  return carryPicture(before, carryPatches(before, { ...after, cuts, outline }));
}

const isLine = (cut: Cut, from: Point, to: Point): boolean =>
  (distance(cut.from, from) <= SAME_IN && distance(cut.to, to) <= SAME_IN) ||
  (distance(cut.from, to) <= SAME_IN && distance(cut.to, from) <= SAME_IN);

/** A cut as all that it is an image of have it: where several say something, in the middle of what they say. */
function placedBy(cut: Cut, all: readonly Source<Cut>[], is: ReadonlyMap<string, Cut>, middle: Point): Cut {
  const said = all.filter(({ of }) => {
    const now = is.get(of.id)!;
    return !samePlace(now.from, of.from) || !samePlace(now.to, of.to);
  });
  const role = all.map(({ of }) => is.get(of.id)!).find((now, k) => now.role !== all[k]!.of.role)?.role;
  const base: Cut = role === undefined ? (is.get(cut.id) ?? cut) : { ...(is.get(cut.id) ?? cut), role };
  if (said.length === 0) return base;
  const endAt = (end: 'from' | 'to'): Point | null =>
    cleanPoint(
      mean(
        said.map(({ of, turn, swaps }) => {
          const now = is.get(of.id)!;
          return turned(turn, middle, now[swaps === (end === 'from') ? 'to' : 'from']);
        }),
      ),
    );
  const [from, to] = [endAt('from'), endAt('to')];
  return from === null || to === null || samePlace(from, to) ? cut : { ...base, from, to };
}

const mean = (points: readonly Point[]): Point => [
  points.reduce((sum, [x]) => sum + x, 0) / points.length,
  points.reduce((sum, [, y]) => sum + y, 0) / points.length,
];

/** Corners moved alike; an outline that gains or loses corners is left as it is. */
function symmetrizedOutline(before: Ring, after: Ring, symmetry: Symmetry): Ring {
  if (before === after || before.length !== after.length) return after;
  const middle = middleOf(before);
  const moved = before.map((corner, index): Point => {
    const said = before.flatMap((other, k) =>
      samePlace(other, after[k]!)
        ? []
        : turnsOf(symmetry)
            .filter((turn) => distance(turned(turn, middle, other), corner) <= SAME_IN)
            .map((turn) => turned(turn, middle, after[k]!)),
    );
    return said.length === 0 ? after[index]! : mean(said);
  });
  return cleanOutline(moved) ?? after;
}
