import { afterAll, describe, expect, it } from 'vitest';
import { joiningFaults } from '../quilt/check-joining.ts';
import { underpaper, underpaperHere, Workbench } from './command-line.ts';

const bench = new Workbench();
afterAll(() => bench.clear());

const square = (side: number) => [
  [0, 0],
  [side, 0],
  [side, side],
  [0, side],
];

function projectFile(name: string, quilt: unknown): string {
  return bench.file(
    name,
    JSON.stringify({
      format: 'underpaper',
      version: 2,
      name: 'Harbour wall',
      fabrics: [{ id: 'f1', name: 'Foam', color: '#f5f2e8' }],
      blocks: [
        { id: 'b1', name: 'Gull', outline: square(6) },
        { id: 'b2', name: 'Lighthouse', outline: square(12) },
      ],
      ...(quilt === undefined ? {} : { quilt }),
    }),
  );
}

const place = (id: string, block: string, x: number, y: number) => ({ id, block, at: [x, y] });
const mixed = {
  places: [
    place('p1', 'b2', 0, 0),
    place('p2', 'b1', 12, 0),
    place('p3', 'b1', 12, 6),
    { id: 'p4', fabric: 'f1', at: [0, 12], size: [18, 3] },
  ],
};
const windmill = {
  places: [
    [0, 0, 12, 6],
    [12, 0, 6, 12],
    [6, 12, 12, 6],
    [0, 6, 6, 12],
    [6, 6, 6, 6],
  ].map(([x, y, w, h], k) => ({ id: `p${k + 1}`, fabric: 'f1', at: [x, y], size: [w, h] })),
};

describe('quilt --json', () => {
  it('gives size, pieces and steps that join them', async () => {
    const { status, out } = await underpaper('quilt', projectFile('mixed.underpaper.json', mixed), '--json');
    expect(status).toBe(0);
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual(['size', 'pieces', 'steps']);
    expect(report.size).toEqual([18, 15]);
    expect(report.pieces.map(({ id, kind, block }: Record<string, unknown>) => [id, kind, block])).toEqual([
      ['p1', 'block', 'b2'],
      ['p2', 'block', 'b1'],
      ['p3', 'block', 'b1'],
      ['p4', 'plain', null],
    ]);
    expect(
      report.steps.map(({ left, right, kind, seam }: Record<string, unknown>) => [left, right, kind, seam]),
    ).toEqual([
      [
        ['p2'],
        ['p3'],
        'straight',
        [
          [12, 6],
          [18, 6],
        ],
      ],
      [
        ['p1'],
        ['p2', 'p3'],
        'straight',
        [
          [12, 0],
          [12, 12],
        ],
      ],
      [
        ['p1', 'p2', 'p3'],
        ['p4'],
        'straight',
        [
          [0, 12],
          [18, 12],
        ],
      ],
    ]);
    expect(joiningFaults(report.pieces, report.steps)).toEqual([]);
  });

  it.each(['balanced', 'rows', 'columns'])('--plan %s', async (plan) => {
    const { status, out } = await underpaperHere(
      'quilt',
      projectFile('mixed.underpaper.json', mixed),
      '--json',
      '--plan',
      plan,
    );
    expect(status).toBe(0);
    const report = JSON.parse(out);
    expect(joiningFaults(report.pieces, report.steps)).toEqual([]);
  });

  it('a ring has a step that is set in', async () => {
    const { status, out } = await underpaperHere(
      'quilt',
      projectFile('ring.underpaper.json', windmill),
      '--json',
    );
    expect(status).toBe(0);
    const { pieces, steps } = JSON.parse(out);
    expect(steps.some(({ kind }: { kind: string }) => kind === 'set-in')).toBe(true);
    expect(joiningFaults(pieces, steps)).toEqual([]);
  });
});

describe('quilt as text', () => {
  it('names the blocks, the seams with their lengths, and the cures of a ring', async () => {
    const { out } = await underpaperHere('quilt', projectFile('mixed.underpaper.json', mixed));
    expect(out).toContain('Harbour wall: 18 × 15 in, 4 places, 3 seams, all of them straight.');
    expect(out).toContain('  2 × Gull');
    expect(out).toContain('  2. Join 1 and unit 1: vertical seam, 12 in.');
    expect(out).toContain('  Binding: 3 strips 2 1/2 in wide');
    const ring = await underpaperHere('quilt', projectFile('ring.underpaper.json', windmill));
    expect(ring.out).toContain('5 places hold each other in a ring');
    expect(ring.out).toMatch(/set otherwise, 0 are set in/);
  });
});

describe('quilt of what cannot be joined', () => {
  it.each([
    ['no quilt', undefined, 'The project has no quilt.'],
    ['no places', { places: [] }, 'The quilt has no places yet.'],
    [
      'overlaps',
      { places: [place('p1', 'b2', 0, 0), place('p2', 'b1', 9, 0)] },
      'Places 1 and 2 overlap: move one of them, or turn it back.',
    ],
    [
      'places apart',
      { places: [place('p1', 'b1', 0, 0), place('p2', 'b1', 9, 0)] },
      'Some places lie apart from the others: what does not touch cannot be joined.',
    ],
    [
      'a block that is not there',
      { places: [place('p1', 'b9', 0, 0)] },
      'Place 1: the block ‘b9’ is not in the list of blocks.',
    ],
  ])('%s: one line, status 1', async (name, quilt, message) => {
    const path = projectFile(`${name}.underpaper.json`, quilt);
    const { status, out, err } = await underpaperHere('quilt', path, '--json');
    expect(status).toBe(1);
    expect(out).toBe('');
    expect(err).toBe(`${path}: ${message}\n`);
  });

  it('another way of joining is wrong usage', async () => {
    const { status, err } = await underpaperHere('quilt', 'any.json', '--plan', 'spiral');
    expect(status).toBe(2);
    expect(err).toContain('--plan is balanced, rows or columns, not spiral.');
  });
});
