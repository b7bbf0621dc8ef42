import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import { makingOf } from '../../src/making/making.ts';
import { type CheckedReport, pastSeam, pieceFaults, reportFaults } from '../checker/check-cutting.ts';
import { underpaperHere, Workbench } from './command-line.ts';

const bench = new Workbench();
afterAll(() => bench.clear());

const DEMO = fileURLToPath(new URL('../../public/demo/harbour-sampler.underpaper.json', import.meta.url));

function demo() {
  const opened = openFile(readFileSync(DEMO, 'utf8'));
  if (!opened.ok) throw new Error(opened.error.message);
  return opened.project;
}

const square = (side: number, fabric: string, cuts: readonly object[] = []) =>
  JSON.stringify({
    format: 'underpaper',
    version: 1,
    name: 'One square',
    fabrics: [{ id: fabric, name: 'Sail', color: '#ffffff' }],
    blocks: [
      {
        id: 'b1',
        name: 'Pane',
        outline: [
          [0, 0],
          [side, 0],
          [side, side],
          [0, side],
        ],
        cuts,
        paint: [{ at: [side / 3, side / 4], fabric }],
      },
    ],
  });

describe('cutting', () => {
  it('of the demo in two copies: every piece covers, every strip adds up', async () => {
    const { status, out, err } = await underpaperHere('cutting', DEMO, '--json', '--copies', '2');
    expect(err).toBe('');
    expect(status).toBe(0);
    const report = JSON.parse(out) as CheckedReport;
    const project = demo();
    const made = makingOf(project);
    const patches = made.flatMap(({ block, plan }) =>
      plan.patches.map((patch) => ({ block: block.id, patch })),
    );
    expect(
      reportFaults(
        report,
        patches.map(({ block, patch }) => ({ block, patch: patch.id, copies: 2 })),
      ),
    ).toEqual([]);
    for (const [i, { block, patch }] of patches.entries()) {
      const piece = report.pieces[i]!;
      expect([piece.block, piece.patch, piece.fabric]).toEqual([block, patch.id, patch.fabric]);
      const allowance = project.seamAllowance;
      expect(pieceFaults(piece.shape, piece.cut, { ...patch, allowance }), `${block} ${patch.id}`).toEqual(
        [],
      );
      if (patch.seam)
        expect(pastSeam(piece.shape, patch.polygon, patch.seam), `${block} ${patch.id}`).toBeCloseTo(
          allowance,
          3,
        );
    }
  });

  it('says the arithmetic in words', async () => {
    const file = bench.file('square.json', square(4, 'f1'));
    const { status, out } = await underpaperHere('cutting', file);
    expect(status).toBe(0);
    // 4 in and half an inch on every side: 5 in, one strip; 5 / 36 is 0.139 yd.
    expect(out).toContain('1 strip × 5 in = 5 in');
    expect(out).toContain('÷ 36 = 0.139 yd, rounded up to an eighth: 1/4 yd');
    expect(out).toContain('5 in × 5 in: b1 A1 copy 1');
  });

  it('takes blocks, ease, rounding and width', async () => {
    const file = bench.file('square.json', square(4, 'f1'));
    const report = async (...args: string[]): Promise<CheckedReport> =>
      JSON.parse((await underpaperHere('cutting', file, '--json', ...args)).out);
    expect((await report('--ease', '1/8')).pieces[0]!.cut.width).toBe(4.75);
    expect((await report('--ease', '1/2')).pieces[0]!.cut.width).toBe(5.5);
    expect((await report('--ease', '1/8', '--round', '1')).pieces[0]!.cut.width).toBe(5);
    expect((await report('--width', '106')).fabrics[0]!.usableWidth).toBe(106);
    expect((await report('--copies', '9', '--width', '42')).fabrics[0]!.length).toBe(10);
  });

  it('counts the whole quilt: mirrored places turned over, its plain cloth, and what is at hand first', async () => {
    const project = {
      ...JSON.parse(square(4, 'f1')),
      cutting: { stockFirst: false },
      quilt: {
        places: [
          { id: 'p1', block: 'b1', at: [0, 0] },
          { id: 'p2', block: 'b1', at: [4, 0], mirrored: true },
          { id: 'p3', fabric: 'f1', at: [0, 4], size: [8, 2] },
        ],
      },
    };
    project.fabrics[0].atHand = { pieces: [{ width: 12, height: 3, count: 1 }] };
    const file = bench.file('quilt.json', JSON.stringify(project));
    const { status, out, err } = await underpaperHere('cutting', file, '--quilt', '--at-hand', '--json');
    expect(err).toBe('');
    expect(status).toBe(0);
    const { fabrics } = JSON.parse(out) as {
      fabrics: (CheckedReport['fabrics'][number] & {
        fromStock?: { strips: { cuts: { what?: string }[] }[] }[];
      })[];
    };
    const own = fabrics.find(({ fabric }) => fabric === 'f1')!;
    // One square as it is drawn and one turned over, both 5 in; the strip of 8 1/2 × 2 1/2 in comes from what is there.
    expect(own.strips.flatMap(({ cuts }) => cuts.flatMap((cut) => cut.for))).toEqual([
      ['b1', 'A1', 1],
      ['b1~', 'A1', 1],
    ]);
    expect(own.length).toBe(5);
    expect(
      own.fromStock!.flatMap(({ strips }) => strips.flatMap(({ cuts }) => cuts.map((cut) => cut.what))),
    ).toEqual(['Plain pieces']);
    // Binding and backing have no fabric yet.
    expect(fabrics.some(({ fabric }) => fabric === null)).toBe(true);
    expect((await underpaperHere('cutting', file, '--quilt', '--copies', '2')).status).toBe(2);
    expect((await underpaperHere('cutting', bench.file('s.json', square(4, 'f1')), '--quilt')).status).toBe(
      1,
    );
  });

  it('refuses in one line', async () => {
    const file = bench.file('square.json', square(4, 'f1'));
    for (const [args, status] of [
      [['--copies', '0'], 2],
      [['--copies', '-1'], 2],
      [['--ease', 'much'], 2],
      [['--ease', '-1/4'], 2],
      [['--width', '0'], 2],
      [['--round', '0'], 2],
      [['--savings', 'most'], 2],
      [['--blocks', 'b9'], 1],
    ] as const) {
      const ended = await underpaperHere('cutting', file, ...args);
      expect(ended.status, args.join(' ')).toBe(status);
      expect(ended.err.trim().split('\n').length, args.join(' ')).toBe(1);
      expect(ended.out).toBe('');
    }
  });

  it('tells of a patch wider than the fabric, and plans the rest', async () => {
    const file = bench.file('large.json', square(50, 'f1'));
    const { status, out, err } = await underpaperHere('cutting', file, '--json');
    expect(status).toBe(1);
    expect(err).toContain('takes a piece of 51 in × 51 in, and ‘Sail’ is only 40 in wide');
    expect(JSON.parse(out).fabrics[0]).toMatchObject({ length: 0, strips: [], tooLarge: [['b1', 'A1']] });
  });

  it('an empty project has nothing to cut', async () => {
    const file = bench.file('empty.json', '{"format":"underpaper","version":1,"name":"Empty","blocks":[]}');
    const { status, out } = await underpaperHere('cutting', file, '--json');
    expect(status).toBe(0);
    expect(JSON.parse(out)).toEqual({ pieces: [], fabrics: [] });
  });
});

it('a size chosen by hand that falls short is cut as chosen, and told', async () => {
  const project = JSON.parse(square(4, 'f1'));
  project.cutting = { sizes: [{ block: 'b1', patch: 'A1', width: 4, height: 5 }] };
  const file = bench.file('by-hand.json', JSON.stringify(project));
  const { status, out, err } = await underpaperHere('cutting', file, '--json');
  expect(status).toBe(0);
  expect(JSON.parse(out).pieces[0].cut).toMatchObject({ width: 4, height: 5 });
  expect(err).toContain('Patch A1 of block b1: the size chosen by hand falls short by 1/4 in.');
});
