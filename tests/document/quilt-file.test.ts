import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { removeBlock } from '../../src/document/edit-block.ts';
import { copiesInHand, takeInHand } from '../../src/document/edit-copies.ts';
import { removeFabric, swapFabrics } from '../../src/document/edit-fabrics.ts';
import {
  addPlace,
  changeQuilt,
  fillPlaces,
  mirrorPlaces,
  movePlaces,
  removePlaces,
  swapPlaces,
  turnPlaces,
} from '../../src/document/edit-quilt.ts';
import { moveSeamEnd } from '../../src/document/edit-seam-end.ts';
import { openFile } from '../../src/document/file.ts';
import { polygonOf } from '../../src/document/place-polygon.ts';
import type { Project } from '../../src/document/project.ts';
import type { Place } from '../../src/document/quilt.ts';
import { copiesForQuilts, makeCopyBlocks } from '../../src/document/recoloured-blocks.ts';
import { toText } from '../../src/document/to-text.ts';
import { blockMade, blocksToMake, turnedOverId } from '../../src/document/turned-over.ts';
import type { Point } from '../../src/geometry/point.ts';

const square = (side: number) => [
  [0, 0],
  [side, 0],
  [side, side],
  [0, side],
];

const file = (quilt: unknown) =>
  JSON.stringify({
    format: 'underpaper',
    version: 2,
    name: 'Harbour quilt',
    fabrics: [
      { id: 'f1', name: 'Night sea', color: '#1b3050' },
      { id: 'f2', name: 'Foam', color: '#f5f2e8' },
    ],
    blocks: [
      { id: 'b1', name: 'Gull', outline: square(6) },
      {
        id: 'b2',
        name: 'Ferry',
        outline: [
          [0, 0],
          [12, 0],
          [12, 6],
          [0, 6],
        ],
      },
    ],
    quilt,
  });

function open(quilt: unknown): Project {
  const opened = openFile(file(quilt));
  if (!opened.ok) throw new Error(opened.error.message);
  return opened.project;
}

const said = (quilt: unknown): string => {
  const opened = openFile(file(quilt));
  return opened.ok ? 'opened' : opened.error.message;
};

const PLACES = [
  { id: 'p1', block: 'b1', at: [0, 0], turn: 1, mirrored: true },
  { id: 'p2', fabric: 'f1', at: [6, 0], size: [6, 6] },
  { id: 'p3', block: 'b2', at: [0, 6] },
  { id: 'p4', fabric: 'f2', at: [0, 12], size: [12, 2], part: 'border' },
];

