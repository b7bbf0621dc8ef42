import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { checkFileSize, openFile } from '../document/file.ts';
import { MAX_FILE_BYTES } from '../document/limits.ts';
import type { Project } from '../document/project.ts';
import { phrase } from '../words/phrase.ts';
import { Refusal } from './trouble.ts';

/** Stands for standard input where a file is read, and for standard output where one is written. */
export const STANDARD = '-';

/** Reads a project file, or standard input for `-`. Throws `Refusal` with the reason. */
export function readProject(path: string): Project {
  const opened = openFile(readText(path));
  if (!opened.ok) throw new Refusal(`${nameOf(path)}: ${opened.error.message}`);
  return opened.project;
}

const nameOf = (path: string): string => (path === STANDARD ? phrase('standard input') : path);

function readText(path: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(readBounded(path));
  } catch (thrown) {
    if (thrown instanceof Refusal) throw thrown;
    if (thrown instanceof TypeError)
      throw new Refusal(phrase('{nameOf}: The file is not text in UTF-8.', { nameOf: nameOf(path) }));
    throw new Refusal(`${nameOf(path)}: ${systemReason(thrown)}`);
  }
}

const STEP_BYTES = 1 << 20;

/** All of a file, a pipe or a device; a size it states is looked at first, and no more is read than any project has. */
function readBounded(path: string): Uint8Array {
  const file = path === STANDARD ? 0 : openSync(path, 'r');
  try {
    const found = fstatSync(file);
    if (found.isDirectory()) throw new Refusal(phrase('{path}: This is a folder, not a file.', { path }));
    refuseLarge(path, found.size);
    const parts: Uint8Array[] = [];
    let length = 0;
    for (;;) {
      const part = new Uint8Array(STEP_BYTES);
      const read = readSome(file, part);
      if (read === 0) return Buffer.concat(parts);
      parts.push(part.subarray(0, read));
      length += read;
      // What states no size may have no end.
      if (length > MAX_FILE_BYTES) refuseLarge(path, length);
    }
  } finally {
    if (file !== 0) closeSync(file);
  }
}

/** Standard input that is a terminal or a pipe with nothing in it yet is waited for. */
function readSome(file: number, part: Uint8Array): number {
  for (;;) {
    try {
      return readSync(file, part);
    } catch (thrown) {
      const code = thrown instanceof Error && 'code' in thrown ? thrown.code : '';
      if (code === 'EOF') return 0;
      if (code !== 'EAGAIN') throw thrown;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
    }
  }
}

function refuseLarge(path: string, bytes: number): void {
  const tooLarge = checkFileSize(bytes);
  if (tooLarge !== null) throw new Refusal(`${nameOf(path)}: ${tooLarge.message}`);
}

/** What the system said about a file, in plain words. */
export function systemReason(thrown: unknown): string {
  const code = thrown instanceof Error && 'code' in thrown ? String(thrown.code) : '';
  switch (code) {
    case 'ENOENT':
      return phrase('There is no such file or folder.');
    case 'EACCES':
    case 'EPERM':
      return phrase('Access is not permitted.');
    case 'EISDIR':
      return phrase('This is a folder, not a file.');
    case 'ENOTDIR':
      return phrase('Part of the path is a file, not a folder.');
    case 'EEXIST':
      return phrase('There is a file of that name, not a folder.');
    case 'ENOSPC':
      return phrase('The disk is full.');
    case 'EROFS':
      return phrase('The disk cannot be written to.');
    default:
      return phrase('The system refused{isCode, select, true {} other { ({code})}}.', {
        isCode: code === '',
        code,
      });
  }
}
