import { describe, expect, it } from 'vitest';
import { duplicateBlock } from '../../src/document/edit-block.ts';
import { moveCorner, scaleBlock, setOutline } from '../../src/document/edit-outline.ts';
import {
  fadePicture,
  layPicture,
  lockPicture,
  removeUnderPicture,
  showPicture,
  squarePicture,
} from '../../src/document/edit-picture.ts';
import { MIRRORS, turnBlock, turnBy } from '../../src/document/edit-turn.ts';
import { drawBlock, toSvgPicture } from '../../src/document/export-block.ts';
import { openFile } from '../../src/document/file.ts';
import type { Project, UnderPicture } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { cornersOfBox, isSquarable, UNDER_PICTURE_LETTERS } from '../../src/document/under-picture.ts';
import { type Quad, seen, viewOf } from '../../src/geometry/homography.ts';
import type { Point } from '../../src/geometry/point.ts';
import { boxOf, distance } from '../../src/geometry/ring.ts';
import { piece } from '../../src/piecing/piece.ts';
import { blockOf, frozen, harbour } from './projects.ts';

/** A photo of a sheet on a table, its far side smaller. */
const photo: UnderPicture = frozen({
  data: `data:image/jpeg;base64,${'Z3VsbCEh'.repeat(20)}`,
  width: 1600,
  height: 1200,
  corners: [
    [400, 200],
    [1200, 200],
    [1500, 1100],
    [100, 1100],
  ],
  strength: 0.5,
  shown: true,
  locked: false,
});

const laid = frozen(layPicture(harbour, 'b1', photo));
const pictureOf = (project: Project): UnderPicture => blockOf(project).picture!;

/** The place of the picture that lies at a place of the block. */
function under(project: Project, at: Point): Point {
  const { outline, picture } = blockOf(project);
  return seen(viewOf(cornersOfBox(boxOf(outline)), picture!.corners), at);
}

describe('a picture under a block', () => {
  it('is laid, faded, hidden, squared up anew and taken away', () => {
    expect(pictureOf(laid)).toEqual(photo);
    expect(pictureOf(fadePicture(laid, 'b1', 0.25)).strength).toBe(0.25);
    expect(pictureOf(showPicture(laid, 'b1', false)).shown).toBe(false);
    const corners: Quad = [
      [0, 0],
      [1600, 0],
      [1600, 1200],
      [0, 1200],
    ];
    expect(pictureOf(squarePicture(laid, 'b1', corners)).corners).toEqual(corners);
    expect(removeUnderPicture(laid, 'b1')).toEqual(harbour);
    expect(blockOf(laid, 'b2')).toBe(harbour.blocks[1]);
  });

  it('changes nothing about how the block is sewn', () => {
    expect(piece(blockOf(laid))).toEqual(piece(blockOf(harbour)));
  });

  it('is in no picture of the block that is taken elsewhere', () => {
    for (const kind of ['lines', 'colours'] as const) {
      const text = toSvgPicture(drawBlock(blockOf(laid), laid.fabrics, kind, 6), 'Window');
      expect(text).toBe(toSvgPicture(drawBlock(blockOf(harbour), harbour.fabrics, kind, 6), 'Window'));
    }
  });

  it('gives the same project back where there is nothing to do or nothing that can be done', () => {
    const dented: Quad = [photo.corners[0], photo.corners[2], photo.corners[1], photo.corners[3]];
    expect(fadePicture(laid, 'b1', 0.5)).toBe(laid);
    expect(fadePicture(laid, 'b1', 1.5)).toBe(laid);
    expect(showPicture(laid, 'b1', true)).toBe(laid);
    expect(squarePicture(laid, 'b1', dented)).toBe(laid);
    expect(removeUnderPicture(harbour, 'b1')).toBe(harbour);
    expect(showPicture(harbour, 'b1', false)).toBe(harbour);
    const bad: readonly Partial<UnderPicture>[] = [
      { data: 'data:image/svg+xml;base64,PHN2Zz4=' },
      { data: 'https://example.org/gull.png' },
      { data: `data:image/png;base64,${'AAAA'.repeat(UNDER_PICTURE_LETTERS / 4)}` },
      { width: 0 },
      { height: 20_000 },
      { corners: dented },
    ];
    for (const wrong of bad) expect(layPicture(harbour, 'b1', { ...photo, ...wrong })).toBe(harbour);
  });

  it('is not changed by mistake while it is locked', () => {
    const locked = lockPicture(laid, 'b1', true);
    expect(removeUnderPicture(locked, 'b1')).toBe(locked);
    expect(layPicture(locked, 'b1', { ...photo, width: 800 })).toBe(locked);
    expect(
      squarePicture(locked, 'b1', [...photo.corners.slice(1), photo.corners[0]] as unknown as Quad),
    ).toBe(locked);
    expect(lockPicture(locked, 'b1', false)).toEqual(laid);
  });

  it('has room for so many, and a copy of a block goes without where there is none', () => {
    const large = { ...photo, data: `data:image/png;base64,${'AAAA'.repeat(975_000)}` };
    let project = layPicture(harbour, 'b1', large);
    for (let copies = 0; copies < 6; copies++) project = duplicateBlock(project, 'b1');
    const kept = project.blocks.filter(({ picture }) => picture !== undefined);
    expect(kept).toHaveLength(4);
    expect(layPicture(project, 'b2', large)).toBe(project);
    const text = toText(project);
    expect(text.length).toBeLessThan(50_000_000);
    expect(openFile(text)).toEqual({ ok: true, project });
  });
});

