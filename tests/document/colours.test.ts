import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alikeFabrics, colourDifference, HARDLY_APART } from '../../src/document/colour-difference.ts';
import { fabricsIn, harmoniesOf, leadingFabric } from '../../src/document/harmony.ts';
import { colorOfLab, type Lab, labOfColor } from '../../src/document/lab.ts';
import { lightnessOfColor, valueOfColor } from '../../src/document/lightness.ts';
import type { Fabric } from '../../src/document/project.ts';
import { NEEDS_SHARED, readShared } from '../published/shared-data.ts';
import { harbour, quarters } from './projects.ts';

const hexColor = fc
  .integer({ min: 0, max: 0xffffff })
  .map((value) => `#${value.toString(16).padStart(6, '0')}`);

const cloth = (id: string, color: string): Fabric => ({ id, name: `Cloth ${id}`, color });

describe('CIELAB', () => {
  // The primaries of sRGB in CIELAB under D65, as commonly published (for instance by B. Lindbloom's calculator).
  it.each([
    ['#ff0000', [53.24, 80.09, 67.2]],
    ['#00ff00', [87.73, -86.18, 83.18]],
    ['#0000ff', [32.3, 79.19, -107.86]],
    ['#ffffff', [100, 0, 0]],
    ['#000000', [0, 0, 0]],
  ] as const)('%s is L*, a*, b* %j', (color, [l, a, b]) => {
    const lab = labOfColor(color);
    expect(Math.abs(lab.l - l)).toBeLessThan(0.05);
    expect(Math.abs(lab.a - a)).toBeLessThan(0.05);
    expect(Math.abs(lab.b - b)).toBeLessThan(0.05);
  });

  it('there and back is the same colour', () => {
    fc.assert(fc.property(hexColor, (color) => colorOfLab(labOfColor(color)) === color));
  });

  it('a colour no screen shows keeps lightness and hue', () => {
    for (const degrees of [10, 75, 140, 200, 290]) {
      const angle = (degrees * Math.PI) / 180;
      const lab = labOfColor(colorOfLab({ l: 60, a: 150 * Math.cos(angle), b: 150 * Math.sin(angle) }));
      expect(Math.abs(lab.l - 60)).toBeLessThan(0.6);
      const hue = ((Math.atan2(lab.b, lab.a) * 180) / Math.PI + 360) % 360;
      expect(Math.abs(hue - degrees)).toBeLessThan(2);
      expect(Math.hypot(lab.a, lab.b)).toBeGreaterThan(30);
    }
  });
});

