import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import type { Block, Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { piece } from '../../src/piecing/piece.ts';
import { checkMend } from '../checker/check-mend.ts';
import { harbour, quarters } from '../document/projects.ts';
import { underpaper, underpaperHere, Workbench } from './command-line.ts';

const bench = new Workbench();
afterAll(() => bench.clear());

/** Three patches in a Y. */
const sails: Block = {
  ...quarters,
  id: 'b7',
  name: 'Sails',
  cuts: [
    { id: 'c1', from: [6, 6], to: [0, 12], role: 'auto' },
    { id: 'c2', from: [6, 6], to: [12, 12], role: 'auto' },
    { id: 'c3', from: [6, 6], to: [6, 0], role: 'auto' },
  ],
  patches: [
    { id: 'p1', at: [6, 11], fabric: harbour.fabrics[0]!.id },
    { id: 'p2', at: [1, 1], fabric: harbour.fabrics[1]!.id },
  ],
};

const crossed: Block = {
  ...quarters,
  id: 'b9',
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

const reportOf = (out: string): Record<string, never>[] => JSON.parse(out).blocks;

function opened(path: string): Project {
  const file = openFile(readFileSync(path, 'utf8'));
  if (!file.ok) throw new Error(file.error.message);
  return file.project;
}

describe('mend', () => {
  it('mends what needs it and leaves the rest as it is', async () => {
    const project = { ...harbour, blocks: [...harbour.blocks, sails] };
    const path = bench.file('all.underpaper.json', toText(project));
    const { status, out, err } = await underpaper('mend', path, '--out', bench.path('mended.json'), '--json');
    expect([status, err]).toEqual([0, '']);
    const report = reportOf(out);
    expect(report.map(({ id }) => id)).toEqual(project.blocks.map(({ id }) => id));
    const told = report.find(({ id }) => id === ('b7' as never));
    expect(told).toEqual({
      id: 'b7',
      before: { verdict: 'set-in-seams', foundations: 2, patches: 3 },
      after: { verdict: 'several-foundations', foundations: 2, patches: 4 },
      added: 1,
      proven: true,
      cuts: [{ from: [6, 6], to: [6, 12] }],
    });
    const mended = opened(bench.path('mended.json'));
    for (const [k, block] of opened(path).blocks.entries()) {
      const before = piece(block);
      const after = mended.blocks[k]!;
      if (before.verdict !== 'set-in-seams') {
        expect(after).toEqual(block);
        expect(report[k]).toMatchObject({ added: 0, proven: true, cuts: [] });
      } else expect(checkMend(before, after, piece(after))).toEqual([]);
    }
  });

  it('copies a file byte for byte where nothing needs mending', async () => {
    const text = `${toText(harbour).trimEnd()}   \n`;
    const path = bench.file('sews.underpaper.json', text);
    const { status, out } = await underpaperHere('mend', path, '--out', bench.path('same.json'));
    expect(status).toBe(0);
    expect(out).toContain('sews already; left as it is.');
    expect(readFileSync(bench.path('same.json'), 'utf8')).toBe(text);
  });

  it('says in words what was done', async () => {
    const path = bench.file('sails.underpaper.json', toText({ ...harbour, blocks: [sails] }));
    const { out } = await underpaperHere('mend', path, '--out', bench.path('words.json'));
    expect(out).toBe('Sails: 1 line on, 1 patch more: 4 patches on 2 foundations.\n');
  });

  it('mends all others beside a block that cannot be divided, and says so', async () => {
    const path = bench.file('bow.underpaper.json', toText({ ...harbour, blocks: [crossed, sails] }));
    const { status, err } = await underpaperHere('mend', path, '--out', bench.path('bow.json'));
    expect(status).toBe(1);
    expect(err).toMatch(/^Block ‘Bow’ cannot be mended: .+\n$/);
    expect(piece(opened(bench.path('bow.json')).blocks[1]!).verdict).toBe('several-foundations');
  });

  it('refuses what it cannot read or write, and to write over what it reads', async () => {
    const path = bench.file('own.underpaper.json', toText(harbour));
    const before = readFileSync(path, 'utf8');
    expect(await underpaperHere('mend', path, '--out', path)).toMatchObject({ status: 1 });
    expect(readFileSync(path, 'utf8')).toBe(before);
    expect(
      await underpaperHere('mend', bench.path('none.json'), '--out', bench.path('x.json')),
    ).toMatchObject({ status: 1 });
    expect(await underpaperHere('mend', path, '--out', bench.path('no/such/folder.json'))).toMatchObject({
      status: 1,
    });
    writeFileSync(bench.path('cut-off.json'), before.slice(0, 60));
    expect(
      await underpaperHere('mend', bench.path('cut-off.json'), '--out', bench.path('x.json')),
    ).toMatchObject({ status: 1 });
    expect(await underpaperHere('mend', path)).toMatchObject({ status: 2 });
  });
});
