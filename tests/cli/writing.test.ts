import { execFileSync, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { toText } from '../../src/document/to-text.ts';
import { harbour } from '../document/projects.ts';
import { underpaperHere, Workbench } from './command-line.ts';

const bench = new Workbench();
afterAll(() => bench.clear());

const root = fileURLToPath(new URL('../..', import.meta.url));
const file = bench.file('harbour.underpaper.json', toText(harbour));

/** Through a shell, with what goes in and out of it. */
const inShell = (line: string) => spawnSync('bash', ['-c', line], { cwd: root, maxBuffer: 1 << 28 });
const UNDERPAPER = `${process.execPath} --import tsx src/cli/main.ts`;

describe('a file that is written', () => {
  it('is whole or not at all: what was there stays when the disk is full on the way', () => {
    const out = bench.file('old.pdf', 'the print before');
    // A process that may write no file of more than 4 KB (ulimit -f counts in 1,024 bytes).
    const ended = inShell(`ulimit -f 4; ${UNDERPAPER} foundations '${file}' --out '${out}'`);
    expect(ended.status).not.toBe(0);
    expect(readFileSync(out, 'utf8')).toBe('the print before');
  });

  it('takes the place of the one before, with its rights, through a link, leaving nothing beside it', async () => {
    mkdirSync(bench.path('prints'));
    const out = bench.file('prints/new.pdf', 'the print before');
    execFileSync('chmod', ['640', out]);
    symlinkSync(out, bench.path('link.pdf'));
    expect((await underpaperHere('foundations', file, '--out', bench.path('link.pdf'))).status).toBe(0);
    expect(readFileSync(out).subarray(0, 5).toString()).toBe('%PDF-');
    expect(statSync(out).mode & 0o777).toBe(0o640);
    expect(readdirSync(bench.path('prints'))).toEqual(['new.pdf']);
  });

  it('goes into a device as it is', async () => {
    expect((await underpaperHere('foundations', file, '--out', '/dev/null')).status).toBe(0);
    const full = await underpaperHere('foundations', file, '--out', '/dev/full');
    expect([full.status, full.err.trim().split('\n').at(-1)]).toEqual([1, '/dev/full: The disk is full.']);
  });

  it('may be standard output, and the project standard input', () => {
    const piped = inShell(`${UNDERPAPER} foundations - --out - < '${file}'`);
    expect(piped.status).toBe(0);
    expect(piped.stdout.subarray(0, 5).toString()).toBe('%PDF-');
    expect(piped.stdout.subarray(-6).toString()).toContain('%%EOF');
    expect(piped.stderr.toString()).toMatch(/^underpaper: Wrote standard output: \d+ foundations on /m);
    const checked = inShell(`cat '${file}' | ${UNDERPAPER} check - --json`);
    expect(JSON.parse(checked.stdout.toString()).blocks.length).toBe(harbour.blocks.length);
    const substituted = inShell(`${UNDERPAPER} check <(cat '${file}') --json`);
    expect(substituted.stdout.toString()).toBe(checked.stdout.toString());
    const nothing = inShell(`${UNDERPAPER} check - < /dev/null`);
    expect([nothing.status, nothing.stderr.toString()]).toEqual([
      1,
      'underpaper: standard input: The file is empty.\n',
    ]);
  });
});

describe('sheets as SVG', () => {
  it('of an earlier print that stay beside the new ones are told', async () => {
    const folder = bench.path('sheets');
    mkdirSync(folder);
    writeFileSync(`${folder}/notes.svg`, 'mine');
    for (const n of [1, 77, 78]) writeFileSync(`${folder}/sheet-${n}.svg`, 'old');
    const { status, err } = await underpaperHere('foundations', file, '--svg', folder);
    expect(status).toBe(0);
    expect(err).toContain(
      `${folder} still holds 2 sheets of an earlier print (sheet-77.svg, sheet-78.svg): not part of this one.`,
    );
    expect(readFileSync(`${folder}/sheet-1.svg`, 'utf8')).toContain('<svg');
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });
});

describe('small mistakes are told in one sentence', () => {
  it.each<[string[], 1 | 2, RegExp]>([
    [['--margin', '-1', '--out', 'x.pdf'], 2, /^--margin: The margin cannot be less than 0\.$/],
    [['--margin', '-.5in', '--out', 'x.pdf'], 2, /^--margin: The margin cannot be less than 0\.$/],
    [['--copies', '-2', '--out', 'x.pdf'], 2, /^--copies takes a whole number from 1 to 999\.$/],
    [['--out', ''], 2, /^--out is empty: it takes a name\.$/],
    [['--svg', ' '], 2, /^--svg is empty: it takes a name\.$/],
    [['--svg', '-'], 2, /^Standard output \(-\) takes one file/],
    [['--out', '-', '--zip', '-'], 2, /^Standard output \(-\) takes one file/],
    [['--svg', '/dev/null'], 1, /^\/dev\/null: This is not a folder\.$/],
    [['--svg', '/dev/null/sheets'], 1, /^\/dev\/null\/sheets: Part of the path is a file, not a folder\.$/],
    [['--out', '/dev/null/x.pdf'], 1, /^\/dev\/null\/x\.pdf: Part of the path is a file, not a folder\.$/],
    [['--out', '/tmp'], 1, /^\/tmp: This is a folder, not a file\.$/],
  ])('%j', async (args, status, sentence) => {
    const ended = await underpaperHere('foundations', file, ...args);
    expect(ended.err.trim().split('\n').at(-1)).toMatch(sentence);
    expect([ended.status, ended.out]).toEqual([status, '']);
    expect(existsSync('x.pdf')).toBe(false);
  });

  it('a folder in place of the project', async () => {
    expect(await underpaperHere('check', bench.folder)).toEqual({
      status: 1,
      out: '',
      err: `${bench.folder}: This is a folder, not a file.\n`,
    });
  });
});
