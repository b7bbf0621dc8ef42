import type { Paper } from './papers.ts';

/** Rounds when all papers are sewn position by position: at each position every fabric comes out once. */
export function roundsByPosition(papers: readonly Paper[]): number {
  const most = Math.max(0, ...papers.map(({ form }) => form.patches.length));
  let rounds = 0;
  for (let k = 0; k < most; k++)
    rounds += new Set(papers.flatMap(({ form }) => (k < form.fabrics.length ? [form.fabrics[k]!] : []))).size;
  return rounds;
}

/**
 * The rounds when the fabrics are leafed through in order, again and again, every paper taking what comes next in its
 * printed order. Those in which nothing is sewn do not count. Result: fabrics in the order they came out.
 */
export function leafingThrough(
  papers: readonly Paper[],
  fabrics: readonly (string | null)[],
): (string | null)[] {
  const at = new Map(papers.map(({ id }) => [id, 0]));
  const isFinished = ({ id, form }: Paper): boolean => at.get(id) === form.patches.length;
  const byId = new Map(papers.map((paper) => [paper.id, paper]));
  const rounds: (string | null)[] = [];
  for (let left = papers.filter((paper) => !isFinished(paper)); left.length > 0; ) {
    const before = rounds.length;
    for (const fabric of fabrics) {
      const ready = left.filter(({ waitsFor }) =>
        waitsFor.every((other) => !byId.has(other) || isFinished(byId.get(other)!)),
      );
      let isUsed = false;
      for (const { id, form } of ready) {
        let k = at.get(id)!;
        for (; k < form.patches.length && form.fabrics[k] === fabric; k++) isUsed = true;
        at.set(id, k);
      }
      if (isUsed) rounds.push(fabric);
    }
    if (rounds.length === before) break;
    left = left.filter((paper) => !isFinished(paper));
  }
  return rounds;
}
