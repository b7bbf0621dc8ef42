import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type SourceMessage, textsOf } from './messages.ts';

/**
 * `npm run words`: writes `src/words/en.json`, all messages of the source file by file, and brings `src/words/de.json`
 * into their order; what is translated stays, what is no longer said goes, and what is missing is listed.
 */

const SRC = fileURLToPath(new URL('../../src', import.meta.url));

/** All messages by file below src/, each under the first file that says it. */
export function messagesOfSource(): ReadonlyMap<string, readonly SourceMessage[]> {
  const seen = new Set<string>();
  const found = new Map<string, readonly SourceMessage[]>();
  const paths = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => /\.tsx?$/.test(path) && !path.endsWith('.d.ts'))
    .sort();
  for (const path of paths) {
    const fresh: SourceMessage[] = [];
    for (const message of textsOf(path, readFileSync(join(SRC, path), 'utf8')).messages) {
      if (seen.has(message.text)) continue;
      seen.add(message.text);
      fresh.push(message);
    }
    if (fresh.length > 0) found.set(path, fresh);
  }
  return found;
}

export const englishFile = (): Record<string, string[]> =>
  JSON.parse(readFileSync(join(SRC, 'words/en.json'), 'utf8'));

export const germanFile = (): Record<string, string> =>
  JSON.parse(readFileSync(join(SRC, 'words/de.json'), 'utf8'));

const write = (name: string, content: unknown): void =>
  writeFileSync(join(SRC, 'words', name), `${JSON.stringify(content, null, 2)}\n`);

function run(): void {
  const source = messagesOfSource();
  write(
    'en.json',
    Object.fromEntries([...source].map(([path, messages]) => [path, messages.map(({ text }) => text)])),
  );
  const all = [...source.values()].flat().map(({ text }) => text);
  const german = germanFile();
  write(
    'de.json',
    Object.fromEntries(all.flatMap((text) => (Object.hasOwn(german, text) ? [[text, german[text]]] : []))),
  );
  const missing = all.filter((text) => !Object.hasOwn(german, text));
  for (const text of missing) console.log(text);
  console.log(`${all.length} messages, ${missing.length} of them not in German`);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) run();
