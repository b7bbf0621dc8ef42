import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { piece } from '../../../src/piecing/piece.ts';
import { RULES } from '../../../src/piecing/rules/table.ts';
import { insideShape } from '../../checker/shared-boundary.ts';
import { rotated, roundPoint } from '../../designs/plane.ts';
import { blockOf, ringOf } from './drawing.ts';
import { EXAMPLES, type Example } from './examples.ts';

/**
 * Every rule has drawings it must find and drawings it must stay silent about, each tried as it stands, turned by
 * a quarter and by 37°, mirrored, smaller and larger, as far as the rule does not hang on that itself.
 */

interface Way {
  readonly name: string;
  readonly place: (p: Point) => Point;
}

function waysFor({ isSized = false, isUpright = false }: Example): Way[] {
  const turns = isUpright ? [0, 90, 180, 270] : [0, 90, 217];
  const sizes = isSized ? [1] : [0.5, 1, 2];
  return turns.flatMap((degrees) =>
    sizes.map((size): Way => {
      const exact = (p: Point): Point => {
        switch (degrees) {
          case 0:
            return p;
          case 90:
            return [6 - p[1], p[0]];
          case 180:
            return [6 - p[0], 6 - p[1]];
          case 270:
            return [p[1], 6 - p[0]];
          default:
            return rotated(p, [3, 3], (degrees * Math.PI) / 180);
        }
      };
      return {
        name: `turned by ${degrees}°, ${size} times as large`,
        place: (p) => {
          const [x, y] = exact(p);
          return roundPoint([x * size, y * size]);
        },
      };
    }),
  );
}

/** What is wrong with the findings of a code on a drawing, tried every way. */
function wrongWith(code: string, example: Example, times: number): string[] {
  return waysFor(example).flatMap(({ name, place }) => {
    const block = blockOf(example, place);
    const plan = piece(block, example.options);
    const found = plan.findings.filter((finding) => finding.code === code);
    const wrong: string[] = [];
    if (found.length !== times) wrong.push(`${found.length} findings, not ${times}`);
    const first = found[0];
    if (first && example.names) {
      const named = first.cuts.map((id) => block.cuts.findIndex((cut) => cut.id === id) + 1);
      if (`${named.sort()}` !== `${example.names}`) wrong.push(`names cuts ${named}, not ${example.names}`);
    }
    if (first && example.about !== undefined) {
      const meant = ringOf(example.about).map((p) => {
        const at = place(p);
        return plan.patches.find((patch) => insideShape(at, patch))?.id;
      });
      if (`${[...first.patches].sort()}` !== `${meant.sort()}`)
        wrong.push(`is about ${first.patches}, not ${meant}`);
    }
    return wrong.map((fault) => `${name}: ${fault}`);
  });
}

describe('the table of rules', () => {
  it('has drawings for every code, two to find and two to stay silent about at least, and none for others', () => {
    const codes = RULES.map((rule) => rule.code);
    expect(new Set(codes).size).toBe(codes.length);
    expect(Object.keys(EXAMPLES).sort()).toEqual([...codes].sort());
    for (const code of codes) {
      const { found, silent } = EXAMPLES[code]!;
      expect({ code, found: found.length >= 2, silent: silent.length >= 2 }).toEqual({
        code,
        found: true,
        silent: true,
      });
    }
  });
});

describe.each(Object.entries(EXAMPLES))('%s', (code, { found, silent }) => {
  it.each(found)('is found: $what', (example) => {
    expect(wrongWith(code, example, example.times ?? 1)).toEqual([]);
  });
  it.each(silent)('is silent: $what', (example) => {
    expect(wrongWith(code, example, 0)).toEqual([]);
  });
});

