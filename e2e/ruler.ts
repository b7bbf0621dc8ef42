import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Measures what was printed, on the PDF itself: nothing here knows how the app draws. */

/** Widths and heights of the pages in points (1/72 in), from the file's own page boxes (ISO 32000-1, 14.11.2). */
export function pageSizes(pdf: string): readonly (readonly [number, number])[] {
  const text = readFileSync(pdf, 'latin1');
  return [...text.matchAll(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]/g)].map(
    ([, width, height]) => [Number(width), Number(height)] as const,
  );
}

export const asksForNoScaling = (pdf: string): boolean =>
  /\/PrintScaling\s*\/None/.test(readFileSync(pdf, 'latin1'));

/** Whether poppler's tools are on this machine. */
export function hasPoppler(): boolean {
  try {
    execFileSync('pdftoppm', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

export const textOf = (pdf: string): string => execFileSync('pdftotext', [pdf, '-'], { encoding: 'utf8' });

/** A page as poppler renders it: true where there is ink. */
export interface Page {
  readonly width: number;
  readonly height: number;
  readonly isInk: (x: number, y: number) => boolean;
}

export function rendered(pdf: string, folder: string, dpi: number): Page {
  const stem = join(folder, `page-${dpi}`);
  execFileSync('pdftoppm', ['-r', String(dpi), '-gray', '-f', '1', '-l', '1', '-singlefile', pdf, stem]);
  const file = readFileSync(`${stem}.pgm`);
  const [header, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(file.toString('latin1', 0, 60))!;
  const pixels = file.subarray(header.length);
  const columns = Number(width);
  return { width: columns, height: Number(height), isInk: (x, y) => pixels[y * columns + x]! < 170 };
}

/** A level line of ink. Pixels. */
export interface Level {
  readonly x: number;
  readonly y: number;
  readonly length: number;
}

/** Level lines of ink whose length is within `slack` of `length`, top to bottom. */
export function levels({ width, height, isInk }: Page, length: number, slack: number): readonly Level[] {
  const found: Level[] = [];
  for (let y = 0; y < height; y++) {
    let start = -1;
    for (let x = 0; x <= width; x++) {
      if (x < width && isInk(x, y)) {
        if (start < 0) start = x;
      } else if (start >= 0) {
        if (Math.abs(x - start - length) <= slack) found.push({ x: start, y, length: x - start });
        start = -1;
      }
    }
  }
  return found;
}

/** How far ink runs straight down from a pixel. */
export function runDown({ height, isInk }: Page, x: number, y: number): number {
  let end = y;
  while (end < height && isInk(x, end)) end++;
  return end - y;
}
