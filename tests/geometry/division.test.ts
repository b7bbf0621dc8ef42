import { describe, expect, it } from 'vitest';
import { type Division, divide, loopFrom, OUTSIDE, ringOf } from '../../src/geometry/division.ts';
import type { Stray } from '../../src/geometry/noding.ts';
import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import { type Design, designOf } from '../designs/designs.ts';
import { areaOf, distanceToStretch } from '../designs/plane.ts';
import { polygonizerFaces } from '../designs/polygonizer-peer.ts';

const SQUARE: Ring = [
  [0, 0],
  [6, 0],
  [6, 6],
  [0, 6],
];

function divided(outline: Ring, lines: readonly Segment[]): Division {
  const result = divide(outline, lines);
  if (!result.ok) throw new Error(`not divided: ${result.fault}`);
  return result.division;
}

const linesOf = (design: Design): Segment[] => design.block.cuts.map((cut): Segment => [cut.from, cut.to]);

/** Area of each face, islands taken out. Loops round islands turn the other way, so theirs count negative. */
const faceAreas = (division: Division): number[] =>
  division.faces.map((face) =>
    [face.edge, ...face.islands].reduce((sum, h) => sum + areaOf(ringOf(division, h)), 0),
  );

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

describe('a crossing that touches the outline', () => {
  // 0.001 in is half of what counts as touching (0.05 mm).
  it.each([
    ['within', 0.001],
    ['beyond', -0.001],
  ])('is put on it from %s, and the outline stays straight', (_, y) => {
    const past = 0.0004;
    const { vertices, origin, face } = divided(SQUARE, [
      [
        [1, y + 2],
        [3 + past, y - past],
      ],
      [
        [5, y + 2],
        [3 - past, y - past],
      ],
    ]);
    const rim = vertices.filter((_, v) => origin.some((o, h) => o === v && face[h] === OUTSIDE));
    const tip = rim.filter(([x]) => Math.abs(x - 3) < 0.01);
    expect(tip.length).toBeGreaterThan(0);
    expect(tip.map(([, height]) => height)).toEqual(tip.map(() => 0));
  });
});