describe('what a finding says', () => {
  const all = Object.entries(EXAMPLES).flatMap(([code, { found }]) =>
    found.map((example) => ({ code, example, block: blockOf(example) })),
  );

  it.each(all)(
    '$code, $example.what: a sentence, a place on the block, patches and cuts that are there',
    ({ code, example, block }) => {
      const plan = piece(block, example.options);
      for (const finding of plan.findings.filter((f) => f.code === code)) {
        expect(finding.message).toMatch(/^[A-Z0-9].{20,}\.$/);
        expect(finding.message).not.toMatch(/NaN|undefined|null|Infinity|\[object/);
        const ids = plan.patches.map((patch) => patch.id);
        expect(finding.patches.filter((id) => !ids.includes(id))).toEqual([]);
        const cuts = block.cuts.map((cut) => cut.id);
        expect(finding.cuts.filter((id) => !cuts.includes(id))).toEqual([]);
        // A cut outside the block or without numbers is shown where it lies, or at a corner.
        if (code === 'outside-cut') continue;
        const xs = block.outline.map((p) => p[0]);
        const ys = block.outline.map((p) => p[1]);
        for (const [x, y] of [finding.at, ...finding.stretches.flat()]) {
          expect(x).toBeGreaterThanOrEqual(Math.min(...xs) - 0.01);
          expect(x).toBeLessThanOrEqual(Math.max(...xs) + 0.01);
          expect(y).toBeGreaterThanOrEqual(Math.min(...ys) - 0.01);
          expect(y).toBeLessThanOrEqual(Math.max(...ys) + 0.01);
        }
      }
    },
  );

  it('names every patch and cut in its sentence that it is about, where they are few', () => {
    for (const { code, example, block } of all) {
      const plan = piece(block, example.options);
      for (const finding of plan.findings.filter((f) => f.code === code)) {
        if (code === 'many-patches' || code === 'oversize' || code === 'many-seams') continue;
        if (finding.patches.length > 8 || finding.message.startsWith('No patch')) continue;
        for (const id of code === 'pin-refused' ? [] : finding.patches)
          expect(finding.message, example.what).toContain(id);
        for (const id of finding.cuts)
          expect(finding.message.toLowerCase(), example.what).toContain(
            `line ${block.cuts.findIndex((cut) => cut.id === id) + 1}`,
          );
      }
    }
  });
});

describe('the ring', () => {
  it('is told as a patch inside another just where one lies inside another', () => {
    for (const example of [...EXAMPLES.ring!.found, ...EXAMPLES.island!.found]) {
      const plan = piece(blockOf(example));
      const isHeldInside = plan.patches.some(({ holes }) => holes.length > 0);
      const rings = plan.findings.filter(({ code }) => code === 'ring');
      expect(rings.length).toBeGreaterThan(0);
      expect([example.what, rings.some(({ message }) => message.includes('inside another'))]).toEqual([
        example.what,
        isHeldInside,
      ]);
    }
  });
});

describe('a cut that ends a hair short', () => {
  const found = (cuts: string) => piece(blockOf({ cuts })).findings.find(({ code }) => code === 'idle-cut')!;

  it('shows the gap, and says what it was to reach', () => {
    const line = found('0,3>6,3 2,0>2,2.9375');
    expect(line.stretches).toEqual([
      [
        [2, 2.9375],
        [2, 3],
      ],
    ]);
    expect(line.at).toEqual([2, 2.9375]);
    expect(line.message).toMatch(/^Line 2 ends just short of line 1,/);
    // 1/4 in is the usual seam allowance: of an end as far off as that it is said how far.
    expect(found('0,3>6,3 2,0>2,2.75').message).toMatch(/in the middle of a patch, 1\/4 in short of line 1,/);
    expect(found('0,3>6,3 2,0>2,2').stretches[0]![1]).toEqual([2, 3]);
    // Loose at both its ends, it misses nothing in particular.
    expect(found('0,3>6,3 1,1>2,2').stretches).toEqual([]);
    const edge = found('0,3>6,3 2,3>2,5.9');
    expect(edge.message).toContain('just short of the edge of the block');
    expect(edge.stretches[0]![1]).toEqual([2, 6]);
  });

  it('takes the smaller gap where both ends are short', () => {
    expect(found('0,3>6,3 2,0.1>2,2.95').stretches[0]![1]).toEqual([2, 3]);
    expect(found('0,3>6,3 2,0.05>2,2.9').stretches[0]![1]).toEqual([2, 0]);
  });
});

describe('severities of a project', () => {
  const cases = Object.entries(EXAMPLES).map(([code, { found }]) => ({ code, example: found[0]! }));

  it.each(cases)('$code: as the project has it, or left out', ({ code, example }) => {
    const block = blockOf(example);
    const own = RULES.find((rule) => rule.code === code)!.severity;
    const severitiesFound = (severity?: 'trouble' | 'caution' | 'note' | 'off'): string[] =>
      piece(block, { ...example.options, ...(severity && { severities: { [code]: severity } }) })
        .findings.filter((finding) => finding.code === code)
        .map((finding) => finding.severity);
    expect(new Set(severitiesFound())).toEqual(new Set([own]));
    for (const severity of ['trouble', 'caution', 'note'] as const)
      expect(new Set(severitiesFound(severity))).toEqual(new Set([severity]));
    expect(severitiesFound('off')).toEqual([]);
  });

  it('one code switched off leaves all others as they are, and what cannot be sewn stays said by the verdict', () => {
    for (const { code, example } of cases) {
      const block = blockOf(example);
      const whole = piece(block, example.options);
      const without = piece(block, { ...example.options, severities: { [code]: 'off' } });
      expect(without.findings).toEqual(whole.findings.filter((finding) => finding.code !== code));
      expect({ ...without, findings: [] }).toEqual({ ...whole, findings: [] });
    }
  });

  it('the gravest come first', () => {
    const weight = { trouble: 0, caution: 1, note: 2 };
    for (const { code, example } of cases)
      for (const severities of [{}, { [code]: 'trouble' as const }, { [code]: 'note' as const }]) {
        const told = piece(blockOf(example), { ...example.options, severities }).findings;
        const weights = told.map((finding) => weight[finding.severity]);
        expect(weights).toEqual([...weights].sort((a, b) => a - b));
      }
  });
});
