import { readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { toText } from '../../src/document/to-text.ts';
import { harbour, quarters } from '../document/projects.ts';
import { underpaper, underpaperHere, Workbench } from './command-line.ts';

const bench = new Workbench();
afterAll(() => bench.clear());

const good = toText(harbour);

const withOutline = (outline: object) =>
  JSON.stringify({ ...JSON.parse(good), blocks: [{ ...quarters, outline }] });
const withCuts = (n: number) => {
  const cuts = Array.from({ length: n }, (_, i) => ({
    id: `c${i}`,
    from: [0, (12 * i) / n],
    to: [12, (12 * i) / n],
  }));
  return JSON.stringify({ ...JSON.parse(good), blocks: [{ ...quarters, cuts }] });
};

/** One line, ending in a full stop, without any sign of a program's inside. */
function expectOneSentence(err: string): void {
  expect(err).toMatch(/^underpaper: \S[^\n]*\.\n$/);
  expect(err).not.toMatch(/\bat .+:\d+:\d+|node_modules|Error:|undefined|\[object/);
}

const FILES: readonly (readonly [what: string, content: () => string | Uint8Array, sentence: RegExp])[] = [
  [
    'an outline that crosses itself',
    () =>
      withOutline([
        [0, 0],
        [6, 6],
        [6, 0],
        [0, 4],
      ]),
    /Block 1 ‘Harbour window’: The outline crosses/,
  ],
  [
    'an outline of zero area',
    () =>
      withOutline([
        [0, 0],
        [6, 0],
        [0, 0],
        [6, 0],
      ]),
    /Block 1 ‘Harbour window’: /,
  ],
  [
    'three points in a line',
    () =>
      withOutline([
        [0, 0],
        [3, 3],
        [6, 6],
      ]),
    /Block 1 ‘Harbour window’: /,
  ],
  [
    'NaN',
    () => good.replace('[12,6]', '[12,NaN]'),
    /Block 1 ‘Harbour window’, line 1: the end point is not a number\./,
  ],
  [
    '10^9',
    () => good.replace('[12,6]', '[12,1000000000]'),
    /Block 1 ‘Harbour window’, line 1: the end point lies farther out than 1,000 in\./,
  ],
  [
    '10,000 cuts',
    () => withCuts(10_000),
    /Block 1 ‘Harbour window’: the list of lines holds 10,000, more than the 5,000 allowed\./,
  ],
  ['5,000 cuts', () => withCuts(5_000), /Block 1 ‘Harbour window’: /],
  ['a file cut off in the middle', () => good.slice(0, good.length / 2), /stops in the middle/],
  ['another program’s JSON', () => '{"name":"left-pad","version":"1.3.0"}', /not an Underpaper project/],
  ['a newer version', () => good.replace('"version": 2', '"version": 3'), /version 3 .* up to version 2/],
  ['an empty file', () => '', /is empty/],
  [
    'a picture',
    () => new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0xff, 0xfe]),
    /not text in UTF-8/,
  ],
];

describe.concurrent('check says one sentence and ends with status 1', () => {
  it.each(FILES)('for %s', async (what, content, sentence) => {
    const path = bench.file(`${what.replace(/\W+/g, '-')}.json`, content());
    const { status, err } = await underpaper('check', path);
    expectOneSentence(err);
    expect(err).toMatch(sentence);
    expect(status).toBe(1);
  });

  it('for 200 MB, without reading them', async () => {
    const { status, out, err } = await underpaper('check', bench.largeFile('whale.json', 200_000_000));
    expectOneSentence(err);
    expect(err).toContain('The file is 200 MB; files of up to 50 MB can be opened.');
    expect([status, out]).toEqual([1, '']);
  });

  it('for a file that is not there, and for a folder', async () => {
    for (const path of [bench.path('nowhere.json'), bench.folder]) {
      const { status, err } = await underpaper('check', path);
      expectOneSentence(err);
      expect(err).toContain(path);
      expect(status).toBe(1);
    }
  });

  it('and no bad file is changed', async () => {
    const path = bench.file('half.json', good.slice(0, 300));
    await underpaper('check', path);
    expect(readFileSync(path, 'utf8')).toBe(good.slice(0, 300));
  });
});

describe('foundations says one sentence and ends with status 1', () => {
  it.each(FILES)('for %s', async (what, content, sentence) => {
    const path = bench.file(`print-${what.replace(/\W+/g, '-')}.json`, content());
    const { status, out, err } = await underpaperHere('foundations', path, '--out', bench.path('never.pdf'));
    expectOneSentence(`underpaper: ${err}`);
    // A block that cannot be pieced is named as it would be on paper.
    if (!sentence.source.startsWith('Block 1 ‘Harbour window’: ') || what === '10,000 cuts')
      expect(err).toMatch(sentence);
    else expect(err).toContain('Harbour window is not printed: ');
    expect([status, out]).toEqual([1, '']);
    expect(() => readFileSync(bench.path('never.pdf'))).toThrow();
  });
});

describe('wrong usage is one sentence and status 2', () => {
  it.each([
    [[]],
    [['--nothing']],
    [['sail', 'x.json']],
    [['check']],
    [['check', 'a.json', 'b.json']],
    [['check', 'a.json', '--jsonn']],
    [['check', 'a.json', '--json=yes']],
    [['check', 'a.json', '--json', '--json']],
    [['foundations', 'a.json']],
    [['foundations', 'a.json', '--out']],
    [['foundations', 'a.json', '--out', '--page', 'a4']],
    [['foundations', 'a.json', '--out', 'x.pdf', '--page', 'a9']],
    [['foundations', 'a.json', '--out', 'x.pdf', '--page', '0x0in']],
    [['foundations', 'a.json', '--out', 'x.pdf', '--page', '9999999x11in']],
    [['foundations', 'a.json', '--out', 'x.pdf', '--copies', '0']],
    [['foundations', 'a.json', '--out', 'x.pdf', '--copies', '1.5']],
    [['foundations', 'a.json', '--out', 'x.pdf', '--copies', '1e9']],
    [['foundations', 'a.json', '--out', 'x.pdf', '--blocks', ' , ']],
  ])('%j', async (args) => {
    const path = bench.file('a.json', good);
    const { status, out, err } = await underpaperHere(...args.map((arg) => (arg === 'a.json' ? path : arg)));
    expectOneSentence(`underpaper: ${err}`);
    expect([status, out]).toEqual([2, '']);
  });
});

it('a wrong command line ends its own process with status 2', async () => {
  const { status, out, err } = await underpaper('check');
  expectOneSentence(err);
  expect([status, out]).toEqual([2, '']);
});
