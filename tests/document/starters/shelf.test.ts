import { describe, expect, it } from 'vitest';
import { addDrawnBlock, type DrawnBlock } from '../../../src/document/add-drawn-block.ts';
import { type Block, EMPTY_PROJECT, type Fabric } from '../../../src/document/project.ts';
import { drawnAt, heightAt, isCalled, SHELF, suggestFabrics } from '../../../src/document/starters/shelf.ts';
import { type Starter, usualValues, type Values } from '../../../src/document/starters/starter.ts';
import { piece } from '../../../src/piecing/piece.ts';
import { checkPlan } from '../../checker/check-plan.ts';
import { Exhaustive } from '../../checker/exhaustive.ts';
import { signedArea } from '../../checker/shared-boundary.ts';
import { cornersIn } from '../../piecing/standing.ts';
import { isRecordList, NEEDS_SHARED, readShared } from '../../published/shared-data.ts';

const starter = (name: string): Starter => {
  const found = SHELF.find((one) => one.name === name);
  if (found === undefined) throw new Error(`The shelf holds no ${name}.`);
  return found;
};

const drawn = (one: Starter, values: Values = usualValues(one.parameters), width = 6): DrawnBlock =>
  drawnAt(one.name, one.draw(values), width);

function blockOf(block: DrawnBlock, fabrics: readonly Fabric[] = []): Block {
  return addDrawnBlock({ ...EMPTY_PROJECT, fabrics }, block).blocks[0]!;
}

const named = (name: string, values?: Values): Block => blockOf(drawn(starter(name), values));

/**
 * Patches as common practice counts them, and the fewest foundations that straight full seams unite; null where
 * a seam must be set in. Those marked `two searches` were computed by two independent exhaustive searches;
 * the others' foundations are left to the exhaustive search below, or to nothing where it cannot reach.
 */
const FACTS: readonly (readonly [
  name: string,
  patches: number,
  fewest: number | null | undefined,
  source: string,
])[] = [
  ['Half-square triangle', 2, 1, 'two searches'],
  ['Hourglass', 4, 2, 'two searches'],
  ['Four patch', 4, 2, 'two searches'],
  ['Nine patch', 9, 3, 'two searches'],
  ['Rail fence', 3, 1, 'two searches'],
  ['Basket weave', 12, undefined, 'common practice: four rail fences'],
  ['Flying geese', 3, 1, 'two searches'],
  ['Geese in a row', 9, 1, 'two searches'],
  ['Pinwheel', 8, 2, 'two searches'],
  ['Broken dishes', 32, undefined, 'common practice: sixteen half-square triangles'],
  ['Shoofly', 13, 3, 'two searches'],
  ['Churn dash', 17, 3, 'two searches'],
  ['Friendship star', 13, undefined, 'common practice: five squares and four half-square triangles'],
  ['Sawtooth star', 17, 4, 'two searches'],
  ['Ohio star', 21, undefined, 'common practice: five squares and four quarter-square triangles'],
  ['Lemoyne star', 16, null, 'common practice: eight diamonds, four squares and four triangles, set in'],
  ['Snowball', 5, 1, 'two searches'],
  ['Bow tie', 6, undefined, 'common practice: two squares and two squares with a corner'],
  ['Diamond in a rectangle', 5, 1, 'two searches'],
  ['Puss in the corner', 9, undefined, 'common practice: five squares and four rectangles'],
  ['Bear’s paw', 45, undefined, 'common practice: four paws of ten, four bars and a centre'],
  ['Dutchman’s puzzle', 24, 4, 'two searches'],
  ['Jacob’s ladder', 28, undefined, 'common practice: five four patches and four half-square triangles'],
  ['Snail’s trail', 20, undefined, 'common practice: a four patch and four rounds of four'],
  ['Birds in the air', 10, undefined, 'common practice: nine small triangles and a large one'],
  ['Storm at sea', 28, undefined, 'common practice: two economies and two diamonds in rectangles'],
  ['Double nine patch', 49, undefined, 'common practice: five nine patches and four squares'],
  ['Attic window', 3, null, 'two searches'],
  ['Spools', 5, null, 'common practice: mitred corners are set in'],
  ['Baby’s blocks', 3, null, 'common practice: three diamonds meet in a set-in corner'],
  ['Log cabin', 13, 1, 'two searches'],
  ['Courthouse steps', 13, 1, 'two searches'],
  ['Pineapple', 25, 1, 'two searches'],
  ['Square in a square', 5, 1, 'two searches'],
  ['Strips', 5, 1, 'common practice: side by side'],
  ['Rays', 7, 1, 'common practice: a fan is sewn from one side to the other'],
  ['Checkerboard', 16, undefined, 'common practice: four rows of four'],
];

