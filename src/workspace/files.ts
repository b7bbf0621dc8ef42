import { checkFileSize, openFile } from '../document/file.ts';
import { fileNameFor } from '../document/file-name.ts';
import { oneLine } from '../document/file-place.ts';
import type { Project } from '../document/project.ts';
import { toText } from '../document/to-text.ts';
import { phrase } from '../words/phrase.ts';
import { say, takeOpened } from './actions.ts';
import { session } from './session.ts';

/** The project as the file that it is saved to. */
export function fileOf(project: Project): File {
  return new File([toText(project)], fileNameFor(project.name), { type: 'application/json' });
}

/** Hands the project to the browser as a download, `<name>.underpaper.json`. */
export function saveToFile(): void {
  const { project } = session.getState();
  const file = fileOf(project);
  const { name } = file;
  download(name, file);
  say('done', phrase('The project is on its way to your downloads as ‘{name}’.', { name }));
}

/** Hands over the kept work that could not be read, just as it was found, a file for each. */
export function saveKeptAside(): void {
  for (const [i, text] of session.getState().keptAside.entries()) {
    download(`kept-aside-${i + 1}.json`, new Blob([text], { type: 'application/json' }));
  }
}

/** Hands any bytes to the browser as a download. */
export function download(fileName: string, content: Blob): void {
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName;
  link.click();
  // Some browsers read the address only after the click has been handled.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** Lets the person choose a file and opens it; a notice tells how it went. Settles when it is done or called off. */
export function openFromPicker(): Promise<void> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.json,application/json';
    input.addEventListener('cancel', () => resolve());
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      if (file === undefined) resolve();
      else void openProjectFile(file).then(() => resolve());
    });
    input.click();
  });
}

/** What opening needs of a file; a DOM File has it. */
export interface ReadableFile {
  readonly name: string;
  readonly size: number;
  readonly text: () => Promise<string>;
}

/**
 * Opens a chosen or dropped file. Its size is looked at before anything is read. A notice tells how it went,
 * and true means that it is open now.
 */
export async function openProjectFile(file: ReadableFile): Promise<boolean> {
  const tooLarge = checkFileSize(file.size);
  if (tooLarge !== null) return refused(file.name, tooLarge.message);
  let text: string;
  try {
    text = await file.text();
  } catch {
    return refused(
      file.name,
      phrase('The browser could not read it: it may have been moved, or be a folder.'),
    );
  }
  const opened = openFile(text);
  // Reading a large quilt and drawing it for the first time would hold up one frame together.
  await new Promise((resolve) => setTimeout(resolve, 0));
  return takeOpened(file.name, opened);
}

function refused(fileName: string, reason: string): false {
  say('trouble', phrase('‘{fileName}’ was not opened. {reason}', { fileName: oneLine(fileName), reason }));
  return false;
}
