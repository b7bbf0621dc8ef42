/** What one part of the run came to. */
export interface Tally {
  readonly passed: number;
  readonly failed: number;
  /** Names of the tests left out; each says in its name what it needs. */
  readonly skipped: readonly string[];
}

const FAILED: Tally = { passed: 0, failed: 1, skipped: [] };

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const recordsOf = (value: unknown): Record<string, unknown>[] =>
  Array.isArray(value) ? value.filter(isRecord) : [];
const countOf = (value: unknown): number => (typeof value === 'number' && Number.isFinite(value) ? value : 0);

function parsed(report: string | null): Record<string, unknown> | null {
  try {
    const value: unknown = JSON.parse(report ?? '');
    return isRecord(value) ? value : null;
  } catch {
    return null;
  }
}

/** A run that ended badly never counts as nothing failed, whatever its report says. */
function settled(tally: Tally, endedWell: boolean): Tally {
  return endedWell || tally.failed > 0 ? tally : { ...tally, failed: 1 };
}

/**
 * Counts of a vitest JSON report. A file that could not even be read holds no tests and is one failure; so is a
 * report that is not there.
 */
export function vitestTally(report: string | null, endedWell: boolean): Tally {
  const json = parsed(report);
  if (typeof json?.numPassedTests !== 'number') return FAILED;
  const files = recordsOf(json.testResults);
  const unread = files.filter(
    (file) =>
      file.status === 'failed' && Array.isArray(file.assertionResults) && file.assertionResults.length === 0,
  );
  const tally = {
    passed: countOf(json.numPassedTests),
    failed: countOf(json.numFailedTests) + unread.length,
    skipped: files
      .flatMap((file) => recordsOf(file.assertionResults))
      .filter((test) => test.status !== 'passed' && test.status !== 'failed')
      .map((test) => String(test.fullName)),
  };
  return settled(tally, endedWell);
}

/** Counts of a Playwright JSON report. A test that passed only when tried again counts as failed. */
export function playwrightTally(report: string | null, endedWell: boolean): Tally {
  const json = parsed(report);
  const stats = json && isRecord(json.stats) ? json.stats : null;
  if (!stats) return FAILED;
  const tally = {
    passed: countOf(stats.expected),
    failed: countOf(stats.unexpected) + countOf(stats.flaky),
    skipped: recordsOf(json?.suites).flatMap(skippedIn),
  };
  return settled(tally, endedWell);
}

/** Names of the skipped tests of a Playwright suite and all suites within it. */
function skippedIn(suite: Record<string, unknown>): string[] {
  const own = recordsOf(suite.specs)
    .filter((spec) => recordsOf(spec.tests).some((test) => test.status === 'skipped'))
    .map((spec) => `${String(suite.title)} ${String(spec.title)}`);
  return [...own, ...recordsOf(suite.suites).flatMap(skippedIn)];
}

/** Counts of a part that is one check as a whole. */
export const wholeTally = (endedWell: boolean): Tally =>
  endedWell ? { passed: 1, failed: 0, skipped: [] } : FAILED;

export const sumOf = (tallies: readonly Tally[]): Tally =>
  tallies.reduce(
    (sum, tally) => ({
      passed: sum.passed + tally.passed,
      failed: sum.failed + tally.failed,
      skipped: [...sum.skipped, ...tally.skipped],
    }),
    { passed: 0, failed: 0, skipped: [] },
  );