describe('the picture stays under the lines that were traced from it', () => {
  // A spot of the block and where it is after each edit, worked out by hand for a square of 12 in at [0, 0].
  const spot: Point = [3, 2];
  const before = under(laid, spot);

  it.each([
    ['left', turnBy(90), [2, 9]],
    ['right', turnBy(-90), [10, 3]],
    ['upside down', turnBy(180), [9, 10]],
    ['left and right', MIRRORS.upright, [9, 2]],
    ['top and bottom', MIRRORS.level, [3, 10]],
  ] as const)('turned or mirrored: %s', (_, turn, at) => {
    expect(distance(under(turnBlock(laid, 'b1', turn), at), before)).toBeLessThan(0.01);
  });

  it('four times turned, or twice mirrored, exactly', () => {
    let project = laid;
    for (let step = 0; step < 4; step++) project = turnBlock(project, 'b1', turnBy(90));
    expect(pictureOf(project)).toEqual(photo);
    const twice = turnBlock(turnBlock(laid, 'b1', MIRRORS.upright), 'b1', MIRRORS.upright);
    expect(pictureOf(twice)).toEqual(photo);
  });

  it('resized with its drawing', () => {
    const scaled = scaleBlock(laid, 'b1', 0.5);
    expect(distance(under(scaled, [1.5, 1]), before)).toBeLessThan(1e-9);
  });

  it('given another outline', () => {
    const moved = moveCorner(laid, 'b1', 1, [13, -1]);
    expect(boxOf(blockOf(moved).outline)).toEqual({ minX: 0, minY: -1, maxX: 13, maxY: 12 });
    expect(distance(under(moved, spot), before)).toBeLessThan(0.05);
    const back = moveCorner(moved, 'b1', 1, [12, 0]);
    pictureOf(back).corners.forEach((corner, k) => {
      expect(distance(corner, photo.corners[k]!)).toBeLessThan(0.05);
    });
  });

  it('or follows an outline that would reach beyond the horizon of the photo', () => {
    const far = setOutline(laid, 'b1', [
      [0, 0],
      [12, 0],
      [12, 400],
      [0, 400],
    ]);
    expect(pictureOf(far).corners).toEqual(photo.corners);
  });
});

describe('in a file', () => {
  it('a picture is kept, what is usual left out', () => {
    const project = fadePicture(laid, 'b1', 0.6);
    const text = toText(project);
    expect(text).not.toContain('strength');
    expect(openFile(text)).toEqual({ ok: true, project });
    const all = lockPicture(showPicture(laid, 'b1', false), 'b1', true);
    expect(openFile(toText(all))).toEqual({ ok: true, project: all });
    expect(toText(harbour)).not.toContain('picture');
  });

  it.each([
    [photo.data, 'data:image/svg+xml;base64,PHN2Zz4=', /data of the picture is not a PNG, JPEG or WebP/],
    [photo.data, 'javascript:alert(1)', /data of the picture is not a PNG, JPEG or WebP/],
    ['"width": 1600', '"width": 20000', /width of the picture is not a whole number from 1 to 4,096/],
    ['[400,200]', '[1500,1100]', /corners in the picture do not make a shape/],
    ['[400,200]', '[400]', /corners in the picture/],
    ['"strength": 0.5', '"strength": 7', /strength of the picture is not between 0 and 1/],
  ])('%s as %s is refused in words', (from, to, sentence) => {
    const text = toText(laid);
    expect(text).toContain(from);
    expect(openFile(text.replace(from, to))).toMatchObject({
      ok: false,
      error: { message: sentence, place: 'Block 1 ‘Harbour window’' },
    });
  });
});

it('corners that nearly lie on one line cannot be squared up', () => {
  expect(isSquarable(photo.corners)).toBe(true);
  expect(
    isSquarable([
      [0, 0],
      [1000, 0.2],
      [2000, 0],
      [1000, 900],
    ]),
  ).toBe(false);
  expect(isSquarable([[Number.POSITIVE_INFINITY, 0], ...photo.corners.slice(1)] as unknown as Quad)).toBe(
    false,
  );
});