describe('the division of seeded designs', () => {
  const designs = Array.from({ length: 300 }, (_, i) => designOf(i + 1));
  const divisions = designs.map((design) => divided(design.block.outline, linesOf(design)));
  const each = (check: (division: Division, design: Design) => void): void => {
    for (const [i, design] of designs.entries()) check(divisions[i]!, design);
  };

  it('has areas that add up to the outline, none of them empty or negative', () => {
    each((division, design) => {
      const areas = faceAreas(division);
      const rim = sum(
        design.block.outline.map((p, i, all) =>
          Math.hypot(p[0] - all.at(i - 1)![0], p[1] - all.at(i - 1)![1]),
        ),
      );
      expect(Math.min(...areas), `seed ${design.seed}`).toBeGreaterThan(0);
      expect(Math.abs(sum(areas) - design.area), `seed ${design.seed}`).toBeLessThan(rim / 65536);
    });
  });

  it("holds Euler's formula: vertices - edges + faces = connected parts, the outside left out", () => {
    each((division, design) => {
      const used = new Set(division.origin);
      const edges = division.origin.length / 2;
      const parent = new Map<number, number>();
      const find = (v: number): number => {
        const up = parent.get(v) ?? v;
        return up === v ? v : find(up);
      };
      for (let e = 0; e < edges; e++)
        parent.set(find(division.origin[2 * e]!), find(division.origin[2 * e + 1]!));
      const parts = new Set([...used].map(find)).size;
      expect(used.size - edges + division.faces.length, `seed ${design.seed}`).toBe(parts);
      expect(parts).toBe(1);
    });
  });

  it('has neighbours that agree: twins run against each other, loops close, every half-edge has its place', () => {
    each((division, design) => {
      const { origin, next, previous, face, vertices } = division;
      const wrong: string[] = [];
      const seen = new Uint8Array(origin.length);
      for (const [n, f] of division.faces.entries()) {
        for (const h of [f.edge, ...f.islands].flatMap((start) => loopFrom(division, start))) {
          if (face[h] !== n) wrong.push(`half-edge ${h} stands in the loop of face ${n}`);
          if (seen[h]) wrong.push(`half-edge ${h} stands in two loops`);
          seen[h] = 1;
        }
      }
      for (let h = 0; h < origin.length; h++) {
        if (previous[next[h]!] !== h) wrong.push(`after ${h}: previous is not before`);
        if (origin[next[h]!] !== origin[h ^ 1]) wrong.push(`after ${h}: starts elsewhere`);
        if (origin[h] === origin[h ^ 1]) wrong.push(`half-edge ${h} has no length`);
        if ((face[h] !== OUTSIDE) !== (seen[h] === 1)) wrong.push(`half-edge ${h} is in no loop of its face`);
        if (face[h] === face[h ^ 1]) wrong.push(`half-edge ${h} has one face on both sides`);
        if (face[next[h]!] !== face[h]) wrong.push(`after ${h}: another face`);
      }
      const used = new Set(origin);
      if (new Set([...used].map((v) => vertices[v]!.join())).size !== used.size)
        wrong.push('a vertex made twice');
      expect({ seed: design.seed, wrong }).toEqual({ seed: design.seed, wrong: [] });
    });
  });

  it('knows the line of every edge, and no edge strays more than 0.1 mm from it', () => {
    each((division, design) => {
      const { outline, cuts } = design.block;
      const turned = areaOf(outline) < 0;
      for (let e = 0; e < division.line.length; e++) {
        const l = division.line[e]!;
        const a = division.vertices[division.origin[2 * e]!]!;
        const b = division.vertices[division.origin[2 * e + 1]!]!;
        const isRim = division.face[2 * e] === OUTSIDE || division.face[2 * e + 1] === OUTSIDE;
        expect(l < 0, `seed ${design.seed}`).toBe(isRim);
        if (l < 0 && turned) continue;
        const [from, to]: Segment =
          l < 0 ? [outline[-1 - l]!, outline[-l % outline.length]!] : [cuts[l]!.from, cuts[l]!.to];
        for (const end of [a, b]) {
          expect(distanceToStretch(end, from, to) * 25.4, `seed ${design.seed}`).toBeLessThan(0.1);
        }
      }
    });
  });

  it('has faces that are simple: no two sides cross', () => {
    const side = (p: Point, q: Point, r: Point): number =>
      Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
    each((division, design) => {
      for (const face of division.faces) {
        const ring = ringOf(division, face.edge);
        for (let i = 0; i < ring.length; i++) {
          for (let j = i + 2; j < ring.length; j++) {
            const [a, b, c, d] = [ring[i]!, ring[i + 1]!, ring[j]!, ring[(j + 1) % ring.length]!];
            const isCrossed = side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
            expect(isCrossed, `seed ${design.seed}`).toBe(false);
          }
        }
      }
    });
  });

  it('has no strays where every end meets a line', () => {
    each((division, design) => {
      const strays = division.strays.filter((stray) => stray.kind !== 'overlap');
      expect({ seed: design.seed, strays }).toEqual({ seed: design.seed, strays: [] });
    });
  });

  it('does not depend on the way the outline turns', () => {
    each((division, design) => {
      const mirrored = divided([...design.block.outline].reverse(), linesOf(design));
      const areas = (d: Division): string[] =>
        faceAreas(d)
          .map((area) => area.toFixed(6))
          .sort();
      expect(areas(mirrored), `seed ${design.seed}`).toEqual(areas(division));
    });
  });
});

describe('the same faces as the JSTS Polygonizer finds', () => {
  it('on 250 seeded designs: number and areas', () => {
    for (let seed = 501; seed <= 750; seed++) {
      const design = designOf(seed, { endErrors: 'none' });
      const ours = faceAreas(divided(design.block.outline, linesOf(design))).sort((a, b) => b - a);
      const theirs = polygonizerFaces(design.block.outline, linesOf(design)).areas;
      expect(ours.length, `seed ${seed}`).toBe(theirs.length);
      for (const [i, area] of ours.entries()) expect(area, `seed ${seed}`).toBeCloseTo(theirs[i]!, 3);
    }
  });

  it('on lines thrown at random, loose ends and all', () => {
    let compared = 0;
    for (let seed = 1; seed <= 80; seed++) {
      // Lines of one design drawn into the outline of another: they stop and start anywhere.
      const { outline } = designOf(seed, { kind: 'chords', patches: [5, 10] }).block;
      const lines = linesOf(designOf(seed + 1000, { kind: 'lines', patches: [8, 20], endErrors: 'none' }));
      if (nearlyMeets(outline, lines)) continue;
      compared++;
      const peer = polygonizerFaces(outline, lines);
      const inside = faceAreas(divided(outline, lines)).sort((a, b) => b - a);
      // The Polygonizer also makes faces outside the outline: those we find must be among its own.
      const left = [...peer.areas];
      for (const area of inside) {
        const match = left.findIndex((other) => Math.abs(other - area) < 1e-3);
        expect(match, `seed ${seed}, a face of ${area} sq in`).toBeGreaterThanOrEqual(0);
        left.splice(match, 1);
      }
      expect(sum(inside)).toBeCloseTo(Math.abs(areaOf(outline)), 3);
    }
    expect(compared).toBeGreaterThan(50);
  });

  /** Does some end lie close to a line without lying on it? There the touch tolerance makes a meeting of it. */
  function nearlyMeets(outline: Ring, lines: readonly Segment[]): boolean {
    const rim = outline.map((p, i): Segment => [p, outline[(i + 1) % outline.length]!]);
    const all = [...rim, ...lines];
    return all.some((line) =>
      all.flat().some((end) => {
        const near = distanceToStretch(end, ...line);
        return near > 1e-4 && near < 0.01;
      }),
    );
  }
});

