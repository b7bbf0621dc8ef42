import type { Block } from '../../document/project.ts';
import type { Point } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { toScreen } from '../camera.ts';
import { INKS } from './inks.ts';
import { FONT, type Pen, strokePath } from './pen.ts';

/** Shares of a cut's length at which its name may stand, the best first. */
const SHARES = [0.5, 0.35, 0.65, 0.2, 0.8];

/** A name keeps so far from what it must not cover, CSS pixels. */
const CLEAR_PX = 34;

/** Names a few cuts where they lie, `cut 3`, as sentences about them do; never over the places in `avoid`. */
export function drawCutNames(
  { ctx, camera }: Pen,
  block: Block,
  ids: readonly string[],
  avoid: readonly Point[] = [],
): void {
  const taken = avoid.map((at) => toScreen(camera, at));
  ctx.font = `600 13px ${FONT}`;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  for (const [index, { id, from, to }] of block.cuts.entries()) {
    if (!ids.includes(id)) continue;
    const [a, b] = [toScreen(camera, from), toScreen(camera, to)];
    const spots = SHARES.map((t): Point => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
    const spot = spots.find((at) => taken.every((other) => distance(at, other) > CLEAR_PX)) ?? spots[0]!;
    taken.push(spot);
    const text = phrase('line {index}', { index: index + 1 });
    const width = ctx.measureText(text).width + 12;
    ctx.beginPath();
    ctx.roundRect(spot[0] - width / 2, spot[1] - 10, width, 20, 10);
    ctx.fillStyle = INKS.sheet;
    ctx.fill();
    strokePath({ ctx, camera }, { color: INKS.ink, width: 1.2 });
    ctx.fillStyle = INKS.ink;
    ctx.fillText(text, spot[0], spot[1] + 0.5);
  }
}
