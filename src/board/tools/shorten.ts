import type { Cut } from '../../document/project.ts';
import { drawOn, type LooseEnd, reachOf, shortenCuts, stretchAt } from '../../editing/shorten.ts';
import { placesOf } from '../../editing/symmetry.ts';
import { cutName } from '../../editing/words.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance, distanceToSegment, middle } from '../../geometry/ring.ts';
import { samePlace } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { type Effect, type Mark, type Step, type Surroundings, stepTo, type Tool } from './tool.ts';

/**
 * Takes the stretch of a cut under the pointer away, back to the lines it runs between; near an end draws the cut on
 * to the next line or the edge. What would go or come is shown before it is pressed, with its images under a symmetry.
 */
export type ShortenState =
  | { readonly kind: 'idle'; readonly over: Meant | null }
  | { readonly kind: 'pressed'; readonly over: Meant };

type Meant =
  | { readonly kind: 'take'; readonly cut: string; readonly segments: readonly Segment[] }
  | {
      readonly kind: 'draw-on';
      readonly cut: string;
      readonly ends: readonly LooseEnd[];
      readonly segments: readonly Segment[];
    };

const IDLE: ShortenState = { kind: 'idle', over: null };

export const shortenTool: Tool<ShortenState> = {
  name: 'shorten',
  start: IDLE,
  busy: ({ kind }) => kind !== 'idle',
  marks: ({ over }) => {
    if (over === null) return [];
    const kind = over.kind === 'take' ? 'going' : 'line';
    return over.segments.map((segment): Mark => ({ kind, segment }));
  },
  on: (state, event, around) => {
    if (around.block === null) return stepTo(IDLE);
    switch (event.kind) {
      case 'move':
        // What is pressed stays meant as long as the pointer stays on it.
        return state.kind === 'pressed'
          ? stepTo(isSame(meantAt(event.pointer.at, around), state.over) ? state : IDLE)
          : stepTo({ kind: 'idle', over: meantAt(event.pointer.at, around) });
      case 'down': {
        const over = meantAt(event.pointer.at, around);
        return stepTo(over === null ? IDLE : { kind: 'pressed', over });
      }
      case 'up':
        return state.kind === 'pressed' ? done(state.over, around) : stepTo(state);
      case 'cancel':
        return stepTo(IDLE);
      default:
        return stepTo(state);
    }
  },
};

const isSame = (a: Meant | null, b: Meant): boolean =>
  a?.kind === b.kind && a.cut === b.cut && samePlace(a.segments[0]![0], b.segments[0]![0]);

/** What a press at a place would do; null beside all cuts. */
function meantAt(at: Point, around: Surroundings): Meant | null {
  const cut = nearestCut(at, around);
  if (cut === null) return null;
  return drawnOnAt(cut, at, around) ?? takenAt(cut, at, around);
}

function nearestCut(at: Point, { block, grabIn }: Surroundings): Cut | null {
  let best: Cut | null = null;
  let bestAway = grabIn;
  for (const cut of block!.cuts) {
    const away = distanceToSegment(at, cut.from, cut.to);
    if (away > bestAway) continue;
    best = cut;
    bestAway = away;
  }
  return best;
}

function drawnOnAt(cut: Cut, at: Point, around: Surroundings): Meant | null {
  const block = around.block!;
  // Near the middle of a short cut the cut itself is meant.
  const reach = Math.min(around.grabIn, distance(cut.from, cut.to) / 3);
  const end = (['from', 'to'] as const).find((one) => distance(cut[one], at) <= reach);
  if (end === undefined || reachOf(block, cut, end) === null) return null;
  const other = end === 'from' ? cut.to : cut.from;
  const ends = placesOf([cut[end], other], around.symmetry, block.outline).map(
    ([e, o]): LooseEnd => ({ end: e!, other: o! }),
  );
  const segments = block.cuts.flatMap((one) =>
    (['from', 'to'] as const).flatMap((side): Segment[] => {
      const isMeant = ends.some(
        (loose) =>
          distance(loose.end, one[side]) < NEAR_IN &&
          distance(loose.other, one[side === 'from' ? 'to' : 'from']) < NEAR_IN,
      );
      const to = isMeant ? reachOf(block, one, side) : null;
      return to === null ? [] : [[one[side], to]];
    }),
  );
  return { kind: 'draw-on', cut: cut.id, ends, segments };
}

/** Images meet what they are images of within the lattice. */
const NEAR_IN = 1 / 1000;

function takenAt(cut: Cut, at: Point, around: Surroundings): Meant {
  const block = around.block!;
  const { segment } = stretchAt(block, cut, at);
  const images = placesOf([middle(...segment)], around.symmetry, block.outline).flatMap(([place]) => {
    const other = block.cuts.find(({ from, to }) => distanceToSegment(place!, from, to) < NEAR_IN);
    return other === undefined ? [] : [stretchAt(block, other, place!).segment];
  });
  // The one under the pointer first.
  return { kind: 'take', cut: cut.id, segments: images.length === 0 ? [segment] : images };
}

function done(over: Meant, around: Surroundings): Step<ShortenState> {
  const { block } = around;
  const { id } = block!;
  if (block!.cuts.find((cut) => cut.id === over.cut)?.locked === true)
    return stepTo<ShortenState>(IDLE, { kind: 'announce', text: phrase('This line is locked.') });
  const name = cutName(block!.cuts, over.cut);
  const edit: Effect =
    over.kind === 'take'
      ? {
          kind: 'edit',
          label: over.segments.length > 1 ? phrase('Shorten lines') : phrase('Shorten line'),
          change: (project) =>
            shortenCuts(
              project,
              id,
              over.segments.map((segment) => middle(...segment)),
            ),
        }
      : {
          kind: 'edit',
          label: over.segments.length > 1 ? phrase('Extend lines') : phrase('Extend line'),
          change: (project) => drawOn(project, id, over.ends),
        };
  const text =
    over.kind === 'take'
      ? phrase('{name} shortened.', { name })
      : phrase('{name} extended to the next line.', { name });
  return stepTo<ShortenState>(IDLE, edit, { kind: 'announce', text });
}
