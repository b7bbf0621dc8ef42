import { describe, expect, it } from 'vitest';
import type { Block, Project } from '../../src/document/project.ts';
import { formNamed } from '../../src/editing/forms/forms.ts';
import {
  boxOfPart,
  partAt,
  partFromText,
  partOfCuts,
  partOfPatch,
  partToText,
  placePart,
} from '../../src/editing/part.ts';
import { piece } from '../../src/piecing/piece.ts';
import { projectWith, WINDOW } from '../editing/window.ts';

/** A red diamond with a seam across it, in the middle of a plain square of 12 in. */
const KITE: Block = {
  ...WINDOW,
  cuts: [
    { id: 'k1', from: [2, 4], to: [4, 2], role: 'auto' },
    { id: 'k2', from: [4, 2], to: [6, 4], role: 'auto' },
    { id: 'k3', from: [6, 4], to: [4, 6], role: 'auto' },
    { id: 'k4', from: [4, 6], to: [2, 4], role: 'auto' },
    { id: 'k5', from: [2, 4], to: [6, 4], role: 'seam' },
  ],
  patches: [
    { id: 'p1', at: [4, 3], fabric: 'red' },
    { id: 'p2', at: [4, 5], fabric: 'blue' },
    { id: 'p3', at: [10, 10], fabric: 'sand' },
  ],
};

const FABRICS = [
  { id: 'red', name: 'Madder', color: '#a6322b' },
  { id: 'blue', name: 'Night', color: '#1f2f55' },
  { id: 'sand', name: 'Sand', color: '#e9dcc3' },
];

const project: Project = { ...projectWith(KITE), fabrics: FABRICS };
const all = KITE.cuts.map(({ id }) => id);

const colours = (of: Project): readonly (string | undefined)[] =>
  piece(of.blocks[0]!)
    .patches.map(({ fabric }) => of.fabrics.find(({ id }) => id === fabric)?.name)
    .toSorted();

describe('a part of a drawing', () => {
  it('has the fabrics of what its cuts enclose, and not those of what lies round it', () => {
    // One more cut in the block, so that it is not the whole drawing.
    const more: Block = {
      ...KITE,
      cuts: [...KITE.cuts, { id: 'x', from: [0, 9], to: [12, 9], role: 'auto' }],
    };
    const part = partOfCuts(more, FABRICS, all);
    expect(part.cuts).toHaveLength(5);
    expect(part.fabrics.map(({ name }) => name).toSorted()).toEqual(['Madder', 'Night']);
    expect(part.patches).toHaveLength(2);
  });

  it('is pasted with its fabrics beside itself, and what was there keeps its own', () => {
    const part = partOfCuts(KITE, FABRICS, all);
    const placed = placePart(project, KITE.id, partAt(part, 4, [9, 9]));
    expect(placed.fabrics).toBe(project.fabrics);
    expect(colours(placed)).toEqual(['Madder', 'Madder', 'Night', 'Night', 'Sand']);
  });

  it('brings the fabrics that another project lacks, at another size', () => {
    const other = projectWith({ ...WINDOW, cuts: [], patches: [] });
    const bare: Project = { ...other, fabrics: [] };
    const part = partOfCuts(KITE, FABRICS, all.slice(0, 5));
    const small = partAt(part, 2, [6, 6]);
    const { minX, maxX, minY, maxY } = boxOfPart(small);
    expect([minX, maxX, minY, maxY]).toEqual([5, 7, 5, 7]);
    const placed = placePart(bare, WINDOW.id, small);
    expect(placed.fabrics.map(({ name }) => name)).toEqual(expect.arrayContaining(['Madder', 'Night']));
    expect(colours(placed)).toEqual(expect.arrayContaining(['Madder', 'Night']));
  });

  it('may be one patch, its sides as cuts', () => {
    const part = partOfPatch(KITE, FABRICS, [4, 3])!;
    expect(part.cuts).toHaveLength(3);
    expect(part.fabrics).toEqual([{ name: 'Madder', color: '#a6322b' }]);
    expect(partOfPatch(KITE, FABRICS, [40, 3])).toBeNull();
  });

  it('is the same after being written out and read', () => {
    const part = partOfCuts(KITE, FABRICS, all);
    expect(partFromText(partToText(part))).toEqual(part);
  });

  it('reads hostile texts without their nonsense', () => {
    const cuts = '"cuts":[{"from":[0,0],"to":[1,1]}]';
    expect(
      partFromText(
        `{"format":"underpaper-cuts",${cuts},"fabrics":[{"name":"A","color":"#000000"}],"patches":[{"ring":[[0,0],[1,0]],"fabric":0},{"ring":[[0,0],[1,0],[1,1]],"fabric":7},null]}`,
      ),
    ).toMatchObject({ patches: [] });
    expect(
      partFromText(`{"format":"underpaper-cuts",${cuts},"fabrics":[{"name":"A","color":"url(x)"}]}`),
    ).toMatchObject({ fabrics: [] });
  });

  it('of a whole drawing is laid with its ground where nothing is drawn yet', () => {
    const empty: Project = { ...project, blocks: [{ ...KITE, cuts: [], patches: [] }] };
    const placed = placePart(empty, KITE.id, partOfCuts(KITE, FABRICS, all));
    expect(colours(placed)).toEqual(['Madder', 'Night', 'Sand']);
  });

  // The four touch at their corners and enclose a square of the ground.
  it('is repeated round the middle with its fabrics', () => {
    const { block, ...target } = {
      block: KITE,
      unit: 'in' as const,
      cuts: KITE.cuts,
      chosen: null,
      patch: null,
      gridIn: 0,
      crosshair: null,
    };
    const work = formNamed('repeat')!.work({ block, ...target }, { fold: '4' });
    expect(work.ok).toBe(true);
    const repeated = work.ok ? work.change(project) : project;
    expect(colours(repeated)).toEqual([
      ...Array(4).fill('Madder'),
      ...Array(4).fill('Night'),
      'Sand',
      'Sand',
    ]);
  });
});
