import { EMPTY_PROJECT } from '../../src/document/project.ts';
import { makingOf } from '../../src/making/making.ts';
import { type Paper, papersOf } from '../../src/rounds/papers.ts';
import { plansOfRounds } from '../../src/rounds/plan-rounds.ts';
import { designOf } from '../designs/designs.ts';
import { Prng } from '../designs/prng.ts';
import { rigidPaper } from '../rounds/strings.ts';
import { median } from './measure.ts';

export interface RoundsRow {
  readonly papers: number;
  readonly fabrics: number;
  readonly rounds: number;
  readonly bound: number;
  readonly byPosition: number;
  readonly majorityMerge: number;
  readonly firstMs: number;
  readonly ms: number;
}

const LETTERS = [...'abcdefghijklmnopqrstuvwxy'];
/** In most blocks. */
const COMMON = LETTERS.slice(0, 4);

/** So many papers of 3 to 12 positions, each position in any of the fabrics, in an order that is given. */
export function colouredByChance(seed: number, count: number): Paper[] {
  const rng = new Prng(seed);
  return Array.from({ length: count }, (_, k) =>
    rigidPaper(`b${k}/A/1`, Array.from({ length: rng.whole(3, 12) }, () => rng.pick(LETTERS)).join('')),
  );
}

/**
 * As many papers as blocks of a pictorial quilt come on: every block has four to six fabrics of its own, some of which
 * (water, sky) are in most blocks. Orders are as free as the blocks leave them.
 */
export const pictorial = (seed: number, count: number): Paper[] => papersOfBlocks(seed, count, true);

/** As free in their orders, but every position in any of the fabrics: no quilt looks like that. */
export const freeByChance = (seed: number, count: number): Paper[] => papersOfBlocks(seed, count, false);

function papersOfBlocks(seed: number, count: number, hasPalettes: boolean): Paper[] {
  const rng = new Prng(seed);
  const papers: Paper[] = [];
  for (let k = 1; papers.length < count; k++) {
    const own = Array.from({ length: rng.whole(4, 6) }, () => rng.pick(rng.chance(0.4) ? COMMON : LETTERS));
    const palette = hasPalettes ? own : LETTERS;
    const { block } = designOf(seed * 1000 + k, { patches: [9, 30] });
    for (const paper of papersOf(makingOf({ ...EMPTY_PROJECT, blocks: [{ ...block, id: `b${k}` }] }))) {
      const { form } = paper;
      if (form.patches.length < 3 || form.patches.length > 12) continue;
      const fabrics = form.patches.map(() => rng.pick(palette));
      papers.push({ ...paper, form: { ...form, fabrics }, waitsFor: [] });
    }
  }
  return papers.slice(0, count);
}

/** How few rounds, and beside what. Majority merge: Jiang and Li, SIAM J. Comput. 24, 1995, from memory. */
export function benchRounds(papers: readonly Paper[]): RoundsRow {
  let firstMs = 0;
  let last: RoundsRow | null = null;
  const fabrics = new Set(papers.flatMap(({ form }) => form.fabrics)).size;
  const majorityMerge = majorityRounds(papers.map(({ form }) => form.fabrics));
  const start = performance.now();
  for (const { plan } of plansOfRounds(papers)) {
    if (firstMs === 0) firstMs = performance.now() - start;
    const { rounds, bound, byPosition } = plan;
    last = {
      papers: papers.length,
      fabrics,
      rounds: rounds.length,
      bound,
      byPosition,
      majorityMerge,
      firstMs,
      ms: performance.now() - start,
    };
  }
  if (last === null) throw new Error('no plan of rounds');
  return last;
}

/** The next fabric is the one that most papers wait for. Orders as the plans have them. */
function majorityRounds(strings: readonly (readonly (string | null)[])[]): number {
  const at = strings.map(() => 0);
  for (let rounds = 0; ; rounds++) {
    const votes = new Map<string | null, number>();
    strings.forEach((letters, k) => {
      if (at[k]! < letters.length) votes.set(letters[at[k]!]!, (votes.get(letters[at[k]!]!) ?? 0) + 1);
    });
    if (votes.size === 0) return rounds;
    const [fabric] = [...votes].reduce((most, one) => (one[1] > most[1] ? one : most));
    strings.forEach((letters, k) => {
      while (at[k]! < letters.length && letters[at[k]!] === fabric) at[k]!++;
    });
  }
}

/** Several seeded sets: the middle of each number. */
export function roundsRow(rows: readonly RoundsRow[]): RoundsRow {
  const middle = (of: (row: RoundsRow) => number): number => median(rows.map(of));
  return {
    papers: middle(({ papers }) => papers),
    fabrics: middle(({ fabrics }) => fabrics),
    rounds: middle(({ rounds }) => rounds),
    bound: middle(({ bound }) => bound),
    byPosition: middle(({ byPosition }) => byPosition),
    majorityMerge: middle(({ majorityMerge }) => majorityMerge),
    firstMs: middle(({ firstMs }) => firstMs),
    ms: middle(({ ms }) => ms),
  };
}