describe('the shelf', () => {
  it('holds what is written about here, each name once', () => {
    expect(SHELF.map(({ name }) => name).sort()).toEqual(FACTS.map(([name]) => name).sort());
    expect(FACTS.length).toBeGreaterThanOrEqual(24);
  });

  it.each(FACTS)('%s: %i patches, fewest foundations %s (%s)', (name, patches, fewest) => {
    const block = named(name);
    const plan = piece(block);
    expect(plan.patches).toHaveLength(patches);
    expect(checkPlan(block, plan)).toEqual([]);
    if (fewest === undefined) return;
    const isSetIn = plan.verdict === 'set-in-seams';
    expect(isSetIn ? null : plan.sections.length).toBe(fewest);
  });

  it.each(FACTS.filter(([, patches]) => patches <= 13).map(([name]) => name))(
    '%s turns as few corners, and takes as many foundations, as trying everything finds',
    (name) => {
      const plan = piece(named(name));
      const best = new Exhaustive(plan.patches).best();
      expect(plan.joins.reduce((sum, join) => sum + cornersIn(join), 0)).toBe(best.corners);
      expect(plan.sections.length).toBe(best.foundations);
    },
  );

  it('draws tiles that fill the outline once, and no cut that divides nothing', () => {
    for (const one of SHELF) {
      const { outline, tiles } = one.draw(usualValues(one.parameters));
      const areas = tiles.map(({ ring }) => Math.abs(signedArea(ring)));
      const whole = Math.abs(signedArea(outline));
      expect(
        areas.reduce((sum, area) => sum + area, 0),
        one.name,
      ).toBeCloseTo(whole, 6);
      const { patches, findings } = piece(blockOf(drawn(one)));
      expect(patches.length, one.name).toBe(tiles.length);
      const strays = findings.filter(({ code }) => /stray|loose|overlap|idle|outside/.test(code));
      expect(strays, one.name).toEqual([]);
    }
  });

  it('says a log cabin of n rounds has 4 n + 1 patches, a pineapple 8 n + 1, all on one foundation', () => {
    for (let rounds = 1; rounds <= 6; rounds++) {
      for (const [name, patches] of [
        ['Log cabin', 4 * rounds + 1],
        ['Courthouse steps', 4 * rounds + 1],
        ['Pineapple', 8 * rounds + 1],
      ] as const) {
        const plan = piece(named(name, { rounds }));
        expect([name, rounds, plan.patches.length, plan.sections.length]).toEqual([name, rounds, patches, 1]);
      }
      const nested = piece(named('Square in a square', { squares: rounds }));
      expect([nested.patches.length, nested.sections.length]).toEqual([4 * rounds + 1, 1]);
    }
  });

  it('keeps every setting of every parameter sound', () => {
    for (const one of SHELF) {
      for (const [key, parameter] of Object.entries(one.parameters)) {
        const settings =
          parameter.kind === 'choice'
            ? parameter.ways.map(([way]) => way)
            : [parameter.least, parameter.least + 1, parameter.most];
        for (const setting of settings) {
          const values = { ...usualValues(one.parameters), [key]: setting };
          const { tiles } = one.draw(values);
          const plan = piece(blockOf(drawn(one, values)), { budget: 200 });
          expect([one.name, key, setting, plan.patches.length]).toEqual([
            one.name,
            key,
            setting,
            tiles.length,
          ]);
        }
      }
    }
  });

  it('takes values beyond the bounds as the nearest, and nonsense as the usual', () => {
    const cabin = starter('Log cabin');
    const patches = (values: Values): number => cabin.draw(values).tiles.length;
    expect(patches({ rounds: -3 })).toBe(5);
    expect(patches({ rounds: 1e9 })).toBe(33);
    expect(patches({ rounds: Number.NaN })).toBe(13);
    expect(patches({ rounds: 'many' })).toBe(13);
  });

  it('draws at the width asked for, the height following', () => {
    const geese = starter('Flying geese');
    const block = drawn(geese, {}, 5);
    expect(block.outline).toEqual([
      [0, 0],
      [5, 0],
      [5, 2.5],
      [0, 2.5],
    ]);
    expect(heightAt(geese.draw({}), 5)).toBe(2.5);
  });

  it('makes one cut of what runs on: a nine patch has four', () => {
    expect(drawn(starter('Nine patch')).cuts).toHaveLength(4);
    // Two diagonals and two middle lines cross the whole pinwheel.
    expect(drawn(starter('Pinwheel')).cuts).toHaveLength(4);
  });
});

