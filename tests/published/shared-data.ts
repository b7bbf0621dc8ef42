import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * Collections that lie beside the project, not in it: tests read them where they are and say so where they are
 * not. Whatever the project must always check stands in the project.
 */
const SHARED = new URL('../../../shared/', import.meta.url);

/** For the name of a test that is skipped where the collections are not. */
export const NEEDS_SHARED = '(needs the folder shared/ beside the project)';

type Json = Record<string, unknown>;

export function readShared(path: string): Json | null {
  const file = fileURLToPath(new URL(path, SHARED));
  return existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as Json) : null;
}

export const isRecordList = (value: unknown): value is readonly Json[] =>
  Array.isArray(value) && value.every((item) => typeof item === 'object' && item !== null);