describe('the value of a colour', () => {
  it('is a grey, as light as one step of grey allows', () => {
    fc.assert(
      fc.property(hexColor, (color) => {
        const grey = valueOfColor(color);
        expect(grey).toMatch(/^#(..)\1\1$/);
        // Steps of grey lie at most 0.45 apart in L* (darkest steps 0.27, the widest near 30).
        expect(Math.abs(lightnessOfColor(grey) - lightnessOfColor(color))).toBeLessThan(0.0025);
      }),
    );
  });
});

describe('CIEDE2000', () => {
  const difference = ([l1, a1, b1, l2, a2, b2]: readonly number[]): number =>
    colourDifference({ l: l1!, a: a1!, b: b1! }, { l: l2!, a: a2!, b: b2! });

  // Sharma, Wu, Dalal 2005, Table 1, pairs 1, 7, 13, 17 and 34: blue, a grey, hues across the circle, far and dark.
  it.each([
    [50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425],
    [50, 0, 0, 50, -1, 2, 2.3669],
    [50, -0.001, 2.49, 50, 0.0009, -2.49, 4.8045],
    [50, 2.5, 0, 73, 25, -18, 27.1492],
    [2.0776, 0.0795, -1.135, 0.9033, -0.0636, -0.5514, 0.9082],
  ])('of (%d, %d, %d) and (%d, %d, %d) is %d', (...row) => {
    expect(Math.abs(difference(row) - row[6]!)).toBeLessThanOrEqual(0.0001);
  });

  const shared = readShared('data/ciede2000_pairs.json');
  const published = (shared?.pairs ?? []) as readonly (readonly number[])[];

  it.skipIf(shared === null)(`agrees with all 34 published pairs ${NEEDS_SHARED}`, () => {
    expect(published).toHaveLength(34);
    for (const row of published) expect(Math.abs(difference(row) - row[6]!)).toBeLessThanOrEqual(0.0001);
  });

  it('is nothing for the same colour and the same both ways', () => {
    fc.assert(
      fc.property(hexColor, hexColor, (one, other) => {
        const [a, b] = [labOfColor(one), labOfColor(other)];
        expect(colourDifference(a, a)).toBe(0);
        expect(colourDifference(a, b)).toBeCloseTo(colourDifference(b, a), 9);
      }),
    );
  });
});

describe('fabrics that can hardly be told apart', () => {
  it('are found, the most alike first, and no others', () => {
    const fabrics = [
      cloth('sea', '#1d3557'),
      cloth('sand', '#e9e4d8'),
      cloth('night', '#1e3658'),
      cloth('red', '#a6322b'),
      cloth('dusk', '#203a5c'),
    ];
    const pairs = alikeFabrics(fabrics);
    expect(pairs[0]).toMatchObject({ one: { id: 'sea' }, other: { id: 'night' } });
    expect(pairs.flatMap(({ one, other }) => [one.id, other.id])).not.toContain('red');
    expect(pairs.flatMap(({ one, other }) => [one.id, other.id])).not.toContain('sand');
    expect(pairs.map(({ difference }) => difference)).toEqual(
      pairs.map(({ difference }) => difference).toSorted((a, b) => a - b),
    );
  });

  it('are the same as by looking at every pair', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 4095 }), { minLength: 2, maxLength: 40 }), (values) => {
        // Few greens and blues, so that near pairs are common.
        const fabrics = values.map((value, index) =>
          cloth(`f${index}`, `#${(0x204060 + (value & 0xf) * 0x10000 + (value >> 8)).toString(16)}`),
        );
        const labs = fabrics.map(({ color }) => labOfColor(color));
        let near = 0;
        for (const [i, a] of labs.entries())
          for (const b of labs.slice(i + 1)) if (colourDifference(a, b) < HARDLY_APART) near++;
        expect(alikeFabrics(fabrics, 10_000)).toHaveLength(near);
      }),
    );
  });
});

describe('harmonies', () => {
  const chromaAndHue = ({ a, b }: Lab): readonly [number, number] => [
    Math.hypot(a, b),
    ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360,
  ];
  const lead = cloth('lead', '#6f8f72');

  it('stand to their fabric as they say', () => {
    const harmonies = harmoniesOf(lead, [lead]);
    expect(harmonies.map(({ kind }) => kind)).toEqual([
      'lighter',
      'darker',
      'opposite',
      'neighbour',
      'other neighbour',
    ]);
    const from = labOfColor(lead.color);
    const [, hue] = chromaAndHue(from);
    const by = (kind: string): Lab => labOfColor(harmonies.find((one) => one.kind === kind)!.color);
    expect(by('lighter').l).toBeGreaterThan(from.l + 10);
    expect(by('darker').l).toBeLessThan(from.l - 10);
    const turns = [
      ['opposite', 180],
      ['neighbour', 30],
      ['other neighbour', 330],
    ] as const;
    for (const [kind, turn] of turns) {
      expect(Math.abs(by(kind).l - from.l)).toBeLessThan(1);
      expect(Math.abs(((chromaAndHue(by(kind))[1] - hue + 360) % 360) - turn)).toBeLessThan(3);
    }
  });

  it('leave out what the project has, and the hues of grey', () => {
    const first = harmoniesOf(lead, [lead])[0]!;
    const rest = harmoniesOf(lead, [lead, cloth('had', first.color)]);
    expect(rest.map(({ kind }) => kind)).not.toContain('lighter');
    const grey = cloth('grey', '#808080');
    expect(harmoniesOf(grey, [grey]).map(({ kind }) => kind)).toEqual(['lighter', 'darker']);
    const white = cloth('white', '#ffffff');
    expect(harmoniesOf(white, [white]).map(({ kind }) => kind)).toEqual(['darker']);
  });

  it('are named within the limit of names', () => {
    const long = { ...lead, name: 'x'.repeat(200) };
    for (const { name } of harmoniesOf(long, [long])) expect(name.length).toBeLessThanOrEqual(200);
  });

  it('begin from the most colourful fabric that is laid', () => {
    const laid = fabricsIn(quarters, harbour.fabrics);
    expect(laid.map(({ id }) => id)).toEqual(['f1', 'f2']);
    expect(leadingFabric(laid)?.id).toBe('f1');
    expect(leadingFabric(harbour.fabrics)?.id).toBe('f3');
    expect(leadingFabric([])).toBeNull();
  });
});