describe('a file with a quilt', () => {
  it('comes back as it was, its unknown keys too', () => {
    const quilt = {
      places: [
        ...PLACES,
        {
          id: 'p5',
          at: [0, 14],
          size: [3, 3],
          shape: [
            [0, 0],
            [3, 0],
            [0, 3],
          ],
          note: 'mine',
        },
      ],
      module: 3,
      setting: {
        kind: 'straight',
        columns: 2,
        rows: 2,
        cell: [6, 6],
        sashing: { width: 1, cornerstones: true, outside: false, fabric: 'f1' },
      },
      borders: [{ width: 2, corners: 'mitred', fabric: 'f2' }],
      joining: 'rows',
      units: [['p1', 'p2']],
      copies: [{ fabrics: { f1: 'f2' } }],
      finishing: { binding: { width: 2.25, isBias: true, fabric: 'f1' }, label: { size: [5, 3] } },
      layouts: [{ name: 'Other', places: PLACES.slice(0, 2) }],
      futureKey: { any: [1, 2] },
    };
    const project = open(quilt);
    const again = openFile(toText(project));
    expect(again.ok && again.project).toEqual(project);
    expect(toText(project)).toContain('"futureKey"');
    expect(toText(project)).toContain('"note": "mine"');
    expect(project.quilt!.places[2]).toEqual({ id: 'p3', block: 'b2', at: [0, 6], turn: 0, mirrored: false });
  });

  it('without the key means what it meant', () => {
    const project = open(undefined);
    expect('quilt' in project).toBe(false);
    expect(toText(project)).not.toContain('"quilt"');
  });

  it('a stored file opens to its one canonical form', () => {
    const sample = (form: string): string =>
      readFileSync(new URL(`./samples/quilt${form}.underpaper.json`, import.meta.url), 'utf8');
    const opened = openFile(sample(''));
    expect(opened.ok && toText(opened.project)).toBe(sample('.canonical'));
  });

  it.each([
    [
      'a block that is not there',
      { places: [{ id: 'p1', block: 'b9', at: [0, 0] }] },
      'Place 1: the block ‘b9’ is not in the list of blocks.',
    ],
    [
      'a fabric that is not there',
      { places: [{ id: 'p1', fabric: 'f9', at: [0, 0], size: [1, 1] }] },
      'Place 1: the fabric ‘f9’ is not in the list of fabrics.',
    ],
    [
      'neither block nor size',
      { places: [{ id: 'p1', at: [0, 0], fabric: 'f1' }] },
      'Place 1 has neither a block nor a size.',
    ],
    [
      'both',
      { places: [{ id: 'p1', at: [0, 0], block: 'b1', size: [6, 6] }] },
      'Place 1 has both a block and a size of its own.',
    ],
    [
      'an id twice',
      { places: [PLACES[0], { ...PLACES[1], id: 'p1' }] },
      'Place 2: the id ‘p1’ is already that of place 1.',
    ],
    [
      'a turn between',
      { places: [{ ...PLACES[0], turn: 0.25 }] },
      'Place 1: the turn is not 0, 1, 2 or 3, or half way between.',
    ],
    [
      'a size of nothing',
      { places: [{ ...PLACES[1], size: [0, 6] }] },
      'Place 1: the size is not greater than 0.',
    ],
    ['not a number', { places: [{ ...PLACES[1], at: [null, 6] }] }, 'Place 1: the spot is not a number.'],
    [
      'a shape that crosses itself',
      {
        places: [
          {
            ...PLACES[1],
            shape: [
              [0, 0],
              [6, 6],
              [6, 0],
              [0, 6],
            ],
          },
        ],
      },
      'Place 1: the shape is no outline, or reaches beyond its size.',
    ],
    [
      'a border wider than the quilt',
      { places: PLACES, borders: [{ width: 13, corners: 'butted' }] },
      'Border 1 is wider than the quilt itself.',
    ],
    [
      'a border of a block that is not there',
      { places: PLACES, borders: [{ width: 2, corners: 'butted', block: 'b7' }] },
      'Border 1: the block ‘b7’ is not in the list of blocks.',
    ],
    [
      'a unit of places that are not there',
      { places: PLACES, units: [['p1', 'p8']] },
      'Unit 1 holds ‘p8’, which is no place of the quilt.',
    ],
    [
      'too many places',
      { places: Array.from({ length: 2001 }, (_, k) => ({ ...PLACES[1], id: `p${k}` })) },
      'The list of places holds 2,001, more than the 2,000 allowed.',
    ],
    ['no list', { places: 'all' }, 'The list of places is not a list.'],
    ['no record', [], 'The quilt is not a record in braces.'],
    [
      'a quilt larger than any',
      { places: [PLACES[1], { ...PLACES[1], id: 'q', at: [600, 0] }] },
      'The list of places reaches over more than 500 in.',
    ],
  ])('says what is wrong with %s', (_, quilt, message) => {
    expect(said(quilt)).toBe(message);
  });

  it('opens with places that overlap, with none, and with 2,000', () => {
    expect(said({ places: [] })).toBe('opened');
    expect(said({ places: [PLACES[1], { ...PLACES[1], id: 'p9', at: [7, 1] }] })).toBe('opened');
    expect(
      said({
        places: Array.from({ length: 2000 }, (_, k) => ({
          ...PLACES[1],
          id: `p${k}`,
          at: [(k % 50) * 6, Math.floor(k / 50) * 6],
        })),
      }),
    ).toBe('opened');
  });
});

