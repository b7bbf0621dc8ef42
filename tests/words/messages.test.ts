import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type MessageFormatElement, parse, TYPE } from '@formatjs/icu-messageformat-parser';
import { describe, expect, it } from 'vitest';
import { textsOf } from '../harness/messages.ts';
import { englishFile, germanFile, messagesOfSource } from '../harness/words.ts';

const SRC = fileURLToPath(new URL('../../src', import.meta.url));

/** What the reading of the source takes for a text and no person reads, by file: keys, formats, marks of other languages. */
const EXEMPT: Readonly<Record<string, readonly string[]>> = {
  'board/draw/patch-labels.ts': ['Underpaper 0123'],
  'cli/': ['Usage: ', '--', 'foundations needs', 'mend needs', 'picture needs'],
  'document/fabric-csv.ts': ['At hand'],
  'foundations/files/': ['BT '],
  'views/block/': ['Alt + ↑ ↓', 'chosen', 'block'],
  'views/quilt/quilt-back.tsx': ['M0 0'],
  'views/quilt/setting-panel.tsx': ['M2 2'],
  'views/shelf/shelf-dialog.tsx': ['Basket weave'],
  'views/top-bar.tsx': ['Underpaper'],
  'workspace/pdf-worker.ts': ['Underpaper print'],
};

const isExempt = (path: string, text: string): boolean =>
  Object.entries(EXEMPT).some(
    ([place, starts]) => path.startsWith(place) && starts.some((start) => text.startsWith(start)),
  );

const source = messagesOfSource();
const all = [...source.values()].flat();
const german = germanFile();

/** What a message needs to be told, and its tags: `n`, `<b>`. */
function namesIn(elements: readonly MessageFormatElement[], names = new Set<string>()): Set<string> {
  for (const element of elements) {
    if (element.type === TYPE.literal || element.type === TYPE.pound) continue;
    names.add(element.type === TYPE.tag ? `<${element.value}>` : element.value);
    if (element.type === TYPE.tag) namesIn(element.children, names);
    if (element.type === TYPE.plural || element.type === TYPE.select)
      for (const { value } of Object.values(element.options)) namesIn(value, names);
  }
  return names;
}

const NOTE = /^\[\[[^\]]*\]\] /;

const namesOf = (text: string, hasTags: boolean): string[] =>
  [...namesIn(parse(text.replace(NOTE, ''), { ignoreTag: !hasTags }))].sort();

const faultOf = (check: () => void): string | null => {
  try {
    check();
    return null;
  } catch (thrown) {
    return String(thrown);
  }
};

describe('the message files', () => {
  it('hold what the source says: after a change, npm run words', () => {
    expect(Object.values(englishFile()).flat()).toEqual(all.map(({ text }) => text));
  });

  it('are read as messages', () => {
    const faults = all.flatMap(({ text, hasTags }) =>
      [text, german[text]].flatMap((one) => {
        const fault = one === undefined ? null : faultOf(() => namesOf(one, hasTags));
        return fault === null ? [] : [`${one}: ${fault}`];
      }),
    );
    expect(faults).toEqual([]);
  });

  it('lack no German, but for the help of commands, whose options are English', () => {
    expect(all.filter(({ text }) => german[text] === undefined && !text.startsWith('Usage: '))).toEqual([]);
  });

  it('ask for the same values in every language', () => {
    const faults = all.filter(
      ({ text, hasTags }) =>
        german[text] !== undefined && namesOf(text, hasTags).join() !== namesOf(german[text], hasTags).join(),
    );
    expect(faults).toEqual([]);
  });
});

describe('the source', () => {
  const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => /\.tsx?$/.test(path) && !path.endsWith('.d.ts'))
    .map((path) => [path, textsOf(path, readFileSync(join(SRC, path), 'utf8'))] as const);

  it('writes every message out where it is used', () => {
    const ways = ['words/phrase.ts', 'views/phrase.tsx'];
    const read = files.filter(([path]) => !ways.includes(path));
    expect(read.flatMap(([path, { unreadable }]) => unreadable.map((line) => `${path}:${line}`))).toEqual([]);
  });

  it('says nothing past the messages', () => {
    const bare = files.flatMap(([path, texts]) =>
      texts.bare.filter(([, text]) => !isExempt(path, text)).map(([line, text]) => `${path}:${line} ${text}`),
    );
    expect(bare).toEqual([]);
  });

  it('is read so that a bare text is found', () => {
    const bareIn = (code: string) => textsOf('a.tsx', code).bare.map(([, text]) => text);
    expect(bareIn('export const a = <p>Take care</p>;')).toEqual(['Take care']);
    expect(bareIn('export const a = <p title="Delete">{1}</p>;')).toEqual(['Delete']);
    expect(bareIn("export const a = { does: 'Goes on' };")).toEqual(['Goes on']);
    expect(bareIn('export const a = (n: number) => `It has $' + '{n} corners.`;')).toEqual([
      'It has 0 corners.',
    ]);
    expect(bareIn('export const a = phrase(\'Goes on\'); const b = <Phrase text="Take care" />;')).toEqual(
      [],
    );
    expect(bareIn("export const a = 'block-list' + new Error('Not a plan.') + 'f1';")).toEqual([]);
  });
});
