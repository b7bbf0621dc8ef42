import { oneLine } from '../document/file-place.ts';
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

export const notImported = (fileName: string, reason: string): void =>
  say('trouble', phrase('‘{file}’ was not imported. {reason}', { file: fileName, reason }));

/**
 * Asks how a chosen or dropped SVG file is to become a block, while it is being read. A file that cannot be used changes
 * nothing and a notice says why.
 */
export async function bringIn(file: ReadableFile): Promise<void> {
  const fileName = oneLine(file.name);
  if (file.size > MAX_BYTES)
    return notImported(
      fileName,
      phrase('It is larger than {maxBytes} MB, far too large for a block.', { maxBytes: MAX_BYTES / 1e6 }),
    );
  try {
    askFor({ kind: 'bring-in', fileName, text: await file.text() });
  } catch {
    notImported(fileName, phrase('The browser could not read it: it may have been moved, or be a folder.'));
  }
}