describe('edits of a quilt', () => {
  const project = open({ places: PLACES });
  const corners = (of: Project, id: string): Point[] => {
    const place = of.quilt!.places.find((one) => one.id === id)!;
    return [...polygonOf(place, (block) => of.blocks.find((one) => one.id === block)!.outline)];
  };
  const place = (of: Project, id: string): Place => of.quilt!.places.find((one) => one.id === id)!;

  it('a block that goes leaves its places plain and empty, as large as they were', () => {
    const without = removeBlock(project, 'b2');
    expect(place(without, 'p3')).toEqual({ id: 'p3', at: [0, 6], size: [12, 6] });
    expect(place(without, 'p1')).toEqual(place(project, 'p1'));
    expect(openFile(toText(without)).ok).toBe(true);
  });

  it('a fabric that goes leaves its places without one, and swapped fabrics change there too', () => {
    const without = removeFabric(project, 'f1');
    expect(place(without, 'p2')).toEqual({ id: 'p2', at: [6, 0], size: [6, 6] });
    expect(openFile(toText(without)).ok).toBe(true);
    const swapped = swapFabrics(project, 'f1', 'f2');
    expect(place(swapped, 'p2')).toMatchObject({ fabric: 'f2' });
    expect(place(swapped, 'p4')).toMatchObject({ fabric: 'f1' });
  });

  it('turned four times, mirrored twice, moved there and back: as before', () => {
    const ids = new Set(['p1', 'p3']);
    let turned = project;
    for (let k = 0; k < 4; k++) turned = turnPlaces(turned, ids, 1);
    expect(turned.quilt!.places).toEqual(project.quilt!.places);
    expect(mirrorPlaces(mirrorPlaces(project, ids), ids).quilt!.places).toEqual(project.quilt!.places);
    expect(movePlaces(movePlaces(project, ids, [3, -2]), ids, [-3, 2]).quilt!.places).toEqual(
      project.quilt!.places,
    );
  });

  it('a quarter turn of a 12 × 6 block is 6 × 12, and its corner stays', () => {
    const turned = turnPlaces(project, new Set(['p3']), 1);
    expect(corners(turned, 'p3').sort()).toEqual(
      [
        [0, 18],
        [0, 6],
        [6, 18],
        [6, 6],
      ].sort(),
    );
  });

  it('places of one size swap what lies in them, others swap where they lie', () => {
    const same = swapPlaces(project, 'p1', 'p2');
    expect(place(same, 'p1')).toMatchObject({ fabric: 'f1', at: [0, 0] });
    expect(place(same, 'p2')).toMatchObject({ block: 'b1', turn: 1, mirrored: true, at: [6, 0] });
    const other = swapPlaces(project, 'p1', 'p3');
    expect(place(other, 'p1')).toMatchObject({ block: 'b1', at: [0, 6] });
    expect(place(other, 'p3')).toMatchObject({ block: 'b2', at: [0, 0] });
  });

  it('a block fills places of its size, turned where only that fits, and no others', () => {
    const filled = fillPlaces(project, new Set(['p1', 'p2', 'p4']), {
      block: 'b1',
      turn: 0,
      mirrored: false,
    });
    expect(place(filled, 'p2')).toEqual({ id: 'p2', block: 'b1', at: [6, 0], turn: 0, mirrored: false });
    expect(place(filled, 'p4')).toEqual(place(project, 'p4'));
    const upright = open({ places: [{ id: 'p1', at: [0, 0], size: [6, 12] }] });
    const laid = fillPlaces(upright, new Set(['p1']), { block: 'b2', turn: 0, mirrored: false });
    expect(place(laid, 'p1')).toMatchObject({ block: 'b2', turn: 1 });
  });

  it('what moves lies free: no setting describes it any longer; units lose places that are gone', () => {
    const set = changeQuilt(project, (quilt) => ({
      ...quilt,
      setting: { kind: 'straight', columns: 2, rows: 2, cell: [6, 6] },
      units: [
        ['p1', 'p2'],
        ['p2', 'p3', 'p4'],
      ],
    }));
    expect(movePlaces(set, new Set(['p1']), [1, 0]).quilt!.setting).toBeUndefined();
    expect(turnPlaces(set, new Set(['p1']), 1).quilt!.setting).toBeDefined();
    expect(removePlaces(set, new Set(['p1'])).quilt!.units).toEqual([['p2', 'p3', 'p4']]);
    expect(addPlace(set, { at: [20, 0], size: [6, 6] }).quilt!.places.at(-1)).toMatchObject({ id: 'p5' });
  });

  it('nothing to do gives the same project back', () => {
    expect(movePlaces(project, new Set(['p1']), [0, 0])).toBe(project);
    expect(removePlaces(project, new Set(['nobody']))).toBe(project);
    expect(swapPlaces(project, 'p1', 'nobody')).toBe(project);
    expect(turnPlaces(project, new Set(), 1)).toBe(project);
  });
});

