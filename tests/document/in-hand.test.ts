import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { removeBlock } from '../../src/document/edit-block.ts';
import { copiesInHand, takeInHand } from '../../src/document/edit-copies.ts';
import { openFile } from '../../src/document/file.ts';
import { EMPTY_PROJECT, type Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';

const sample = (name: string): string =>
  readFileSync(new URL(`./samples/${name}.underpaper.json`, import.meta.url), 'utf8');

function opened(text: string): Project {
  const file = openFile(text);
  if (!file.ok) throw new Error(file.error.message);
  return file.project;
}

describe('copies in hand', () => {
  it('are kept in the file, of blocks that are there', () => {
    const project = opened(sample('in-hand'));
    expect([...copiesInHand(project)!]).toEqual([
      ['b1', 1],
      ['b2', 12],
    ]);
    expect(toText(project)).toBe(sample('in-hand.canonical'));
    expect(toText(opened(toText(project)))).toBe(sample('in-hand.canonical'));
  });

  it('are none, and leave no trace, until some are chosen', () => {
    expect(copiesInHand(EMPTY_PROJECT)).toBeNull();
    expect(toText(EMPTY_PROJECT)).not.toContain('inHand');
    const chosen = takeInHand(EMPTY_PROJECT, new Map());
    expect(copiesInHand(chosen)?.size).toBe(0);
    expect(takeInHand(chosen, new Map())).toBe(chosen);
  });

  it('go with their block, and are whole numbers from 1 to 999', () => {
    const project = opened(sample('in-hand'));
    expect(removeBlock(project, 'b2').inHand).toEqual({ gone: 3, b1: 1 });
    const many = takeInHand(
      project,
      new Map([
        ['b1', 4.6],
        ['b2', 1e9],
        ['b3', -2],
        ['b4', 1],
        ['__proto__', 3],
      ]),
    );
    expect(many.inHand).toEqual({ b1: 5, b2: 999, b3: 1 });
    expect(takeInHand(project, new Map([['b1', Number.NaN]])).inHand).toEqual({});
  });

  it.each([
    [{ b1: 0 }, 'The list of copies in hand holds something other than whole numbers from 1 to 999.'],
    [{ b1: 1.5 }, 'The list of copies in hand holds something other than whole numbers from 1 to 999.'],
    [{ b1: '2' }, 'The list of copies in hand holds something other than whole numbers from 1 to 999.'],
    [[2], 'The list of copies in hand is not a record in braces.'],
  ])('a file that holds %j of them is refused', (inHand, message) => {
    const file = openFile(
      JSON.stringify({ format: 'underpaper', version: 1, name: 'A', blocks: [], inHand }),
    );
    expect(file.ok ? null : file.error.message).toBe(message);
  });
});
