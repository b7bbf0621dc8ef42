import { chmodSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { phrase } from '../words/phrase.ts';
import type { Output } from './command.ts';
import { STANDARD, systemReason } from './read-project.ts';
import { Refusal, WrongUsage } from './trouble.ts';

/** Refuses to write over the project file that is read. */
export function refuseOverwriting(project: string, out: string): void {
  if (project === STANDARD || out === STANDARD) return;
  let there: string;
  try {
    there = realpathSync(out);
  } catch {
    return;
  }
  if (there === realpathSync(project))
    throw new Refusal(phrase('{out}: This is the project file itself; it is left alone.', { out }));
}

/** The name of a file or folder to write, as an option gives it. */
export function namedBy(option: string, given: string | undefined): string | undefined {
  if (given?.trim() === '') throw new WrongUsage(`--${option} is empty: it takes a name.`);
  return given;
}

/**
 * Writes a file whole or not at all: beside it first, then in its place, so that what was there stays until the new is
 * complete. `-` is standard output. Throws `Refusal` with the system's reason in plain words.
 */
export function writeWhole(path: string, content: string | Uint8Array, output: Output): void {
  if (path === STANDARD) {
    output.out(content);
    return;
  }
  try {
    const { place, mode } = placeOf(path);
    // Into a pipe or a device there is no beside.
    if (mode === 'special') {
      writeFileSync(place, content);
      return;
    }
    const beside = `${place}.${process.pid}.part`;
    try {
      writeFileSync(beside, content);
      if (mode !== null) chmodSync(beside, mode);
      renameSync(beside, place);
    } catch (thrown) {
      rmSync(beside, { force: true });
      throw thrown;
    }
  } catch (thrown) {
    throw new Refusal(`${path}: ${systemReason(thrown)}`);
  }
}

/** Where a path leads, and the rights of the file that is there; null where none is. */
function placeOf(path: string): { readonly place: string; readonly mode: number | 'special' | null } {
  try {
    const place = realpathSync(path);
    const found = statSync(place);
    return { place, mode: found.isFile() || found.isDirectory() ? found.mode & 0o777 : 'special' };
  } catch (thrown) {
    if (thrown instanceof Error && 'code' in thrown && thrown.code === 'ENOENT')
      return { place: path, mode: null };
    throw thrown;
  }
}
