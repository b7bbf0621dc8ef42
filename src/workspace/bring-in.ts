import { oneLine } from '../document/file-place.ts';
import { readSvg } from '../document/import-svg/read-svg.ts';
import { phrase } from '../words/phrase.ts';
import { say } from './actions.ts';
import { askFor } from './dialogs.ts';
import type { ReadableFile } from './files.ts';

/** Larger files than this are not read at all, in bytes. */
const MAX_BYTES = 30_000_000;

export const isSvgFile = ({ name }: { readonly name: string }): boolean => /\.svg$/i.test(name);

/** Lets the person choose an SVG file. Settles when the choice is made or called off. */
export function chooseDrawing(): Promise<void> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.svg,image/svg+xml';
    input.addEventListener('cancel', () => resolve());
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      if (file === undefined) resolve();
      else void bringIn(file).then(() => resolve());
    });
    input.click();
  });
}

/**
 * Reads a chosen or dropped SVG file and shows what was understood. A file that cannot be used changes nothing and
 * a notice says why.
 */
export async function bringIn(file: ReadableFile): Promise<void> {
  const refused = (reason: string): void =>
    say('trouble', phrase('‘{file}’ was not imported. {reason}', { file: oneLine(file.name), reason }));
  if (file.size > MAX_BYTES)
    return refused(
      phrase('It is larger than {maxBytes} MB, far too large for a block.', { maxBytes: MAX_BYTES / 1e6 }),
    );
  let text: string;
  try {
    text = await file.text();
  } catch {
    return refused(phrase('The browser could not read it: it may have been moved, or be a folder.'));
  }
  const read = readSvg(text, 0);
  if (!read.ok) return refused(read.error);
  if (read.drawing.runs.length === 0 && read.drawing.curves === 0)
    return refused(phrase('No line was found in it that a block could be made of.'));
  askFor({ kind: 'bring-in', fileName: oneLine(file.name), text });
}
