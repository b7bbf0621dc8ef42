import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { snap } from '../../src/geometry/lattice.ts';
import { formatLength, parseLength } from '../../src/geometry/length.ts';

const inchesOf = (text: string, bareUnit: 'in' | 'mm' = 'in'): number => {
  const parsed = parseLength(text, bareUnit);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.error}`);
  return parsed.inches;
};

describe('parseLength', () => {
  it.each([
    // The spellings of one length that quilters use (common practice).
    ['3 5/8', 3.625],
    ['3-5/8"', 3.625],
    ['3 - 5/8', 3.625],
    ['3–5/8', 3.625],
    ['3+5/8', 3.625],
    ['3⅝', 3.625],
    ['3 ⅝ in', 3.625],
    ['3⅝″', 3.625],
    ["3 5/8''", 3.625],
    ['3 5⁄8', 3.625],
    ['3.625', 3.625],
    ['3,625', 3.625],
    ['3.625 inches', 3.625],
    ['  3.625\u00a0IN. ', 3.625],
    ['29/8', 3.625],
    ['5/8', 0.625],
    ['⅝', 0.625],
    ['½ inch', 0.5],
    ['.5', 0.5],
    [',5', 0.5],
    ['3,5', 3.5],
    ['12', 12],
    ['12.', 12],
    ['0', 0],
    ['-3 5/8', -3.625],
    ['−⅝', -0.625],
    ['-0', 0],
  ])('reads %s as %d in', (text, inches) => {
    expect(inchesOf(text)).toBe(inches);
  });

  it('takes 25.4 mm for exactly 1 in (NBS Circular 572 addendum, 1960; NIST Handbook 44, appendix C)', () => {
    expect(inchesOf('25.4 mm')).toBe(1);
    expect(inchesOf('2.54 cm')).toBe(1);
    expect(inchesOf('914.4 mm')).toBe(36);
    expect(inchesOf('6.35 mm')).toBe(0.25);
    expect(snap(inchesOf('9,525mm'))).toBe(0.375);
    expect(inchesOf('92 mm')).toBe(92 / 25.4);
    expect(inchesOf('9.2 cm')).toBe(92 / 25.4);
  });

  it('reads a bare number in the unit it is given, and a typed unit as typed', () => {
    expect(inchesOf('25.4', 'mm')).toBe(1);
    expect(inchesOf('1 in', 'mm')).toBe(1);
    expect(inchesOf('1"', 'mm')).toBe(1);
  });

  it.each([
    ['', /type a length/i],
    ['   ', /type a length/i],
    ['in', /missing/],
    ['abc', /no unit|not a length/],
    ['3 ft', /‘?“?ft”? is no unit/],
    ['3 px', /px/],
    ['3 5/0', /0 below/],
    ['3 9/8', /less than 1/],
    ['3.5 1/2', /not a length/],
    ['1/2/3', /not a length/],
    ['1,234.5', /not a length/],
    ['1e3', /not a length/],
    ['3 4', /not a length/],
    ['--3', /not a length/],
    ['NaN', /no unit|not a length/],
    ['Infinity', /no unit|not a length/],
    ['0x10', /not a length/],
    ['1001', /up to 1000 in/],
    ['99999999999999999999', /up to 1000 in/],
    [`${'9'.repeat(400)}`, /up to 1000 in/],
  ])('refuses %j with a reason', (text, reason) => {
    const parsed = parseLength(text);
    expect(parsed).toMatchObject({ ok: false, error: expect.stringMatching(reason) });
  });

  it('never throws, and never lets through what is not a number within the limit', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.constantFrom('in', 'mm'), (text, unit) => {
        const parsed = parseLength(text, unit as 'in' | 'mm');
        if (parsed.ok) expect(Math.abs(parsed.inches)).toBeLessThanOrEqual(1000);
        else expect(parsed.error).toMatch(/^\S.*\.$/s);
      }),
    );
  });

  it('reads whole, over and under as a school fraction', () => {
    fc.assert(
      fc.property(
        fc.nat(900),
        fc.integer({ min: 1, max: 64 }).chain((under) => fc.tuple(fc.nat(under - 1), fc.constant(under))),
        fc.constantFrom(' ', '-', ' - ', '+'),
        fc.constantFrom('', '"', ' in', ' inch'),
        (whole, [over, under], between, unit) => {
          expect(inchesOf(`${whole}${between}${over}/${under}${unit}`)).toBeCloseTo(
            (whole * under + over) / under,
            12,
          );
        },
      ),
    );
  });
});

describe('formatLength', () => {
  it.each([
    [3.625, '3 5/8 in'],
    [0.25, '1/4 in'],
    [12, '12 in'],
    [0, '0 in'],
    [-0, '0 in'],
    [-3.625, '-3 5/8 in'],
    [1 / 64, '1/64 in'],
    [5 + 63 / 64, '5 63/64 in'],
    [Math.SQRT2 * 6, '8.485 in'],
    [0.1, '0.1 in'],
    [-0.0001, '0 in'],
  ])('writes %d in as %s', (inches, text) => {
    expect(formatLength(inches, 'in')).toBe(text);
  });

  it.each([
    // 1/4 in is 6.35 mm and 3/8 in is 9.525 mm, by 1 in = 25.4 mm (NIST Handbook 44, appendix C).
    [0.25, '6.35 mm'],
    [0.375, '9.5 mm'],
    [12, '304.8 mm'],
    [92 / 25.4, '92 mm'],
    [0, '0 mm'],
    [-1, '-25.4 mm'],
    [Math.SQRT2 * 6, '215.5 mm'],
  ])('writes %d in in millimetres as %s', (inches, text) => {
    expect(formatLength(inches, 'mm')).toBe(text);
  });

  it('says nothing of what is not a number', () => {
    expect(formatLength(Number.NaN, 'in')).toBe('–');
    expect(formatLength(Number.POSITIVE_INFINITY, 'mm')).toBe('–');
  });

  it('comes back exactly for every 64th of an inch', () => {
    fc.assert(
      fc.property(fc.integer({ min: -64000, max: 64000 }), (n) => {
        expect(inchesOf(formatLength(n / 64, 'in'), 'mm')).toBe(n === 0 ? 0 : n / 64);
      }),
    );
  });

  it('shows a length in hundredths of a millimetre as it was typed, though the lattice moved it', () => {
    fc.assert(
      fc.property(fc.integer({ min: -2_500_000, max: 2_500_000 }), (hundredths) => {
        const typed = `${hundredths / 100} mm`;
        expect(formatLength(snap(inchesOf(typed)), 'mm')).toBe(typed.replace(/^-0 /, '0 '));
      }),
    );
  });

  it('is off by no more than its last decimal', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1000 * 65536, max: 1000 * 65536 }), (steps) => {
        const inches = steps / 65536;
        expect(Math.abs(inchesOf(formatLength(inches, 'in')) - inches)).toBeLessThanOrEqual(0.0005 + 1e-9);
        expect(Math.abs(inchesOf(formatLength(inches, 'mm')) - inches) * 25.4).toBeLessThanOrEqual(
          0.05 + 1e-9,
        );
      }),
    );
  });
});
