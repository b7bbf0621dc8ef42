import { describe, expect, it } from 'vitest';
import { piece } from '../../../src/piecing/piece.ts';
import { byHand } from '../../../src/piecing/rules/by-hand.ts';
import { RULES } from '../../../src/piecing/rules/table.ts';
import { designOf } from '../../designs/designs.ts';
import { blockOf } from './drawing.ts';
import { EXAMPLES } from './examples.ts';

/** A number with inches after it: `1/4 in`, `2 in.`; not `in 2 places`. */
const INCHES = /\d in\b(?! (?:the|a)\b)|inch/;

describe('lengths in findings', () => {
  it('are those of the project: no finding of a metric one speaks of inches', () => {
    const told = Object.values(EXAMPLES).flatMap(({ found }) =>
      found.flatMap((drawing) =>
        piece(blockOf(drawing), { ...drawing.options, unit: 'mm' }).findings.map(({ message }) => message),
      ),
    );
    for (let seed = 1; seed <= 60; seed++) {
      const { block } = designOf(seed, { patches: [8, 30], endErrors: 'all' });
      told.push(...piece(block, { unit: 'mm' }).findings.map(({ message }) => message));
    }
    expect(told.filter((message) => /\d mm\b/.test(message)).length).toBeGreaterThan(10);
    expect(told.filter((message) => INCHES.test(message))).toEqual([]);
    for (const { code } of RULES) expect(byHand(code, 'mm') ?? '').not.toMatch(INCHES);
  });

  it('are 6.35 mm for 1/4 in, since an inch is 25.4 mm (ISO 80000-3, from memory)', () => {
    const sliver = (unit: 'in' | 'mm'): string =>
      piece(blockOf({ cuts: '0,3>6,3 0,3.2>6,3.2' }), { unit }).findings.find(
        ({ code }) => code === 'sliver',
      )!.message;
    expect(sliver('in')).toContain('narrower than 1/4 in:');
    expect(sliver('mm')).toContain('narrower than 6.35 mm:');
  });
});
