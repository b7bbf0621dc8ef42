import { chance } from '../geometry/chance.ts';
import { fewestRounds } from './exact.ts';
import type { Paper } from './papers.ts';
import { takesOf } from './replay.ts';
import { type Race, raceOf } from './runners.ts';
import { beamSearch, farFromDone, isDone, roundsLeft, runThrough, type Sequence } from './search-rounds.ts';
import { shortened } from './shorten.ts';
import type { StageOptions } from './stages.ts';
import { leafingThrough, roundsByPosition } from './usual-ways.ts';

/** A whole assembly line: which fabric comes out when, and what every paper takes of it. */
export interface RoundsPlan {
  readonly papers: readonly { readonly id: string; readonly order: readonly string[] }[];
  readonly rounds: readonly Round[];
  /** No plan has fewer rounds. */
  readonly bound: number;
  /** Rounds when sewing position by position, and when leafing through the fabrics in order. */
  readonly byPosition: number;
  readonly byLeafing: number;
}

/** One fabric worked through every paper that takes it. */
export interface Round {
  /** Null for patches that have no fabric yet. */
  readonly fabric: string | null;
  readonly work: readonly { readonly paper: string; readonly patches: readonly string[] }[];
  /** Which batch it belongs to, from 1, where papers are sewn so many at a time. */
  readonly batch?: number;
}

export interface RoundsOptions extends StageOptions {
  /** Fabric ids in the order in which they are leafed through. */
  readonly fabricOrder?: readonly string[];
  /** How many rounds are tried to be moved; more find fewer rounds. */
  readonly steps?: number;
  readonly seed?: number;
}

const USUAL_STEPS = 4000;
/** States looked at to prove that there are no fewer. */
const PROOF_STATES = 4000;
const BEAM_WIDTH = 5;
/** A try in this many is heard of by whoever watches. */
const STEPS_A_LOOK = 250;

/** A plan on the way to a better one, and how far the search has come, 0 to 1. */
export interface RoundsProgress {
  readonly plan: RoundsPlan;
  readonly done: number;
}

/**
 * Better and better plans of rounds, the first at once, the last the one to take. Fewest rounds is shortest common
 * supersequence (hard: Maier, JACM 25, 1978) with the order of each paper free as far as it sews. First comes
 * majority merge (Jiang and Li, SIAM J. Comput. 24, 1995, from memory), then beam search, then rounds are moved about
 * until some fall out. Never more than leafing through the fabrics in order. The same papers give the same plan.
 * Throws where papers wait for each other.
 */
export function* plansOfRounds(
  papers: readonly Paper[],
  options: RoundsOptions = {},
): Generator<RoundsProgress> {
  const race = raceOf(papers, options.fabricOrder ?? [], options);
  const { runners, fabrics } = race;
  const usual = { byPosition: roundsByPosition(papers), byLeafing: 0 };
  const leafing = leafingThrough(papers, fabrics);
  usual.byLeafing = leafing.length;
  let bound = 0;
  const planFor = (sequence: Sequence): RoundsPlan => settled(papers, race, sequence, { ...usual, bound });
  const shorter = (a: Sequence, b: Sequence): Sequence => (b.length < a.length ? b : a);

  const leafed = leafing.map((fabric) => fabrics.indexOf(fabric));
  let best = beamSearch(runners, fabrics.length, 1, roundsLeft);
  if (isDone(runners, runThrough(runners, leafed))) best = shorter(best, leafed);
  const fewest = fewestRounds(runners, fabrics.length, PROOF_STATES);
  bound = fewest.bound;
  best = shorter(best, fewest.sequence ?? best);
  yield { plan: planFor(best), done: 0 };
  if (best.length === bound) return;

  best = shorter(best, beamSearch(runners, fabrics.length, BEAM_WIDTH, farFromDone(fabrics.length)));
  const steps = options.steps ?? USUAL_STEPS;
  const next = chance(options.seed ?? 1);
  const pick = (below: number): number => Math.floor(next() * below);
  for (let step = 0; step < steps && best.length > bound; step += STEPS_A_LOOK) {
    const before = best.length;
    best = shortened(runners, best, Math.min(STEPS_A_LOOK, steps - step), pick);
    const done = Math.min(1, (step + STEPS_A_LOOK) / steps);
    yield { plan: planFor(best), done: best.length === before ? done : Math.min(done, 0.999) };
  }
  yield { plan: planFor(best), done: 1 };
}

/** The plan of rounds, at once: the last of `plansOfRounds`. */
export function planRounds(papers: readonly Paper[], options: RoundsOptions = {}): RoundsPlan {
  let last: RoundsPlan | null = null;
  for (const { plan } of plansOfRounds(papers, options)) last = plan;
  return last!;
}

function settled(
  papers: readonly Paper[],
  { fabrics, runners, runnerOf }: Race,
  sequence: Sequence,
  known: Pick<RoundsPlan, 'bound' | 'byPosition' | 'byLeafing'>,
): RoundsPlan {
  const takes = takesOf(runners, sequence);
  const work = sequence.map((): { paper: string; patches: string[] }[] => []);
  const ordered = papers.map(({ id, form }) => {
    const order: string[] = [];
    for (const { round, patches } of takes[runnerOf.get(id)!]!) {
      const names = patches.map((p) => form.patches[p]!);
      order.push(...names);
      work[round]!.push({ paper: id, patches: names });
    }
    return { id, order };
  });
  // A round that no paper needs once all orders are settled does not come out.
  const rounds = sequence.map((fabric, k): Round => ({ fabric: fabrics[fabric]!, work: work[k]! }));
  return { papers: ordered, rounds: rounds.filter((round) => round.work.length > 0), ...known };
}