describe('what divides nothing', () => {
  /** Strays without the plain fact of their line, for short tables. */
  const straysOf = (...lines: Segment[]): Stray[] => [...divided(SQUARE, lines).strays];
  const faces = (...lines: Segment[]): number => divided(SQUARE, lines).faces.length;

  it('a loose end is told with the place of its end', () => {
    const lines: Segment[] = [
      [
        [0, 3],
        [6, 3],
      ],
      [
        [2, 0],
        [2, 4],
      ],
    ];
    expect(faces(...lines)).toBe(3);
    expect(straysOf(...lines)).toEqual([{ kind: 'loose-end', line: 1, other: null, at: [2, 4] }]);
  });

  it('both loose ends of one line are told', () => {
    const lines: Segment[] = [
      [
        [0, 2],
        [6, 2],
      ],
      [
        [0, 4],
        [6, 4],
      ],
      [
        [3, 1],
        [3, 5],
      ],
    ];
    expect(faces(...lines)).toBe(4);
    expect(straysOf(...lines).map((stray) => [stray.kind, stray.line, ...stray.at])).toEqual([
      ['loose-end', 2, 3, 1],
      ['loose-end', 2, 3, 5],
    ]);
  });

  it('a line that touches nothing, or one thing, is idle', () => {
    expect(
      straysOf([
        [1, 1],
        [5, 5],
      ]),
    ).toEqual([{ kind: 'idle', line: 0, other: null, at: [3, 3] }]);
    expect(
      straysOf([
        [0, 3],
        [4, 3],
      ]),
    ).toEqual([{ kind: 'idle', line: 0, other: null, at: [2, 3] }]);
    expect(
      faces([
        [0, 3],
        [4, 3],
      ]),
    ).toBe(1);
  });

  it('a line on another line is an overlap, in the middle of what they share', () => {
    const lines: Segment[] = [
      [
        [0, 3],
        [6, 3],
      ],
      [
        [1, 3],
        [5, 3],
      ],
    ];
    expect(faces(...lines)).toBe(2);
    const [stray, ...more] = straysOf(...lines);
    expect(more).toEqual([]);
    expect(stray).toMatchObject({ kind: 'overlap', line: 1, other: 0 });
    expect(distanceToStretch(stray!.at, [1, 3], [5, 3])).toBeLessThan(1e-4);
  });

  it('a line 0.04 mm beside another lies on it; one 0.4 mm beside does not', () => {
    const beside = (mm: number): Segment[] => [
      [
        [0, 3],
        [6, 3],
      ],
      [
        [0, 3 + mm / 25.4],
        [6, 3 + mm / 25.4],
      ],
    ];
    expect(faces(...beside(0.04))).toBe(2);
    expect(straysOf(...beside(0.04)).map((stray) => stray.kind)).toEqual(['overlap']);
    expect(faces(...beside(0.4))).toBe(3);
    expect(straysOf(...beside(0.4))).toEqual([]);
  });

  it('a line on the outline is an overlap with no other line', () => {
    const [stray, ...more] = straysOf([
      [1, 0],
      [5, 0],
    ]);
    expect(more).toEqual([]);
    expect(stray).toMatchObject({ kind: 'overlap', line: 0, other: null });
    expect(stray!.at[1]).toBe(0);
  });

  it('a line outside is outside; one that runs on past the outline divides what it crosses', () => {
    expect(
      straysOf([
        [7, 1],
        [9, 5],
      ]),
    ).toEqual([{ kind: 'outside', line: 0, other: null, at: [8, 3] }]);
    expect(
      straysOf([
        [-100, 300],
        [-200, 100],
      ]).map((stray) => stray.kind),
    ).toEqual(['outside']);
    const through: Segment = [
      [-1, 3],
      [8, 3],
    ];
    expect(faces(through)).toBe(2);
    const strays = straysOf(through);
    expect(new Set(strays.map((stray) => stray.kind))).toEqual(new Set(['past-outline']));
    for (const { at } of strays) expect([0, 6]).toContain(at[0]);
    const [out] = straysOf(
      [
        [2, 3],
        [8, 3],
      ],
      [
        [2, 0],
        [2, 6],
      ],
    );
    expect(out).toEqual({ kind: 'past-outline', line: 0, other: null, at: [6, 3] });
  });

  it('a line of no length is too short, and one that is no number is told', () => {
    expect(
      straysOf([
        [3, 3],
        [3, 3],
      ]),
    ).toEqual([{ kind: 'too-short', line: 0, other: null, at: [3, 3] }]);
    const strange = [
      [
        [Number.NaN, 3],
        [6, 3],
      ],
      [
        [0, 3],
        [6, Number.POSITIVE_INFINITY],
      ],
    ] as const;
    for (const line of strange) expect(straysOf(line).map((stray) => stray.kind)).toEqual(['not-a-number']);
  });

  it('every stray has a place that can be shown, whatever is drawn', () => {
    for (let seed = 1; seed <= 80; seed++) {
      const lines = linesOf(designOf(seed, { patches: [10, 40] }));
      for (const { at } of divided(SQUARE, lines).strays) expect(at.every(Number.isFinite)).toBe(true);
    }
  });
});

