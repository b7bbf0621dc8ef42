/** The version of the file format that is written, and the newest that is read. */
export const FILE_VERSION = 1;

export type JsonObject = { readonly [key: string]: unknown };

/** Turns a file of version `from` into one of version `from + 1`. Total: whatever is in the file, it does not throw. */
export interface Migration {
  readonly from: number;
  readonly migrate: (file: JsonObject) => JsonObject;
}

/** One for every version before the present one, in order. Version 1 is the first, so there are none. */
export const MIGRATIONS: readonly Migration[] = [];

/** Takes a file from its version to the newest, one version at a time. The checked file comes afterwards. */
export function migrate(
  file: JsonObject,
  version: number,
  migrations: readonly Migration[] = MIGRATIONS,
): JsonObject {
  let migrated = file;
  for (const step of migrations) {
    if (step.from >= version) migrated = { ...step.migrate(migrated), version: step.from + 1 };
  }
  return migrated;
}
