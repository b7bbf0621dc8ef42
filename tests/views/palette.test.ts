import { describe, expect, it } from 'vitest';
import { type Listed, matching } from '../../src/views/command-list.ts';

const listed = (label: string): Listed => ({ id: label, label, key: '', run: () => undefined });
const COMMANDS = [
  'Undo draw cut',
  'Cut',
  'Cut out',
  'Split at crossings',
  'Turn the block left',
  'Fit the sheet',
].map(listed);
const found = (typed: string): readonly string[] => matching(COMMANDS, typed).map(({ label }) => label);

describe('the palette', () => {
  it('shows everything before anything is typed', () => {
    expect(found('')).toHaveLength(COMMANDS.length);
    expect(found('   ')).toHaveLength(COMMANDS.length);
  });

  it('puts names that begin so first, words after them, and keeps the order of the list', () => {
    expect(found('cut')).toEqual(['Cut', 'Cut out', 'Undo draw cut']);
    expect(found('t')[0]).toBe('Turn the block left');
  });

  it('wants every word', () => {
    expect(found('block left')).toEqual(['Turn the block left']);
    expect(found('left anchor')).toEqual([]);
  });
});
