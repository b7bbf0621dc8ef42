/** Median of a list of numbers, which may be in any order. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

export interface Patience {
  /** Time to warm up before anything counts, and time to measure, milliseconds. */
  readonly warmUpMs: number;
  readonly measureMs: number;
  /** Runs measured at least, whatever the time. */
  readonly leastRuns: number;
}

/** Milliseconds one call takes: the median of many, after a warm-up that lets the machine compile it. */
export function timeOf(work: () => unknown, { warmUpMs, measureMs, leastRuns }: Patience): number {
  const warm = performance.now() + warmUpMs;
  do work();
  while (performance.now() < warm);
  const times: number[] = [];
  const end = performance.now() + measureMs;
  while (times.length < leastRuns || performance.now() < end) {
    const start = performance.now();
    work();
    times.push(performance.now() - start);
  }
  return median(times);
}

/** Exponent k of the best fit time = c × size^k: the slope of the line through the points on log-log paper. */
export function growthExponent(points: readonly (readonly [size: number, time: number])[]): number {
  const logs = points.map(([size, time]) => [Math.log(size), Math.log(time)] as const);
  const mean = (axis: 0 | 1): number => logs.reduce((sum, p) => sum + p[axis], 0) / logs.length;
  const [mx, my] = [mean(0), mean(1)];
  const covariance = logs.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0);
  return covariance / logs.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
}
