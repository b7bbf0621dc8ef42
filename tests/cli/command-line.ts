import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run } from '../../src/cli/run.ts';

export interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The command line as a person starts it: a process of its own. */
export function underpaper(...args: (string | { readonly imports: readonly string[] })[]): Promise<Ended> {
  const words = args.filter((arg) => typeof arg === 'string');
  const imports = args.flatMap((arg) => (typeof arg === 'string' ? [] : arg.imports));
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [...['tsx', ...imports].flatMap((name) => ['--import', name]), 'src/cli/main.ts', ...words],
      { cwd: root, maxBuffer: 1 << 28 },
      (error, out, err) => {
        resolve({
          status: error === null ? 0 : typeof error.code === 'number' ? error.code : null,
          out,
          err,
        });
      },
    );
  });
}

/** The same without a process, for what needs none. */
export async function underpaperHere(...args: string[]): Promise<Ended> {
  let [out, err] = ['', ''];
  const status = await run(args, {
    out: (text) => {
      out += text;
    },
    remark: (line) => {
      err += `${line}\n`;
    },
  });
  return { status, out, err };
}

/** A folder for the files of one test file. */
export class Workbench {
  readonly folder = mkdtempSync(join(tmpdir(), 'underpaper-test-'));

  path(name: string): string {
    return join(this.folder, name);
  }

  file(name: string, content: string | Uint8Array): string {
    writeFileSync(this.path(name), content);
    return this.path(name);
  }

  /** A file of so many bytes, all of them 0, that takes no room on the disk. */
  largeFile(name: string, bytes: number): string {
    const path = this.file(name, '');
    truncateSync(path, bytes);
    return path;
  }

  clear(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }
}
