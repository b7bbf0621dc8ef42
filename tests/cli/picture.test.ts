import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import { partedPicture } from '../picturing/made-pictures.ts';
import { underpaper } from './command-line.ts';

async function inFolder(run: (folder: string) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'underpaper-'));
  try {
    await run(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

describe('picture', () => {
  it('makes a project that opens from a PNG and from a JPEG turned by its EXIF', () =>
    inFolder(async (folder) => {
      const { width, height, data } = partedPicture(2, 10, 80, 3);
      const raw = { raw: { width, height, channels: 4 as const } };
      await sharp(Buffer.from(data), raw).png().toFile(`${folder}/a.png`);
      await sharp(Buffer.from(data), raw).withMetadata({ orientation: 6 }).jpeg().toFile(`${folder}/b.jpg`);
      for (const name of ['a.png', 'b.jpg']) {
        const { status, out, err } = await underpaper(
          'picture',
          `${folder}/${name}`,
          '--out',
          `${folder}/${name}.json`,
          '--patches',
          '12',
          '--size',
          '20x20cm',
        );
        expect([status, err]).toEqual([0, '']);
        expect(out).toMatch(/^\d+ patches in \d+ fabrics\. Sews on /);
        const opened = openFile(readFileSync(`${folder}/${name}.json`, 'utf8'));
        expect(opened.ok && opened.project.blocks[0]!.cuts.length).toBeGreaterThan(3);
      }
    }));

  it('says in a sentence what cannot be read or made', () =>
    inFolder(async (folder) => {
      writeFileSync(`${folder}/text.png`, 'not a picture');
      const { width, height, data } = partedPicture(2, 4, 32, 3);
      const png = await sharp(Buffer.from(data), { raw: { width, height, channels: 4 } })
        .png()
        .toBuffer();
      writeFileSync(`${folder}/cut.png`, png.subarray(0, png.length / 2));
      writeFileSync(`${folder}/whole.png`, png);
      const tried = async (...args: string[]) => {
        const { status, err } = await underpaper('picture', ...args, '--out', `${folder}/out.json`);
        return [status, err.trim().split('\n').length, err];
      };
      expect(await tried(`${folder}/text.png`)).toEqual([1, 1, expect.stringContaining('not a picture')]);
      expect(await tried(`${folder}/cut.png`)).toEqual([1, 1, expect.stringContaining('not a picture')]);
      expect(await tried(`${folder}/none.png`)).toEqual([1, 1, expect.stringContaining('no such file')]);
      expect(await tried(`${folder}/whole.png`, '--width', '13')).toEqual([
        1,
        1,
        expect.stringContaining('larger than the block'),
      ]);
      expect(await tried(`${folder}/whole.png`, '--patches', '1')).toEqual([
        2,
        1,
        expect.stringContaining('--patches'),
      ]);
      expect(await tried(`${folder}/whole.png`, '--ease', '2')).toEqual([
        2,
        1,
        expect.stringContaining('--ease'),
      ]);
    }));
});