describe('fabrics suggest themselves by how light they look', () => {
  const fabrics: readonly Fabric[] = [
    { id: 'f1', name: 'Night sea', color: '#000000' },
    { id: 'f2', name: 'Foam', color: '#ffffff' },
    { id: 'f3', name: 'Slate', color: '#777777' },
    { id: 'f4', name: 'Almost night', color: '#222222' },
  ];

  it('lightest, darkest, and the one half way: L* of #777777 is 50.03 (CIE 15)', () => {
    expect(suggestFabrics(fabrics)).toEqual({ light: 'f2', medium: 'f3', dark: 'f1' });
  });

  it('prefers a colour to a grey that is about as dark', () => {
    const sea: Fabric = { id: 'f5', name: 'Deep sea', color: '#1d2557' };
    expect(suggestFabrics([...fabrics, sea])?.dark).toBe('f5');
  });

  it('is silent with fewer than two fabrics, and then nothing is painted', () => {
    expect(suggestFabrics(fabrics.slice(0, 1))).toBe(null);
    const { patches } = blockOf(drawnAt('Pinwheel', starter('Pinwheel').draw({}), 6));
    expect(patches.filter(({ fabric }) => fabric !== undefined)).toEqual([]);
  });

  it('lies on every patch of the block', () => {
    for (const one of SHELF) {
      const block = blockOf(drawnAt(one.name, one.draw(usualValues(one.parameters)), 9, fabrics), fabrics);
      const bare = piece(block).patches.filter(({ fabric }) => fabric === null);
      expect(bare, one.name).toEqual([]);
    }
  });
});

describe('the search', () => {
  const found = (search: string): string[] =>
    SHELF.filter((one) => isCalled(one, search)).map(({ name }) => name);

  it('finds by parts of names, other names, and without apostrophes', () => {
    expect(found('star')).toEqual(['Friendship star', 'Lemoyne star', 'Ohio star', 'Sawtooth star']);
    expect(found('CABIN log')).toEqual(['Log cabin']);
    expect(found('bears paw')).toEqual(['Bear’s paw']);
    expect(found("bear's")).toEqual(['Bear’s paw']);
    expect(found('hole in the barn')).toEqual(['Churn dash']);
    expect(found('')).toHaveLength(SHELF.length);
    expect(found('lobster pot')).toEqual([]);
  });
});

describe('the shared collection', () => {
  const shared = readShared('blocks.json');
  const given = isRecordList(shared?.blocks) ? shared.blocks : [];
  const sameAs: Readonly<Record<string, readonly [string, Values]>> = {
    half_square_triangle: ['Half-square triangle', {}],
    quarter_square_triangle: ['Hourglass', {}],
    rail_fence_3: ['Rail fence', {}],
    four_patch: ['Four patch', {}],
    nine_patch: ['Nine patch', {}],
    flying_geese: ['Flying geese', {}],
    flying_geese_strip_3: ['Geese in a row', { geese: 3 }],
    pinwheel: ['Pinwheel', {}],
    square_in_square: ['Square in a square', { squares: 1 }],
    economy: ['Square in a square', { squares: 2 }],
    diamond_in_rectangle: ['Diamond in a rectangle', {}],
    shoofly: ['Shoofly', {}],
    churn_dash: ['Churn dash', {}],
    sawtooth_star: ['Sawtooth star', {}],
    log_cabin: ['Log cabin', { rounds: 3 }],
    courthouse_steps: ['Courthouse steps', { rounds: 3 }],
    pineapple: ['Pineapple', { rounds: 3 }],
    dutchmans_puzzle: ['Dutchman’s puzzle', {}],
    attic_window: ['Attic window', {}],
  };

  it.skipIf(shared === null)(
    `agrees on patches, foundations and the areas of patches ${NEEDS_SHARED}`,
    () => {
      const compared: string[] = [];
      for (const one of given) {
        const mine = sameAs[String(one.name)];
        if (mine === undefined) continue;
        const plan = piece(named(...mine));
        const fewest = plan.verdict === 'set-in-seams' ? null : plan.sections.length;
        expect([one.name, plan.patches.length, fewest]).toEqual([
          one.name,
          one.patches,
          one.minimum_foundations,
        ]);
        // The pineapple has as many ways to space its strips as there are quilters: only its counts are compared.
        if (one.name !== 'pineapple') {
          const shares = (rings: readonly Block['outline'][]): number[] => {
            const areas = rings.map((ring) => Math.abs(signedArea(ring)));
            const whole = areas.reduce((sum, area) => sum + area, 0);
            return areas.map((area) => Number((area / whole).toFixed(4))).sort((a, b) => a - b);
          };
          expect([one.name, shares(plan.patches.map(({ polygon }) => polygon))]).toEqual([
            one.name,
            shares(one.patch_polygons as Block['outline'][]),
          ]);
        }
        compared.push(String(one.name));
      }
      expect(compared).toHaveLength(Object.keys(sameAs).length);
    },
  );
});
