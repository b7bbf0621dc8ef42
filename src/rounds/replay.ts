import { advance, type Runner, type Sequence, startOf } from './search-rounds.ts';

/** What one paper does in one round: the patches it takes, by number, in an order that sews. */
export interface Take {
  readonly round: number;
  readonly patches: readonly number[];
}

/**
 * Settles the order of each paper for a sequence of rounds: of all ways that end in time the one that takes the paper
 * in hand least often. Result: the takes of each runner, in turn. Throws where the sequence leaves a paper unfinished.
 */
export function takesOf(runners: readonly Runner[], sequence: Sequence): Take[][] {
  const trail = [startOf(runners)];
  for (const fabric of sequence) trail.push(advance(runners, trail.at(-1)!, fabric) ?? trail.at(-1)!);
  const isWaitedFor = new Set(runners.flatMap(({ waitsFor }) => waitsFor));
  return runners.map((runner, k) => {
    const standings = trail.map((at) => at[k]!);
    const inTime = standings.indexOf(runner.standings.done);
    if (inTime < 0) throw new Error('the rounds end before a paper is finished');
    // What others wait for is finished when they count on it; the rest may wait for a better moment.
    const end = isWaitedFor.has(k) ? inTime : sequence.length;
    return takesOfOne(runner, sequence.slice(0, end), standings.slice(0, end + 1));
  });
}

interface Way {
  readonly takes: number;
  readonly before: Way | null;
  readonly stage: number;
  /** The round that led here; -1 where nothing was taken. */
  readonly round: number;
}

function takesOfOne({ standings }: Runner, sequence: Sequence, trail: readonly number[]): Take[] {
  const { stages, stagesAt } = standings;
  let ways = new Map<number, Way>();
  for (const stage of stagesAt(trail[0]!)) ways.set(stage, { takes: 0, before: null, stage, round: -1 });
  sequence.forEach((fabric, round) => {
    const next = new Map<number, Way>();
    const offer = (way: Way): void => {
      const known = next.get(way.stage);
      if (known === undefined || way.takes < known.takes) next.set(way.stage, way);
    };
    const moved = trail[round] !== trail[round + 1];
    for (const way of ways.values()) {
      offer(way);
      if (!moved && way.stage === stages.whole) continue;
      // A paper that waits for others stands still however often its fabric comes.
      if (moved || canMove(round))
        for (const stage of stages.withFabric(way.stage, fabric))
          offer({ takes: way.takes + 1, before: way, stage, round });
    }
    ways = next;
  });
  const takes: Take[] = [];
  for (let way: Way | null = ways.get(stages.whole)!; way?.before; way = way.before)
    takes.push({
      round: way.round,
      patches: stages.between(way.before.stage, way.stage, sequence[way.round]!),
    });
  return takes.reverse();

  /** After its first move a paper waits for nothing but fabric. */
  function canMove(round: number): boolean {
    return trail[round] !== trail[0];
  }
}
