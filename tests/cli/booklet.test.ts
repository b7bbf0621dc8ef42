import { readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import { afterAll, describe, expect, it } from 'vitest';
import { toText } from '../../src/document/to-text.ts';
import { harbour } from '../document/projects.ts';
import { underpaperHere, Workbench } from './command-line.ts';

const bench = new Workbench();
afterAll(() => bench.clear());

const path = bench.file('harbour.underpaper.json', toText(harbour));

describe('foundations with further pages', () => {
  it('counts them, and keeps the same foundations', async () => {
    const alone = await underpaperHere('foundations', path, '--out', bench.path('alone.pdf'));
    const more = await underpaperHere(
      ...['foundations', path, '--out', bench.path('more.pdf')],
      ...['--guide', '--cover', '--line-drawing', '--templates', '--labels', '--cautions'],
    );
    expect([alone.status, more.status]).toEqual([0, 0]);
    const [, papers, sheets] = / (\d+) foundations on (\d+) sheets?/.exec(alone.out) ?? [];
    const [, same, inAll] = / (\d+) foundations, (\d+) sheets in all/.exec(more.out) ?? [];
    expect(same).toBe(papers);
    // A cover, a page of cautions and one of labels at least, and a guide and a drawing for each block.
    expect(Number(inAll)).toBeGreaterThanOrEqual(Number(sheets) + 3 + 2 * harbour.blocks.length);
  });

  it('writes one PDF a block into an archive', async () => {
    const zip = bench.path('blocks.zip');
    const { status } = await underpaperHere('foundations', path, '--zip', zip, '--guide');
    expect(status).toBe(0);
    const files = unzipSync(readFileSync(zip));
    expect(Object.keys(files)).toHaveLength(harbour.blocks.length);
    for (const bytes of Object.values(files))
      expect(Buffer.from(bytes.subarray(0, 5)).toString()).toBe('%PDF-');
  });

  it('never writes an archive over the project itself', async () => {
    const { status, err } = await underpaperHere('foundations', path, '--zip', path);
    expect(status).toBe(1);
    expect(err).toContain('left alone');
  });
});
