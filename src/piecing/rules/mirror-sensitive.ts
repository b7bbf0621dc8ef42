import type { Point } from '../../geometry/point.ts';
import { boxOf, centroid, middle, signedArea } from '../../geometry/ring.ts';
import type { Rule } from './rule.ts';

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
  title: 'Another picture in the mirror',
  severity: 'note',
  check: ({ block, patches: told }) => {
    if (told.length < 2) return [];
    const patches = told.map(({ polygon, fabric }) => ({
      at: centroid(polygon),
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
    const hasTwin = (at: Point, area: number, cloth: string | null): boolean => {
      for (const dx of [-SAME_SPOT_IN, SAME_SPOT_IN])
        for (const dy of [-SAME_SPOT_IN, SAME_SPOT_IN])
          for (const k of buckets.get(`${bucket(at[0] + dx)} ${bucket(at[1] + dy)}`) ?? []) {
            const twin = patches[k]!;
            if (
              Math.abs(twin.at[0] - at[0]) <= SAME_SPOT_IN &&
              Math.abs(twin.at[1] - at[1]) <= SAME_SPOT_IN &&
              Math.abs(twin.area - area) <= SAME_SPOT_IN &&
              twin.fabric === cloth
            )
              return true;
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
      const mirrored = ({ at }: { at: Point }): Point => [
        centre[0] + cos * (at[0] - centre[0]) + sin * (at[1] - centre[1]),
        centre[1] + sin * (at[0] - centre[0]) - cos * (at[1] - centre[1]),
      ];
      if (patches.every((patch) => hasTwin(mirrored(patch), patch.area, patch.fabric))) return [];
    }
    const box = boxOf(block.outline);
    return [
      {
        at: [box.minX + (box.maxX - box.minX) / 2, box.minY],
        message:
          'In a mirror this block is another picture. Its papers print mirrored, so that the front comes out as drawn: do not mirror them again.',
      },
    ];
  },
};
