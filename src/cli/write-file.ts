import { realpathSync } from 'node:fs';
import { systemReason } from './read-project.ts';
import { Refusal } from './trouble.ts';

/** Refuses to write over the project file that is read. */
export function refuseOverwriting(project: string, out: string): void {
  let there: string;
  try {
    there = realpathSync(out);
  } catch {
    return;
  }
  if (there === realpathSync(project))
    throw new Refusal(`${out}: This is the project file itself; it is left alone.`);
}

/** Writes, or tells in plain words why the system will not. */
export function write(path: string, run: () => void): void {
  try {
    run();
  } catch (thrown) {
    throw new Refusal(`${path}: ${systemReason(thrown)}`);
  }
}
