import type { Division } from '../../geometry/division.ts';
import { snapPoint } from '../../geometry/lattice.ts';
import type { Segment } from '../../geometry/point.ts';
import type { Block } from '../block.ts';
import { prepare } from '../piece.ts';
import { wholeOf } from '../region.ts';
import { chordsOf } from './chords.ts';
import { type Draft, draftOf, type MendOptions, triesFor } from './draft.ts';
import { planeOf } from './plane.ts';
import { tractFrom } from './tract.ts';

/** Patches added at most for one paper fewer. */
const MOST_THROUGH = 3;

/** Lines drawn on, one after another; of large drawings one alone. */
const linesFor = (patches: number): number => (patches > 60 ? 1 : 3);

/** Of all changes that come out alike so many are gone on from. */
const GONE_ON_FROM = 2;

/**
 * Ways to sew a drawing on fewer foundations for patches added, from one that sews: lines drawn on through a few
 * patches, over a gap to where they go on or to the edge. Each takes fewer foundations than the one before and adds
 * more patches. By promise, not by trial of all. A generator: it yields after each trial.
 */
export function* fewerFoundations(
  block: Block,
  before: Division,
  start: Draft,
  options: MendOptions,
): Generator<null, Draft[], void> {
  let least = start.foundations;
  const found: Draft[] = [];
  let from: readonly Draft[] = [start];
  for (let line = 0; line < linesFor(start.patches) && least > 1; line++) {
    const next: Draft[] = [];
    for (const draft of from)
      for (const stretch of stretchesOn(draft.block, MOST_THROUGH).slice(0, triesFor(draft.patches))) {
        const longer = draftOf(block, before, [...draft.stretches, ...stretch], options);
        yield null;
        if (!longer || longer.holds > 0 || longer.patches <= draft.patches) continue;
        if (longer.awkward > start.awkward + 1) continue;
        next.push(longer);
      }
    next.sort((a, b) => a.foundations - b.foundations || a.patches - b.patches || a.seam - b.seam);
    const [best] = next;
    if (!best) break;
    if (best.foundations < least) {
      least = best.foundations;
      found.push(best);
    }
    from = next.slice(0, GONE_ON_FROM);
  }
  return found;
}

/** What may be drawn on in a drawing: stretches through no more than `most` patches that close a gap in a line or take it to the edge. */
export function stretchesOn(block: Block, most: number): Segment[][] {
  const prepared = prepare(block);
  if (!prepared.ok) return [];
  const { pattern } = prepared;
  const plane = planeOf(pattern.division, pattern.straight);
  const tract = tractFrom(plane, pattern, wholeOf(pattern));
  return chordsOf(plane, tract)
    .drawn(2 * most)
    .flatMap(({ steps }) => {
      const runs: Segment[][] = [];
      let run: Segment[] = [];
      for (const { from, to, piece } of steps) {
        if (piece >= 0) run.push([snapPoint(from.at), snapPoint(to.at)]);
        else if (run.length > 0) {
          runs.push(run);
          run = [];
        }
      }
      if (run.length > 0) runs.push(run);
      return runs.filter(({ length }) => length <= most);
    })
    .map((run): Segment[] => [[run[0]![0], run.at(-1)![1]]]);
}
