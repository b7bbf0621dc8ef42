import { readFileSync, statSync } from 'node:fs';
import { checkFileSize, openFile } from '../document/file.ts';
import type { Project } from '../document/project.ts';
import { Refusal } from './trouble.ts';

/** Reads a project file; its size is looked at before anything is read. Throws `Refusal` with the reason. */
export function readProject(path: string): Project {
  const opened = openFile(readText(path));
  if (!opened.ok) throw new Refusal(`${path}: ${opened.error.message}`);
  return opened.project;
}

function readText(path: string): string {
  try {
    const found = statSync(path);
    if (!found.isFile()) throw new Refusal(`${path}: this is not a file.`);
    const tooLarge = checkFileSize(found.size);
    if (tooLarge !== null) throw new Refusal(`${path}: ${tooLarge.message}`);
    return new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path));
  } catch (thrown) {
    if (thrown instanceof Refusal) throw thrown;
    if (thrown instanceof TypeError) throw new Refusal(`${path}: The file is not text in UTF-8.`);
    throw new Refusal(`${path}: ${systemReason(thrown)}`);
  }
}

/** What the system said about a file, in plain words. */
export function systemReason(thrown: unknown): string {
  const code = thrown instanceof Error && 'code' in thrown ? String(thrown.code) : '';
  switch (code) {
    case 'ENOENT':
      return 'There is no such file or folder.';
    case 'EACCES':
    case 'EPERM':
      return 'Access is not permitted.';
    case 'EISDIR':
      return 'This is a folder, not a file.';
    case 'ENOTDIR':
      return 'Part of the path is a file, not a folder.';
    case 'EEXIST':
      return 'There is a file of that name, not a folder.';
    case 'ENOSPC':
      return 'The disk is full.';
    case 'EROFS':
      return 'The disk cannot be written to.';
    default:
      return `The system refused${code === '' ? '' : ` (${code})`}.`;
  }
}
