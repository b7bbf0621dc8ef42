import type { Point } from '../geometry/point.ts';
import { boxOf } from '../geometry/ring.ts';
import { carryPatches } from './carry-patches.ts';
import { changeBlock } from './find.ts';
import { freeCutIds } from './ids.ts';
import { CUTS_PER_BLOCK, cleanPoint } from './limits.ts';
import type { Block, Cut, Project } from './project.ts';
import { carryPicture } from './under-picture.ts';

/** A linear move of the plane about a middle; turns and mirrors keep lengths: `[a, b, c, d]` takes [x, y] to [ax + by, cx + dy]. */
export type Turn = readonly [number, number, number, number];

/** A turn by degrees, against the clock as seen; quarter turns exact. */
export function turnBy(degrees: number): Turn {
  const turns = ((degrees % 360) + 360) % 360;
  const [cos, sin] = { 0: [1, 0], 90: [0, 1], 180: [-1, 0], 270: [0, -1] }[turns] ?? [
    Math.cos((turns * Math.PI) / 180),
    Math.sin((turns * Math.PI) / 180),
  ];
  return [cos!, sin!, -sin!, cos!];
}

/** Mirrors: in an upright line, a level one, and the two diagonals (falling to the right, rising to the right). */
export const MIRRORS = {
  upright: [-1, 0, 0, 1],
  level: [1, 0, 0, -1],
  falling: [0, 1, 1, 0],
  rising: [0, -1, -1, 0],
} as const satisfies Record<string, Turn>;

/** A move that keeps lengths is undone by its transpose. */
const turnBack = ([a, b, c, d]: Turn): Turn => [a, c, b, d];

export const turned = ([a, b, c, d]: Turn, [mx, my]: Point, [x, y]: Point): Point => [
  mx + a * (x - mx) + b * (y - my),
  my + c * (x - mx) + d * (y - my),
];

/** Turns or mirrors cuts about a point; locked ones stay. Nothing changes when one would lie out of bounds. */
export function turnCuts(
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  turn: Turn,
  about: Point,
): Project {
  const chosen = new Set(cutIds);
  return changeBlock(project, blockId, (block) => {
    const cuts = block.cuts.map((cut) =>
      chosen.has(cut.id) && cut.locked !== true ? turnedCut(cut, turn, about) : cut,
    );
    if (!cuts.every((cut) => cut !== null) || cuts.every((cut, index) => sameEnds(cut, block.cuts[index]!)))
      return block;
    return carryPatches(block, { ...block, cuts });
  });
}

/** Sizes cuts about a point, by factors across and down; locked ones stay. */
export const scaleCuts = (
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  across: number,
  down: number,
  about: Point,
): Project => turnCuts(project, blockId, cutIds, [across, 0, 0, down], about);

/** Adds the images of cuts under turns about a point, each place once; ids in turn from `nextCutId(block)`. */
export function copyTurned(
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  turns: readonly Turn[],
  about: Point,
): Project {
  const chosen = new Set(cutIds);
  return changeBlock(project, blockId, (block) => {
    const ids = freeCutIds(block);
    const cuts = [...block.cuts];
    for (const turn of turns)
      for (const cut of block.cuts) {
        const image = chosen.has(cut.id) ? turnedCut(cut, turn, about) : null;
        if (image === null || cuts.length >= CUTS_PER_BLOCK || cuts.some((other) => sameLine(other, image)))
          continue;
        const { locked: _, ...free } = image;
        cuts.push({ ...free, id: ids.next().value });
      }
    return cuts.length === block.cuts.length ? block : carryPatches(block, { ...block, cuts });
  });
}

/** Turns or mirrors a whole block of the project, see `turnedBlock`. */
export const turnBlock = (project: Project, blockId: string, turn: Turn): Project =>
  changeBlock(project, blockId, (block) => turnedBlock(block, turn));

/**
 * Turns or mirrors a block with its cuts, patches, orders by hand and the picture under it; the top left corner of its
 * box stays. The same block where a point would lie out of bounds.
 */
export function turnedBlock(block: Block, turn: Turn): Block {
  const box = boxOf(block.outline);
  const after = boxOf(block.outline.map((point) => turned(turn, [0, 0], point)));
  const moved = (point: Point): Point => {
    const [x, y] = turned(turn, [0, 0], point);
    return cleanPoint([x + box.minX - after.minX, y + box.minY - after.minY]) ?? OUT_OF_BOUNDS;
  };
  const outline = block.outline.map(moved);
  // A mirror turns the outline the other way round; its corners are kept in the same turn.
  const isMirror = turn[0] * turn[3] - turn[1] * turn[2] < 0;
  const result: Block = {
    ...block,
    outline: isMirror ? outline.toReversed() : outline,
    cuts: block.cuts.map((cut) => ({ ...cut, from: moved(cut.from), to: moved(cut.to) })),
  };
  if (!isWithin(result)) return block;
  return carryPicture(block, carryPatches(block, result, moved), ([x, y]) =>
    turned(turnBack(turn), [0, 0], [x - box.minX + after.minX, y - box.minY + after.minY]),
  );
}

const OUT_OF_BOUNDS: Point = [Number.NaN, Number.NaN];

const isWithin = ({ outline, cuts }: Block): boolean =>
  [...outline, ...cuts.flatMap(({ from, to }) => [from, to])].every(([x]) => !Number.isNaN(x));

function turnedCut(cut: Cut, turn: Turn, about: Point): Cut | null {
  const from = cleanPoint(turned(turn, about, cut.from));
  const to = cleanPoint(turned(turn, about, cut.to));
  return from === null || to === null || samePoint(from, to) ? null : { ...cut, from, to };
}

const samePoint = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];

const sameEnds = (a: Cut, b: Cut): boolean => samePoint(a.from, b.from) && samePoint(a.to, b.to);

const sameLine = (a: Cut, b: Cut): boolean =>
  sameEnds(a, b) || (samePoint(a.from, b.to) && samePoint(a.to, b.from));
