import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Whether a command-line tool is installed; tests that need one are skipped, by name, where it is absent. */
export const has = (tool: string): boolean => spawnSync('which', [tool]).status === 0;

/** Runs a tool on a file with these bytes and gives back what it prints. `{}` in the arguments is the file. */
export function runOn(
  bytes: Uint8Array | string,
  ending: string,
  tool: string,
  args: readonly string[],
): Buffer {
  const folder = mkdtempSync(join(tmpdir(), 'foundations-'));
  try {
    const file = join(folder, `sheets.${ending}`);
    writeFileSync(file, bytes);
    return execFileSync(
      tool,
      args.map((arg) => arg.replace('{}', file)),
      { maxBuffer: 1 << 30 },
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A grey picture: 0 black … 255 white. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  at(x: number, y: number): number;
}

/** Reads binary PGM (P5, 8 bits): a short header in text, then a byte a pixel, row by row. */
export function readPgm(bytes: Uint8Array): Raster {
  const header = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(Buffer.from(bytes.subarray(0, 64)).toString('latin1'));
  if (!header) throw new Error('no PGM');
  const [width, height] = [Number(header[1]), Number(header[2])];
  const start = header[0].length;
  return { width, height, at: (x, y) => bytes[start + y * width + x] ?? 255 };
}

/** A part of a page as poppler renders it; `box` in pixels at that resolution. */
export function renderPdf(
  pdf: Uint8Array,
  dpi: number,
  page = 1,
  box?: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
): Raster {
  const crop = box ? ['-x', `${box.x}`, '-y', `${box.y}`, '-W', `${box.width}`, '-H', `${box.height}`] : [];
  const folder = mkdtempSync(join(tmpdir(), 'foundations-'));
  try {
    writeFileSync(join(folder, 'sheets.pdf'), pdf);
    const args = ['-r', `${dpi}`, '-gray', '-f', `${page}`, '-l', `${page}`, '-singlefile', ...crop];
    execFileSync('pdftoppm', [...args, join(folder, 'sheets.pdf'), join(folder, 'page')]);
    return readPgm(readFileSync(join(folder, 'page.pgm')));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * Where dark lines cross a straight row of pixels: the middle of each run darker than half grey, weighted by
 * darkness, in pixels from the row's start.
 */
export function lineMiddles(shades: readonly number[]): number[] {
  const middles: number[] = [];
  let sum = 0;
  let moment = 0;
  let darkest = 255;
  const end = (): void => {
    if (sum > 0 && darkest < 128) middles.push(moment / sum);
    sum = 0;
    moment = 0;
    darkest = 255;
  };
  shades.forEach((shade, i) => {
    if (shade > 250) {
      end();
      return;
    }
    sum += 255 - shade;
    moment += (255 - shade) * (i + 0.5);
    darkest = Math.min(darkest, shade);
  });
  end();
  return middles;
}

export const row = (picture: Raster, y: number): number[] =>
  Array.from({ length: picture.width }, (_, x) => picture.at(x, y));

export const column = (picture: Raster, x: number): number[] =>
  Array.from({ length: picture.height }, (_, y) => picture.at(x, y));
