import type * as z from 'zod/mini';
import type { JsonObject, Migration } from './migration.ts';
import { FROM_VERSION_1 } from './version-1.ts';

/** The version of the file format that is written, and the newest that is read. */
export const FILE_VERSION = 2;

/** One for every version before the present one, in order. */
export const MIGRATIONS: readonly Migration[] = [FROM_VERSION_1];

/** A file of the newest version, or the state in which a check has stopped it and why. */
export type Migrated =
  | { readonly ok: true; readonly file: JsonObject }
  | { readonly ok: false; readonly file: JsonObject; readonly issue: z.core.$ZodIssue };

/** Takes a file from its version to the newest, one version at a time. The checked file comes afterwards. */
export function migrate(
  file: JsonObject,
  version: number,
  migrations: readonly Migration[] = MIGRATIONS,
): Migrated {
  let migrated = file;
  for (const step of migrations) {
    if (step.from < version) continue;
    const issue = step.check?.safeParse(migrated).error?.issues[0];
    if (issue !== undefined) return { ok: false, file: migrated, issue };
    migrated = { ...step.migrate(migrated), version: step.from + 1 };
  }
  return { ok: true, file: migrated };
}
