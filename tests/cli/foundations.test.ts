import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import type { Block } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { harbour, quarters } from '../document/projects.ts';
import { underpaper, underpaperHere, Workbench } from './command-line.ts';

const bench = new Workbench();
afterAll(() => bench.clear());

const small = (block: Block): Block => ({
  ...block,
  outline: block.outline.map(([x, y]) => [x / 3, y / 3]),
  cuts: block.cuts.map(({ from, to, ...cut }) => ({
    ...cut,
    from: [from[0] / 3, from[1] / 3],
    to: [to[0] / 3, to[1] / 3],
  })),
  patches: block.patches.map(({ at, ...patch }) => ({ ...patch, at: [at[0] / 3, at[1] / 3] })),
});
const bow: Block = {
  ...quarters,
  id: 'b8',
  name: 'Bow',
  outline: [
    [0, 0],
    [6, 6],
    [6, 0],
    [0, 4],
  ],
  cuts: [],
  patches: [],
};
const project = { ...harbour, blocks: harbour.blocks.map(small) };
const path = bench.file('harbour.underpaper.json', toText(project));

/** Page sizes by poppler, in points. */
function pagesOf(pdf: string): readonly string[] {
  const info = execFileSync('pdfinfo', ['-f', '1', '-l', '999', pdf], { encoding: 'utf8' });
  return [...info.matchAll(/^Page +\d+ size: +([\d.]+ x [\d.]+)/gm)].map(([, size]) => size!);
}

const hasPoppler = (() => {
  try {
    execFileSync('pdfinfo', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();

describe('foundations', () => {
  it('writes a PDF of the foundations and says what it wrote', async () => {
    const pdf = bench.path('harbour.pdf');
    const { status, out, err } = await underpaper('foundations', path, '--out', pdf);
    expect([status, err]).toEqual([0, '']);
    // A four patch takes two foundations (common practice), the undivided block one.
    expect(out).toBe(`Wrote ${pdf}: 3 foundations on 1 sheet (Letter).\n`);
    expect(readFileSync(pdf).subarray(0, 5).toString()).toBe('%PDF-');
  });

  it.skipIf(!hasPoppler)(
    'on pages of exactly the size asked for: letter 612 × 792 pt, A4 210 × 297 mm (ISO 216)',
    async () => {
      const sizes = async (page: string) => {
        const pdf = bench.path(`${page.replace(/\W/g, '-')}.pdf`);
        expect((await underpaperHere('foundations', path, '--out', pdf, '--page', page)).status).toBe(0);
        return pagesOf(pdf)[0]!
          .split(' x ')
          .map(Number)
          .sort((a, b) => a - b);
      };
      expect(await sizes('letter')).toEqual([612, 792]);
      const [width, height] = await sizes('a4');
      expect(width).toBeCloseTo((210 / 25.4) * 72, 1);
      expect(height).toBeCloseTo((297 / 25.4) * 72, 1);
      expect(await sizes('7x10in')).toEqual([504, 720]);
    },
  );

  it('makes as many copies as asked', async () => {
    const pdf = bench.path('copies.pdf');
    const { out } = await underpaperHere('foundations', path, '--out', pdf, '--copies', '5');
    expect(out).toMatch(/: 15 foundations on \d+ sheets? \(Letter\)\.\n$/);
  });

  it('of the blocks named by id or name', async () => {
    const wrote = async (blocks: string) =>
      (await underpaperHere('foundations', path, '--out', bench.path('x.pdf'), '--blocks', blocks)).out;
    expect(await wrote('b2')).toContain(' 1 foundation on');
    expect(await wrote('Harbour window')).toContain(' 2 foundations on');
    expect(await wrote('b1, Ferry')).toContain(' 3 foundations on');
    expect(await wrote('b1,b1')).toContain(' 2 foundations on');
  });

  it('knows a block whose name holds a comma', async () => {
    const comma = bench.file(
      'comma.json',
      toText({ ...project, blocks: [{ ...project.blocks[0]!, name: 'Gull, diving' }] }),
    );
    const { status } = await underpaperHere(
      'foundations',
      comma,
      '--out',
      bench.path('x.pdf'),
      '--blocks',
      'Gull, diving',
    );
    expect(status).toBe(0);
  });

  it('refuses a block that is not there, and says which are', async () => {
    const { status, err } = await underpaperHere(
      'foundations',
      path,
      '--out',
      bench.path('y.pdf'),
      '--blocks',
      'b1,Gull',
    );
    expect([status, err]).toEqual([
      1,
      'The file has no block ‘Gull’: it has b1 ‘Harbour window’, b2 ‘Ferry’.\n',
    ]);
    expect(existsSync(bench.path('y.pdf'))).toBe(false);
  });

  it('leaves a broken block out with a sentence and prints the others', async () => {
    const mixed = bench.file('mixed.json', toText({ ...project, blocks: [bow, ...project.blocks] }));
    const { status, out, err } = await underpaper('foundations', mixed, '--out', bench.path('mixed.pdf'));
    expect(status).toBe(0);
    expect(out).toContain(' 3 foundations on');
    expect(err).toMatch(/^underpaper: Bow is not printed: The outline crosses [^\n]*\n$/);
  });

  it('writes one SVG a sheet into a folder it makes', async () => {
    const folder = bench.path('drawings/svg');
    const { status, out } = await underpaperHere(
      'foundations',
      path,
      '--svg',
      folder,
      '--copies',
      '4',
      '--page',
      '7x10in',
    );
    expect(status).toBe(0);
    const sheets = Number(/on (\d+) sheets/.exec(out)?.[1]);
    expect(sheets).toBeGreaterThan(1);
    const files = readdirSync(folder).sort();
    expect(files).toHaveLength(sheets);
    for (const file of files) expect(readFileSync(`${folder}/${file}`, 'utf8')).toMatch(/^<(\?xml|svg)/);
  });

  it('never writes over the project file', async () => {
    const { status, err } = await underpaperHere('foundations', path, '--out', path);
    expect([status, err]).toEqual([1, `${path}: This is the project file itself; it is left alone.\n`]);
    expect(readFileSync(path, 'utf8')).toBe(toText(project));
  });

  it('says so when it cannot write', async () => {
    for (const [option, where] of [
      ['--out', bench.path('no/such/folder/x.pdf')],
      ['--out', bench.folder],
      ['--svg', path],
    ] as const) {
      const { status, err } = await underpaperHere('foundations', path, option, where);
      expect(status).toBe(1);
      expect(err).toMatch(
        /^[^\n]*: (There is no such file or folder|This is a folder, not a file|There is a file of that name, not a folder)\.\n$/,
      );
    }
  });
});
