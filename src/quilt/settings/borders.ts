import type { BlockPlace, Border } from '../../document/quilt.ts';
import { formatLength, type LengthUnit } from '../../geometry/length.ts';
import type { Point } from '../../geometry/point.ts';
import type { Box } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { type NamelessPlain, rectangle, shaped, upTo } from './slots.ts';

export type NamelessPlace = NamelessPlain | Omit<BlockPlace, 'id'>;

export type Bordered =
  | { readonly ok: true; readonly places: readonly NamelessPlace[]; readonly box: Box }
  | { readonly ok: false; readonly message: string };

/**
 * One border round a box: four strips, the sides first where they are butted (common practice: long sides first, then top
 * and bottom over their ends), with slanting ends where they are mitred, between squares, or of blocks side by side.
 * `sizeOf` gives width and height of a block, null where there is none of that id.
 */
export function borderRound(
  box: Box,
  border: Border,
  sizeOf: (block: string) => Point | null,
  unit: LengthUnit = 'in',
): Bordered {
  const { width: b } = border;
  const [w, h] = [box.maxX - box.minX, box.maxY - box.minY];
  if (b > Math.min(w, h)) {
    return {
      ok: false,
      message: phrase('The border is {b} wide, wider than the quilt inside it ({w} × {h}).', {
        b: formatLength(b, unit),
        w: formatLength(w, unit),
        h: formatLength(h, unit),
      }),
    };
  }
  const outer: Box = { minX: box.minX - b, minY: box.minY - b, maxX: box.maxX + b, maxY: box.maxY + b };
  if (border.block !== undefined) return ofBlocks(box, outer, border, border.block, sizeOf, unit);
  const { fabric, corners, cornerFabric = fabric } = border;
  const plain = (x: number, y: number, wide: number, high: number, cloth = fabric): NamelessPlain =>
    rectangle([x, y], [wide, high], 'border', cloth);
  const { minX, minY, maxX, maxY } = box;
  switch (corners) {
    case 'butted':
      return {
        ok: true,
        box: outer,
        places: [
          plain(outer.minX, outer.minY, w + 2 * b, b),
          plain(outer.minX, minY, b, h),
          plain(maxX, minY, b, h),
          plain(outer.minX, maxY, w + 2 * b, b),
        ],
      };
    case 'squares':
      return {
        ok: true,
        box: outer,
        places: [
          ...squares(outer, b, cornerFabric),
          plain(minX, outer.minY, w, b),
          plain(outer.minX, minY, b, h),
          plain(maxX, minY, b, h),
          plain(minX, maxY, w, b),
        ],
      };
    case 'mitred': {
      const side = (...ring: Point[]): NamelessPlain => shaped(ring, 'border', fabric);
      return {
        ok: true,
        box: outer,
        places: [
          side([outer.minX, outer.minY], [outer.maxX, outer.minY], [maxX, minY], [minX, minY]),
          side([outer.maxX, outer.minY], [outer.maxX, outer.maxY], [maxX, maxY], [maxX, minY]),
          side([outer.maxX, outer.maxY], [outer.minX, outer.maxY], [minX, maxY], [maxX, maxY]),
          side([outer.minX, outer.maxY], [outer.minX, outer.minY], [minX, minY], [minX, maxY]),
        ],
      };
    }
  }
}

const squares = (outer: Box, b: number, fabric: string | undefined): NamelessPlain[] =>
  [outer.minY, outer.maxY - b].flatMap((y) =>
    [outer.minX, outer.maxX - b].map((x) => rectangle([x, y], [b, b], 'border', fabric)),
  );

/** Blocks side by side, their feet inwards; the corners are blocks where those are square, else plain squares. */
function ofBlocks(
  box: Box,
  outer: Box,
  border: Border,
  block: string,
  sizeOf: (block: string) => Point | null,
  unit: LengthUnit,
): Bordered {
  const size = sizeOf(block);
  if (!size) return { ok: false, message: phrase('The block of this border is not in the project.') };
  const [along, deep] = size;
  const b = border.width;
  const say = (inches: number): string => formatLength(inches, unit);
  if (Math.abs(deep - b) > 1e-3)
    return {
      ok: false,
      message: phrase('The border is {b} wide and its block {deep} high.', { b: say(b), deep: say(deep) }),
    };
  const [w, h] = [box.maxX - box.minX, box.maxY - box.minY];
  for (const length of [w, h]) {
    const count = length / along;
    if (Math.abs(count - Math.round(count)) * along <= 1e-3) continue;
    const wanted = Math.ceil(count - 1e-6) * along;
    return {
      ok: false,
      message: phrase(
        'Blocks of {along} do not come out along {length}: a plain border of {wanted} inside this one makes it {wanted2}.',
        { along: say(along), length: say(length), wanted: say((wanted - length) / 2), wanted2: say(wanted) },
      ),
    };
  }
  const place = (x: number, y: number, turn: number): Omit<BlockPlace, 'id'> => ({
    at: [x, y],
    block,
    turn,
    mirrored: false,
    part: 'border',
  });
  const across = upTo(Math.round(w / along)).map((k) => box.minX + k * along);
  const down = upTo(Math.round(h / along)).map((k) => box.minY + k * along);
  const isSquare = Math.abs(along - deep) <= 1e-3;
  const corners: NamelessPlace[] = isSquare
    ? [
        place(outer.minX, outer.minY, 0),
        place(box.maxX, outer.minY, 0),
        place(outer.minX, box.maxY, 0),
        place(box.maxX, box.maxY, 0),
      ]
    : squares(outer, b, border.cornerFabric ?? border.fabric);
  return {
    ok: true,
    box: outer,
    places: [
      ...corners,
      ...across.map((x) => place(x, outer.minY, 0)),
      ...down.map((y) => place(box.maxX, y, 1)),
      ...across.map((x) => place(x, box.maxY, 2)),
      ...down.map((y) => place(outer.minX, y, 3)),
    ],
  };
}
