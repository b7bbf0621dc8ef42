import type { Form } from './form.ts';
import type { Paper } from './papers.ts';
import type { Runner } from './search-rounds.ts';
import { type StageOptions, stagesOf } from './stages.ts';
import { standingsOf } from './standings.ts';

/** What a search for rounds works on: fabrics by number, papers that are sewn alike as one. */
export interface Race {
  /** Fabric ids, null for patches without one, in the order of the numbers. */
  readonly fabrics: readonly (string | null)[];
  readonly runners: readonly Runner[];
  /** Number of the runner each paper goes with. */
  readonly runnerOf: ReadonlyMap<string, number>;
}

/** Copies of one foundation are sewn alike: they share a runner. `order`: fabric ids in the order they are leafed through. */
export function raceOf(papers: readonly Paper[], order: readonly string[], options: StageOptions = {}): Race {
  const used = new Set(papers.flatMap(({ form }) => form.fabrics));
  const fabrics: (string | null)[] = [...order.filter((id) => used.has(id)), null].filter(
    (id) => id !== null || used.has(null),
  );
  for (const id of used) if (!fabrics.includes(id)) fabrics.push(id);
  const numberOf = new Map(fabrics.map((id, k) => [id, k]));
  const byForm = new Map<Form, number>();
  const runners: { standings: Runner['standings']; waitsFor: number[] }[] = [];
  const runnerOf = new Map<string, number>();
  for (const { id, form } of papers) {
    let runner = byForm.get(form);
    if (runner === undefined) {
      runner = runners.length;
      byForm.set(form, runner);
      runners.push({
        standings: standingsOf(stagesOf(form, numberOf, options), fabrics.length),
        waitsFor: [],
      });
    }
    runnerOf.set(id, runner);
  }
  for (const { id, waitsFor } of papers) {
    const own = runners[runnerOf.get(id)!]!.waitsFor;
    for (const other of waitsFor) {
      const w = runnerOf.get(other);
      if (w !== undefined && !own.includes(w)) own.push(w);
    }
  }
  return { fabrics, runners, runnerOf };
}