describe('ends that nearly meet', () => {
  const gapped = (mm: number): Division =>
    divided(SQUARE, [
      [
        [0, 3],
        [6, 3],
      ],
      [
        [2, 0],
        [2, 3 - mm / 25.4],
      ],
    ]);

  it('0.04 mm short or past is a T-junction that stands in all faces round it', () => {
    for (const mm of [0.04, -0.04, 0.01, 0]) {
      const division = gapped(mm);
      expect(division.faces.length).toBe(3);
      expect(division.strays).toEqual([]);
      const below = division.faces
        .map((face) => ringOf(division, face.edge))
        .find((ring) => ring.some((p) => p[1] === 6))!;
      expect(below.filter((p) => p[0] === 2 && Math.abs(p[1] - 3) < 0.001).length).toBe(1);
    }
  });

  it('0.2 mm short or past is a loose end', () => {
    expect(gapped(0.2).faces.length).toBe(2);
    expect(gapped(0.2).strays.map((stray) => stray.kind)).toEqual(['idle']);
    expect(gapped(-0.2).faces.length).toBe(3);
    expect(gapped(-0.2).strays.map((stray) => stray.kind)).toEqual(['loose-end']);
  });

  it('close to a sharp corner touch the nearer side, and leave the corner where it is', () => {
    const outline: Ring = [
      [1.907867431640625, -0.8269195556640625],
      [2.7801055908203125, 4.09259033203125],
      [-0.8269195556640625, 2.092132568359375],
    ];
    const cut: Segment = [
      [1.9072806258469557, -0.826869983451925],
      [0.17618152332550838, 2.19213915925187],
    ];
    const division = divided(outline, [cut]);
    expect(sum(faceAreas(division))).toBeCloseTo(areaOf(outline), 6);
    expect(division.strays.map(({ kind, line }) => ({ kind, line }))).toEqual([{ kind: 'idle', line: 0 }]);
    // Right across the tip, so close to it that both crossings are one spot.
    const tip: Segment = [
      [1.9, -0.8252],
      [1.92, -0.8258],
    ];
    expect(divide(outline, [tip]).ok).toBe(true);
  });

  it('lines through one spot make one vertex there', () => {
    const spokes = Array.from({ length: 6 }, (_, i): Segment => {
      const angle = 0.3 + (i * Math.PI) / 6;
      const [x, y] = [10 * Math.cos(angle), 10 * Math.sin(angle)];
      return [
        [3 - x, 3 - y],
        [3 + x, 3 + y],
      ];
    });
    const division = divided(SQUARE, spokes);
    expect(division.faces.length).toBe(12);
    const middle = division.vertices.filter((p) => Math.hypot(p[0] - 3, p[1] - 3) < 0.1);
    expect(middle.length).toBe(1);
  });
});

describe('islands', () => {
  const box = (x: number, y: number, size: number): Segment[] => [
    [
      [x, y],
      [x + size, y],
    ],
    [
      [x + size, y],
      [x + size, y + size],
    ],
    [
      [x + size, y + size],
      [x, y + size],
    ],
    [
      [x, y + size],
      [x, y],
    ],
  ];

  it('are faces of their own, and holes in the face around them', () => {
    const division = divided(SQUARE, [...box(1, 1, 1), ...box(3, 3, 2), ...box(3.5, 3.5, 1)]);
    expect(faceAreas(division).sort((a, b) => a - b)).toEqual([1, 1, 3, 31]);
    const host = division.faces.find((face) => face.islands.length === 2)!;
    for (const h of host.islands) expect(areaOf(ringOf(division, h))).toBeLessThan(0);
  });

  it('joined to the rest by a line in the middle of nowhere stay islands, and the line is told', () => {
    const division = divided(SQUARE, [
      ...box(2, 2, 2),
      [
        [0, 3],
        [2, 3],
      ],
    ]);
    expect(faceAreas(division).sort((a, b) => a - b)).toEqual([4, 32]);
    expect(division.strays.map((stray) => stray.line)).toEqual([4]);
  });
});
