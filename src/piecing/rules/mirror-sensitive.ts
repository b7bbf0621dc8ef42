import type { Point } from '../../geometry/point.ts';
import { boxOf, centroid, middle, signedArea } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Rule } from './rule.ts';
import { cornersOf } from './shape-of-patch.ts';

/** How far apart two patches may lie and still count as mirror images: 1/64 in. */
const SAME_SPOT_IN = 1 / 64;

/** Axes looked at: those of an outline with a dozen corners; more have no block. */
const MOST_AXES = 48;

/**
 * Blocks that no mirror turns into themselves, in lines or in fabrics: sewn from papers printed the wrong way round
 * they come out as another picture.
 */
export const mirrorSensitive: Rule = {
  code: 'mirror-sensitive',
  title: phrase('Another picture in the mirror'),
  severity: 'note',
  check: ({ block, patches: told }) => {
    if (told.length < 2) return [];
    const patches = told.map(({ polygon, fabric }) => ({
      at: centroid(polygon),
      corners: cornersOf(polygon),
      area: signedArea(polygon),
      fabric,
    }));
    const centre = centroid(block.outline);
    const buckets = new Map<string, number[]>();
    const bucket = (v: number): number => Math.floor(v / 0.25);
    patches.forEach(({ at }, k) => {
      const key = `${bucket(at[0])} ${bucket(at[1])}`;
      buckets.set(key, [...(buckets.get(key) ?? []), k]);
    });
    /** Is there a patch of the same shape and fabric where a mirror puts this one? */
    const hasTwin = ({ at, corners, area, fabric }: (typeof patches)[number], mirrored: Mirror): boolean => {
      const [x, y] = mirrored(at);
      for (const dx of [-SAME_SPOT_IN, SAME_SPOT_IN])
        for (const dy of [-SAME_SPOT_IN, SAME_SPOT_IN])
          for (const k of buckets.get(`${bucket(x + dx)} ${bucket(y + dy)}`) ?? []) {
            const twin = patches[k]!;
            if (Math.abs(twin.area - area) > SAME_SPOT_IN || twin.fabric !== fabric) continue;
            if (isNear(twin.at, [x, y]) && lieAlike(corners.map(mirrored), twin.corners)) return true;
          }
      return false;
    };
    // A mirror of the block mirrors its outline too, so its axis goes through a corner or the middle of a side.
    const { outline } = block;
    const marks = outline.flatMap((corner, k) => [
      corner,
      middle(corner, outline[(k + 1) % outline.length]!),
    ]);
    for (const [x, y] of marks.slice(0, MOST_AXES)) {
      const angle = Math.atan2(y - centre[1], x - centre[0]);
      const cos = Math.cos(2 * angle);
      const sin = Math.sin(2 * angle);
      const mirrored: Mirror = ([px, py]) => [
        centre[0] + cos * (px - centre[0]) + sin * (py - centre[1]),
        centre[1] + sin * (px - centre[0]) - cos * (py - centre[1]),
      ];
      if (patches.every((patch) => hasTwin(patch, mirrored))) return [];
    }
    const box = boxOf(block.outline);
    return [
      {
        at: [box.minX + (box.maxX - box.minX) / 2, box.minY],
        message: phrase(
          'In a mirror this block is another picture. Its papers print mirrored, so that the front comes out as drawn: do not mirror them again.',
        ),
      },
    ];
  },
};

type Mirror = (point: Point) => Point;

const isNear = (p: Point, q: Point): boolean =>
  Math.abs(p[0] - q[0]) <= SAME_SPOT_IN && Math.abs(p[1] - q[1]) <= SAME_SPOT_IN;

/** Do the corners of two shapes lie on each other? Alike in area and middle they may still be other shapes. */
const lieAlike = (corners: readonly Point[], others: readonly Point[]): boolean =>
  corners.length === others.length && corners.every((p) => others.some((q) => isNear(p, q)));
