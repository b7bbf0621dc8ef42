import { describe, expect, it } from 'vitest';
import type { Block, CutRole } from '../../src/piecing/block.ts';
import { PLAN_CHOICES } from '../../src/piecing/block.ts';
import type { PieceOptions } from '../../src/piecing/options.ts';
import { piece } from '../../src/piecing/piece.ts';
import { type PieceMemory, pieceMemory, type Stage } from '../../src/piecing/piece-memory.ts';
import { pointInside } from '../checker/shared-boundary.ts';
import { designOf } from '../designs/designs.ts';
import { entriesAt } from '../designs/entries.ts';
import { Prng } from '../designs/prng.ts';

const FABRICS = ['night', 'sand', 'foam'];
const lights = (change: Readonly<Record<string, number>> = {}): ReadonlyMap<string, number> =>
  new Map(Object.entries({ night: 0.1, sand: 0.7, foam: 0.95, red: 0.4, ...change }));

const OPTIONS: PieceOptions = {
  lightness: lights(),
  severities: {},
  paper: { width: 8, height: 10.5, allowance: 0.25 },
};

/** A design with its patches painted in turn. */
function painted(seed: number): Block {
  const { block } = designOf(seed, { patches: [6, 24] });
  const { patches } = piece(block);
  return {
    ...block,
    patches: entriesAt(
      patches.map((patch, k) => ({ at: pointInside(patch), fabric: FABRICS[k % FABRICS.length]! })),
    ),
  };
}

const ALL: readonly Stage[] = ['division', 'assembly', 'orders', 'findings'];

/** The stages that are gone through for a block once the first piecing of another is remembered. */
function stagesFor(before: [Block, PieceOptions], after: [Block, PieceOptions]): Stage[] {
  const memory = pieceMemory();
  piece(...before, memory);
  const then = memory.runs();
  const plan = piece(...after, memory);
  expect(plan).toEqual(piece(...after));
  return ALL.filter((stage) => memory.runs()[stage] > then[stage]);
}

describe('a stage is gone through again only when something it hangs on has changed', () => {
  const block = painted(7);
  const changed = (change: Partial<Block>, options: PieceOptions = {}): Stage[] =>
    stagesFor(
      [block, OPTIONS],
      [
        { ...block, ...change },
        { ...OPTIONS, ...options },
      ],
    );
  const withRole = (role: CutRole): Partial<Block> => ({
    cuts: block.cuts.map((cut, k) => (k === 0 ? { ...cut, role } : cut)),
  });

  it('nothing: none, for a copy of the block as for itself', () => {
    expect(changed({})).toEqual([]);
    expect(changed(structuredClone(block))).toEqual([]);
    expect(changed({ name: 'Another name', id: 'b9' })).toEqual([]);
  });

  it('the colour of a fabric that it has: its orders', () => {
    expect(changed({}, { lightness: lights({ night: 0.2 }) })).toEqual(['orders', 'findings']);
  });

  it('the colour of a fabric that it has not: none', () => {
    expect(changed({}, { lightness: lights({ red: 0.9, new: 0.3 }) })).toEqual([]);
  });

  it('the page, the allowance or how grave findings are: its findings', () => {
    expect(changed({}, { paper: { width: 5, height: 5, allowance: 0.25 } })).toEqual(['findings']);
    expect(changed({}, { paper: { ...OPTIONS.paper!, allowance: 0.5 } })).toEqual(['findings']);
    expect(changed({}, { severities: { unpainted: 'off' } })).toEqual(['findings']);
  });

  it('a patch painted, or an order set by hand: its orders', () => {
    expect(changed({ patches: block.patches.slice(1) })).toEqual(['orders', 'findings']);
    expect(changed({ orders: [[block.patches[0]!.id]] })).toEqual(['orders', 'findings']);
  });

  it('the role of a cut, or the plan chosen: how it is put together', () => {
    expect(changed(withRole('join'))).toEqual(['assembly', 'orders', 'findings']);
    expect(changed({ plan: 'rows' })).toEqual(['assembly', 'orders', 'findings']);
    expect(changed({}, { plan: 'columns' })).toEqual(['assembly', 'orders', 'findings']);
  });

  it('a cut left out, or the outline: everything', () => {
    expect(changed({ cuts: block.cuts.slice(1) })).toEqual(ALL);
    expect(changed({ outline: block.outline.map(([x, y]) => [2 * x, 2 * y] as const) })).toEqual(ALL);
  });

  it('what was there before: none', () => {
    const memory = pieceMemory();
    const first = piece(block, OPTIONS, memory);
    piece({ ...block, plan: 'rows' }, OPTIONS, memory);
    piece({ ...block, cuts: block.cuts.slice(1) }, OPTIONS, memory);
    const then = memory.runs();
    expect(piece(block, OPTIONS, memory)).toBe(first);
    expect(memory.runs()).toEqual(then);
  });
});

