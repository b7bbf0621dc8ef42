import { describe, expect, it } from 'vitest';
import { playwrightTally, sumOf, vitestTally, wholeTally } from './reports.ts';

const tests = (...list: [name: string, status: string][]): object => ({
  testResults: [
    { status: 'passed', assertionResults: list.map(([fullName, status]) => ({ fullName, status })) },
  ],
});
const vitestReport = (change: object): string =>
  JSON.stringify({ numPassedTests: 7, numFailedTests: 0, testResults: [], ...change });
const playwrightReport = (change: object): string =>
  JSON.stringify({
    stats: { expected: 3, unexpected: 0, flaky: 0, ...change },
    suites: [
      {
        title: 'paper.spec.ts',
        specs: [{ title: 'prints', tests: [{ status: 'expected' }] }],
        suites: [
          { title: 'true scale', specs: [{ title: 'needs pdftoppm', tests: [{ status: 'skipped' }] }] },
        ],
      },
    ],
  });
const LEFT_OUT = ['true scale needs pdftoppm'];

describe('the counts of a test run', () => {
  it('are those of the reports', () => {
    const some = tests(['a', 'passed'], ['b', 'skipped'], ['c', 'failed'], ['d', 'todo']);
    expect(vitestTally(vitestReport(some), true)).toEqual({ passed: 7, failed: 0, skipped: ['b', 'd'] });
    expect(vitestTally(vitestReport({ numFailedTests: 4 }), false)).toEqual({
      passed: 7,
      failed: 4,
      skipped: [],
    });
    expect(playwrightTally(playwrightReport({}), true)).toEqual({ passed: 3, failed: 0, skipped: LEFT_OUT });
    expect(playwrightTally(playwrightReport({ unexpected: 2 }), false)).toMatchObject({
      passed: 3,
      failed: 2,
    });
  });

  it('count a test file that could not be read as a failure', () => {
    const testResults = [
      { status: 'failed', assertionResults: [] },
      { status: 'passed', assertionResults: [{}] },
    ];
    expect(vitestTally(vitestReport({ testResults }), false).failed).toBe(1);
  });

  it('never turn a bad end, a missing report or a broken one into success', () => {
    for (const report of [null, '', '{', '[]', '3']) {
      expect(vitestTally(report, true).failed).toBe(1);
      expect(playwrightTally(report, true).failed).toBe(1);
    }
    expect(vitestTally(vitestReport({}), false).failed).toBe(1);
    expect(playwrightTally(playwrightReport({}), false).failed).toBe(1);
    expect(wholeTally(false).failed).toBe(1);
  });

  it('count a journey that passed only at the second try as failed', () => {
    expect(playwrightTally(playwrightReport({ flaky: 1 }), true)).toMatchObject({ passed: 3, failed: 1 });
  });

  it('add up', () => {
    const one = { passed: 1, failed: 2, skipped: ['a'] };
    expect(sumOf([one, one, wholeTally(true)])).toEqual({ passed: 3, failed: 4, skipped: ['a', 'a'] });
    expect(sumOf([])).toEqual({ passed: 0, failed: 0, skipped: [] });
  });
});
