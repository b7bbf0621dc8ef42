import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Migration } from '../../src/document/migration.ts';
import { FILE_VERSION, MIGRATIONS, migrate } from '../../src/document/migrations.ts';

describe('migrations', () => {
  it('there is one for every version before the present one, in order, each with a stored file', () => {
    expect(MIGRATIONS.map(({ from }) => from)).toEqual(
      Array.from({ length: FILE_VERSION - 1 }, (_, i) => i + 1),
    );
    for (let version = 1; version <= FILE_VERSION; version++) {
      for (const form of ['', '.canonical']) {
        const stored = new URL(`./samples/version-${version}${form}.underpaper.json`, import.meta.url);
        expect(existsSync(stored), stored.pathname).toBe(true);
      }
    }
  });

  /** Three steps that each leave their mark. */
  const ran: number[] = [];
  const three: readonly Migration[] = [1, 2, 3].map((from) => ({
    from,
    migrate: (file) => {
      ran.push(from);
      return { ...file, [`step${from}`]: file.version };
    },
  }));

  it.each([
    [1, [1, 2, 3]],
    [2, [2, 3]],
    [3, [3]],
    [4, []],
  ])('from version %d every later step runs, once and in turn', (version, steps) => {
    ran.length = 0;
    const file = { format: 'underpaper', version, name: 'Harbour' };
    const migrated = migrate(file, version, three);
    expect(ran).toEqual(steps);
    expect(migrated).toEqual({
      ok: true,
      file: { ...file, version: 4, ...Object.fromEntries(steps.map((step) => [`step${step}`, step])) },
    });
    expect(file.version).toBe(version);
  });
});