describe('quilts made beside the first', () => {
  const project = open({
    places: [
      { id: 'p1', block: 'b1', at: [0, 0] },
      { id: 'p2', block: 'b1', at: [6, 0], mirrored: true },
      { id: 'p3', block: 'b2', at: [0, 6] },
    ],
    copies: [{ fabrics: {} }, { fabrics: { f1: 'f2' } }],
  });
  const counts = (of: Project): Record<string, number> => Object.fromEntries(copiesForQuilts(of));

  it('are counted through: three quilts of two and one', () => {
    expect(counts(project)).toEqual({ b1: 3, [turnedOverId('b1')]: 3, b2: 3 });
  });

  it('in other fabrics have blocks of their own, counted by themselves', () => {
    const made = makeCopyBlocks(project, 1);
    expect(made.blocks.map(({ name }) => name)).toEqual(['Gull', 'Gull, quilt 3', 'Ferry', 'Ferry, quilt 3']);
    expect(counts(made)).toEqual({
      b1: 2,
      [turnedOverId('b1')]: 2,
      b2: 2,
      b3: 1,
      [turnedOverId('b3')]: 1,
      b4: 1,
    });
    expect(counts(removeBlock(made, 'b4'))).toEqual({
      b1: 2,
      [turnedOverId('b1')]: 2,
      b2: 3,
      b3: 1,
      [turnedOverId('b3')]: 1,
    });
    const again = openFile(toText(made));
    expect(again.ok && again.project).toEqual(made);
    // In the same fabrics, or made already: nothing to do.
    expect(makeCopyBlocks(project, 0)).toBe(project);
    expect(makeCopyBlocks(made, 1)).toBe(made);
  });

  it('mirrored places are made turned over: counted by themselves, in hand, and gone with their block', () => {
    const over = turnedOverId('b1');
    expect(blocksToMake(project).map(({ id }) => id)).toEqual(['b1', over, 'b2']);
    expect(blockMade(project, over)!.name).toBe('Gull, mirrored');
    const taken = takeInHand(project, new Map([[over, 3]]));
    expect(copiesInHand(taken)).toEqual(new Map([[over, 3]]));
    const again = openFile(toText(taken));
    expect(again.ok && copiesInHand(again.project)).toEqual(new Map([[over, 3]]));
    expect(copiesInHand(removeBlock(taken, 'b1'))).toEqual(new Map());
    expect(blockMade(removeBlock(taken, 'b1'), over)).toBeNull();
  });
});

describe('a seam’s end moved along the edge of its block', () => {
  const project = open({ places: [] });
  const withCut: Project = {
    ...project,
    blocks: project.blocks.map((block) =>
      block.id === 'b1'
        ? { ...block, cuts: [{ id: 'c1', from: [0, 2], to: [6, 2], role: 'auto' as const }] }
        : block,
    ),
  };

  it('takes the cut with it, and nothing where no cut ends or the spot lies on no side', () => {
    const moved = moveSeamEnd(withCut, 'b1', [6, 2], [6, 2.125]);
    expect(moved.blocks[0]!.cuts[0]).toMatchObject({ from: [0, 2], to: [6, 2.125] });
    expect(moveSeamEnd(withCut, 'b1', [6, 3], [6, 2.125])).toBe(withCut);
    expect(moveSeamEnd(withCut, 'b1', [6, 2], [5, 2.125])).toBe(withCut);
  });
});
