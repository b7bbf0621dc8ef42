import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ensureBrowser, findBrowser, findProgram, isToolThere } from './tools.ts';

let folder: string;

/** Puts a program that does nothing on the search path, which holds nothing else. */
function place(name: string): string {
  const path = join(folder, name);
  writeFileSync(path, '');
  chmodSync(path, 0o755);
  return path;
}

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'underpaper-tools-'));
  vi.stubEnv('PATH', folder);
  vi.stubEnv('UNDERPAPER_CHROMIUM', undefined);
});

afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true });
});

describe.skipIf(process.platform === 'win32')('programs', () => {
  it('are found on the search path, and only those that can be run', () => {
    expect(findProgram('qpdf')).toBeNull();
    const path = place('qpdf');
    expect(findProgram('qpdf')).toBe(path);
    chmodSync(path, 0o644);
    // Root may look into any file, but may run none that nobody may run.
    expect(findProgram('qpdf')).toBeNull();
  });

  it('count as there only when all of a package are', () => {
    const tool = { debian: 'poppler-utils', programs: ['pdftoppm', 'pdftotext'], serves: 'reading PDF' };
    place('pdftoppm');
    expect(isToolThere(tool)).toBe(false);
    place('pdftotext');
    expect(isToolThere(tool)).toBe(true);
  });
});

describe.skipIf(process.platform === 'win32')('the browser', () => {
  it('is the one named, before one of the system', () => {
    const system = place('chromium');
    expect(findBrowser()).toEqual({ path: system, from: 'the system' });
    const named = place('my-own-browser');
    vi.stubEnv('UNDERPAPER_CHROMIUM', named);
    expect(findBrowser()).toEqual({ path: named, from: 'UNDERPAPER_CHROMIUM' });
  });

  it('that is named but not there is told, and no other is taken in its place', () => {
    place('chromium');
    vi.stubEnv('UNDERPAPER_CHROMIUM', join(folder, 'nowhere'));
    expect(() => findBrowser()).toThrow(/UNDERPAPER_CHROMIUM names .*nowhere/);
    const said: string[] = [];
    expect(ensureBrowser((line) => said.push(line))).toBeNull();
    expect(said.join()).toMatch(/there is no such file/);
  });
});
