import { describe, expect, it } from 'vitest';
import { ringOf } from '../../src/geometry/division.ts';
import { bindingOf, bindingUnder } from '../../src/piecing/binding.ts';
import type { Block } from '../../src/piecing/block.ts';
import { clashesOf } from '../../src/piecing/clashes.ts';
import { chordsOf, partAlong } from '../../src/piecing/partings.ts';
import type { Pattern } from '../../src/piecing/pattern.ts';
import { prepare } from '../../src/piecing/piece.ts';
import type { Patch } from '../../src/piecing/plan.ts';
import { keyOf, type Region } from '../../src/piecing/region.ts';
import { EveryParting } from '../checker/every-parting.ts';
import { awkwardBlock } from '../designs/awkward.ts';
import { type DesignKind, designOf } from '../designs/designs.ts';

const MOST_PATCHES = 12;

/** Designs of each family; UNDERPAPER_THOROUGH=1 looks at ten times as many. */
const DESIGNS = process.env.UNDERPAPER_THOROUGH === '1' ? 3500 : 350;

/** The cells of a pattern as outlines, which is all that trying every parting looks at. */
const outlinesOf = ({ division }: Pattern): Patch[] =>
  division.faces.map((face, c) => ({
    key: `${c}`,
    id: `${c}`,
    section: 'A',
    position: c + 1,
    polygon: ringOf(division, face.edge),
    holes: face.islands.map((h) => ringOf(division, h)),
    fabric: null,
    seam: null,
    neighbours: [],
  }));

/** The whole, and the units that one or two straight partings leave of it. */
function regionsOf(pattern: Pattern): Region[] {
  const found = new Map<string, Region>();
  const enter = (region: Region, depth: number): void => {
    const key = keyOf(region);
    if (found.has(key)) return;
    found.set(key, region);
    if (depth === 2) return;
    for (const chord of chordsOf(pattern, region)) {
      const parting = partAlong(pattern, region, chord);
      if (!parting) continue;
      enter(parting.left, depth + 1);
      enter(parting.right, depth + 1);
    }
  };
  enter(new Uint8Array(pattern.cells).fill(1), 0);
  return [...found.values()];
}

interface Tally {
  regions: number;
  /** Regions of several foundations, and those whose bound is no less than the fewest. */
  several: number;
  tight: number;
  wrong: string[];
}

function look(block: Block, tally: Tally): void {
  const prepared = prepare(block);
  if (!prepared.ok || prepared.pattern.cells > MOST_PATCHES || prepared.pattern.isBlurred) return;
  const { pattern } = prepared;
  const clashes = clashesOf(pattern);
  const every = new EveryParting(outlinesOf(pattern));
  for (const region of regionsOf(pattern)) {
    const least = every.fewest(region.reduce((mask, is, c) => mask | (is << c), 0));
    if (least === Number.POSITIVE_INFINITY) continue;
    const bound = bindingOf(pattern, clashes, region);
    tally.regions++;
    if (least > 1) tally.several++;
    if (least > 1 && bound.joins + 1 === least) tally.tight++;
    if (bound.joins + 1 > least)
      tally.wrong.push(`${block.name}, ${region}: at least ${bound.joins + 1} by the bound, and ${least} do`);
    // Kept as they are, the lines chosen to pass come to what was promised.
    const kept = bindingUnder(pattern, clashes, region, bound);
    if (bound.isReached && kept.joins !== bound.joins)
      tally.wrong.push(`${block.name}, ${region}: ${bound.joins} joins promised, ${kept.joins} counted`);
  }
}

describe('the bound on foundations never exceeds the fewest, against trying every parting', {
  timeout: 300_000,
}, () => {
  const families: readonly (DesignKind | 'awkward')[] = [
    'lines',
    'star',
    'grid',
    'chords',
    'inward',
    'awkward',
  ];
  it.each(families)('%s', (family) => {
    const tally: Tally = { regions: 0, several: 0, tight: 0, wrong: [] };
    for (let seed = 1; seed <= DESIGNS; seed++)
      look(
        family === 'awkward'
          ? awkwardBlock(10_000 + seed)
          : designOf(80_000 + seed, { kind: family, patches: [4, MOST_PATCHES] }).block,
        tally,
      );
    expect(tally.wrong).toEqual([]);
    // A bound that always said one would pass: it must be worth something too.
    expect(tally.several).toBeGreaterThan(DESIGNS / 4);
    expect(tally.tight).toBeGreaterThan(0.6 * tally.several);
  });
});