describe('a project of 70 blocks', () => {
  const blocks = Array.from({ length: 70 }, (_, k) => {
    const block = { ...painted(100 + k), id: `b${k}` };
    // Every fifth has no night in it.
    return k % 5 > 0
      ? block
      : { ...block, patches: block.patches.filter(({ fabric }) => fabric !== 'night') };
  });
  const pieceAll = (options: PieceOptions, memory: PieceMemory) =>
    blocks.map((block) => piece(block, options, memory));

  it('pieces those that use a fabric when its colour changes, and none when the page does', () => {
    const memory = pieceMemory();
    const first = pieceAll(OPTIONS, memory);
    const then = memory.runs();
    const night = blocks.filter(({ patches }) => patches.some(({ fabric }) => fabric === 'night')).length;
    expect(night).toBe(56);

    const darker = pieceAll({ ...OPTIONS, lightness: lights({ night: 0 }) }, memory);
    expect(memory.runs()).toEqual({
      ...then,
      orders: then.orders + night,
      findings: then.findings + night,
    });
    expect(darker.filter((plan, k) => plan === first[k])).toHaveLength(70 - night);

    pieceAll({ ...OPTIONS, paper: { width: 10.5, height: 16.5, allowance: 0.25 } }, memory);
    expect(memory.runs()).toEqual({
      ...then,
      orders: then.orders + night,
      findings: then.findings + night + 70,
    });
  });
});

describe('a memory', () => {
  it('changes no plan, whatever is edited in whatever turn: 40 designs, 12 edits each', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const rng = new Prng(seed);
      const memory = pieceMemory(rng.pick([1, 60, 16_000]));
      let block = painted(seed);
      let options = OPTIONS;
      for (let edit = 0; edit < 12; edit++) {
        const k = rng.whole(0, Math.max(0, block.cuts.length - 1));
        switch (rng.whole(0, 6)) {
          case 0:
            options = { ...options, lightness: lights({ [rng.pick(FABRICS)]: rng.whole(0, 10) / 10 }) };
            break;
          case 1:
            options = { ...options, paper: { width: rng.whole(3, 9), height: 9, allowance: 0.25 } };
            break;
          case 2:
            block = { ...block, plan: rng.pick(PLAN_CHOICES) };
            break;
          case 3:
            block = { ...block, cuts: block.cuts.filter((_, i) => i !== k) };
            break;
          case 4:
            block = {
              ...block,
              cuts: block.cuts.map((cut, i) =>
                i === k ? { ...cut, role: rng.pick(['auto', 'join', 'seam'] as const) } : cut,
              ),
            };
            break;
          case 5:
            block = {
              ...block,
              patches: block.patches.slice(1),
              orders: [[rng.pick(block.patches)?.id ?? 'p1']],
            };
            break;
          default:
            block = {
              ...block,
              cuts: block.cuts.map((cut, i) => (i === k ? { ...cut, id: `n${edit}` } : cut)),
            };
        }
        expect({ seed, edit, plan: piece(block, options, memory) }).toEqual({
          seed,
          edit,
          plan: piece(block, options),
        });
      }
    }
  });

  it('remembers drawings that cannot be divided as well, each with its own reason', () => {
    const memory = pieceMemory();
    const square = painted(3);
    const bad = (x: number): Block => ({
      ...square,
      outline: [
        [0, 0],
        [x, 0],
        [0, 5],
      ],
    });
    for (const x of [Number.NaN, Number.POSITIVE_INFINITY, Number.NaN])
      expect(piece(bad(x), {}, memory)).toEqual(piece(bad(x)));
    expect(memory.runs()).toEqual({ division: 2, assembly: 0, orders: 0, findings: 0 });
  });

  it('lets go of what was pieced longest ago, and never of the newest', () => {
    const [a, b, c] = [painted(11), painted(12), painted(13)];
    const patches = (block: Block): number => piece(block).patches.length;
    const memory = pieceMemory(patches(b) + patches(c));
    for (const block of [a, b, c]) piece(block, {}, memory);
    const then = memory.runs().division;
    piece(b, {}, memory);
    piece(c, {}, memory);
    expect(memory.runs().division).toBe(then);
    piece(a, {}, memory);
    expect(memory.runs().division).toBe(then + 1);
    const tiny = pieceMemory(1);
    piece(a, {}, tiny);
    piece(a, {}, tiny);
    expect(tiny.runs().division).toBe(1);
  });
});
