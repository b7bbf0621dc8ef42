import { type Area, holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { corners, holeTrimLine, trimLine } from '../foundation/allowance.ts';
import { grainArrow } from '../foundation/arrows.ts';
import { Ground, type LabelBox } from '../foundation/ground.ts';
import { SMALLEST_PT, stack } from '../foundation/label-request.ts';
import { spotsOver } from '../foundation/patch-labels.ts';
import { type Mark, PT } from '../marks.ts';
import { alignmentCrosses } from '../sheet/crosses.ts';
import type { SheetShape } from '../sheet/filling.ts';
import { fitsSheet, type Rectangle } from '../sheet/level-packing.ts';
import { tileBarriers, tileGrid } from '../sheet/tile-grid.ts';
import { blockMarks, type TextBlock, wrapped } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import { type BlockWork, fabricWords } from './block-work.ts';
import { moved, paragraph, SMALL, together } from './flow.ts';
import { SAME_IN, type Template } from './templates.ts';

export const TILE_HEAD_IN = 0.17;

/** Narrowest column of words under a template, inches. */
export const CAPTION_IN = 1.25;

export interface Drawn extends SheetShape {
  readonly marks: readonly Mark[];
  /** What a tile of it says: the name of its fabric, and what comes after that, the fullest wording first. */
  readonly fabricName: string;
  readonly rest: readonly string[];
}

/** A direction that runs aslant to the block; null for a level or upright one, and for none. */
export const slantOf = (edge: Point | null): Point | null =>
  edge && Math.min(Math.abs(edge[0]), Math.abs(edge[1])) > SAME_IN ? edge : null;

/**
 * `slant` is the direction of the edge of the block that the patch lies on where that is not level or upright: the
 * straight grain runs along it. Of all other patches it runs level.
 */
export function drawTemplate(
  { patch, patches, fabric }: Template,
  slant: Point | null,
  { allowance, copies }: BlockWork,
  room: Rectangle,
  typeface: Typeface,
): Drawn {
  const trim = trimLine(patch.polygon, allowance);
  const box = boxOf(trim);
  const place = ([x, y]: Point): Point => [x - box.minX, y - box.minY];
  const placed = (ring: Ring): Ring => ring.map(place);
  const area = { polygon: placed(corners(patch.polygon)), holes: patch.holes.map(placed) };
  const lines: Mark[] = [area.polygon, ...area.holes].map(
    (ring): Mark => ({ kind: 'polygon', pen: 'edge', ring }),
  );
  if (allowance > 0)
    for (const ring of [
      trim,
      ...patch.holes.map((hole) => holeTrimLine(hole, allowance)).filter((one) => one !== null),
    ])
      lines.push({ kind: 'polygon', pen: 'trim', ring: placed(ring) });

  const id = patches[0]!;
  const count = patches.length * copies;
  const ids =
    patches.length > 12
      ? phrase('{patches} and {patches2} more', {
          patches: patches.slice(0, 11).join(' '),
          patches2: patches.length - 11,
        })
      : patches.join(' ');
  const fabricName = fabric ? fabricWords(fabric) : phrase('No fabric yet');
  const known = {
    fabricName,
    rest: [phrase(', {ids}. Cut {count}.', { ids, count }), `, ${ids}`],
    isStraight: true,
  };
  const size: Rectangle = { width: box.maxX - box.minX, height: box.maxY - box.minY };

  // The number as large as may be; smaller words only where the larger ones have no room.
  const settings = [SMALL.points, LEAST_WORDS_PT].flatMap((points) => {
    const words = [...(patches.length > 1 ? [ids] : []), fabricName].flatMap((text) =>
      wrapped(typeface, { text, face: 'regular', size: points * PT }, WORDS_IN),
    );
    return [16, 12, 9].map((number) =>
      stack(typeface, [
        [id, 'semibold', number],
        ...[...words, phrase('Cut {count}', { count })].map((text) => [text, 'regular', points] as const),
      ]),
    );
  });
  const inside = insideMarks(area, settings, [0.4, 0.25], slant, size, room);
  if (inside) return { ...known, ...size, rings: [placed(trim)], marks: [...lines, ...inside] };

  const width = Math.max(CAPTION_IN, size.width);
  // A number alone on the next line would be overlooked.
  const caption = together(
    paragraph(
      typeface,
      phrase('{fabricName}, {ids}. Cut {count}.', { fabricName, ids, count }),
      SMALL,
      width,
    ),
  );
  const whole: Rectangle = { width, height: size.height + CAPTION_GAP_IN + caption.height };
  const numbers = [16, 12, 9, 7, SMALLEST_PT].map((points) => stack(typeface, [[id, 'semibold', points]]));
  const number =
    insideMarks(area, numbers, [0.4, 0.25, 0.16], slant, whole, room) ??
    insideMarks(area, numbers, [0], null, whole, room) ??
    [];
  const under: Ring = [
    [0, size.height],
    [width, size.height],
    [width, whole.height],
    [0, whole.height],
  ];
  return {
    ...known,
    ...whole,
    rings: [placed(trim), under],
    marks: [...lines, ...number, ...moved(caption.marks, [0, size.height + CAPTION_GAP_IN])],
  };
}

/** Words in a template are no smaller than this, in points. */
const LEAST_WORDS_PT = 7;

/** Lines in a template are no longer than this, inches. */
const WORDS_IN = 1.5;

/** Between a template and the words under it, inches. */
const CAPTION_GAP_IN = 0.03;

/** From the words in a template down to its grain arrow, inches. */
const ARROW_GAP_IN = 0.08;

const ARROW_HEAD_IN = 0.03;

/** Clear space round words and arrow, inches. */
const PAD_IN = 2 * PT;

/**
 * Words inside a patch, and under them the grain arrow: the first of some settings, with an arrow of the first of some
 * half lengths (0 for none), that has a place off every line; where the template comes in tiles, in one tile whole.
 * An arrow aslant stands anywhere beside the words. Null where none has a place.
 */
function insideMarks(
  area: Area,
  settings: readonly TextBlock[],
  halves: readonly number[],
  slant: Point | null,
  size: Rectangle,
  room: Rectangle,
): Mark[] | null {
  const ground = groundIn(area, size, room);
  for (const block of settings)
    for (const half of slant ? [0] : halves) {
      const arrowRoom = half > 0 ? ARROW_GAP_IN + 2 * ARROW_HEAD_IN : 0;
      const width = Math.max(block.width, 2 * half);
      const height = block.height + arrowRoom;
      const boxAt = (middle: Point): LabelBox => ({
        middle,
        halfWidth: width / 2 + PAD_IN,
        halfHeight: height / 2 + PAD_IN,
        turn: 0,
      });
      const at = [...spotsOver(area, { width, height, lines: [] })].find(
        (middle) => holdsPoint(area, middle) && ground.isFree(boxAt(middle)),
      );
      if (!at) continue;
      const words = blockMarks(block, [at[0], at[1] - arrowRoom / 2]);
      if (slant) {
        const beside = ground.copy();
        beside.addLabel(boxAt(at));
        const arrowMarks = grainArrow(beside, { area, grain: slant });
        if (arrowMarks) return [...words, ...arrowMarks];
        continue;
      }
      const arrowY = at[1] + height / 2 - ARROW_HEAD_IN;
      return [...words, ...(half > 0 ? arrow([at[0] - half, arrowY], [at[0] + half, arrowY]) : [])];
    }
  return null;
}

/** What words in a template keep off: its seams, and where it comes in tiles, the sides and crosses of these. */
function groundIn(area: Area, size: Rectangle, room: Rectangle): Ground {
  const ground = new Ground(boxOf(area.polygon));
  const seams = sidesOf([area.polygon, ...area.holes]);
  for (const seam of seams) ground.addLine(seam);
  if (!fitsSheet(size, room)) {
    const grid = { ...tileGrid(size, tileRoom(room)), lines: seams };
    const { barriersX, barriersY } = tileBarriers(grid);
    for (const x of barriersX)
      ground.addBarrier([
        [x, 0],
        [x, size.height],
      ]);
    for (const y of barriersY)
      ground.addBarrier([
        [0, y],
        [size.width, y],
      ]);
    for (const cross of alignmentCrosses(grid)) ground.addLine(cross);
  }
  return ground;
}

export const sidesOf = (rings: readonly Ring[]): Segment[] =>
  rings.flatMap((ring) => ring.map((a, i): Segment => [a, ring[(i + 1) % ring.length]!]));

/** A level line with a head at both ends. */
function arrow([x0, y]: Point, [x1]: Point): Mark[] {
  const head = (x: number, back: number): Mark => ({
    kind: 'line',
    pen: 'grain',
    points: [
      [x + back, y - ARROW_HEAD_IN],
      [x, y],
      [x + back, y + ARROW_HEAD_IN],
    ],
  });
  return [
    {
      kind: 'line',
      pen: 'grain',
      points: [
        [x0, y],
        [x1, y],
      ],
    },
    head(x0, 0.06),
    head(x1, -0.06),
  ];
}

/** Where a tile of a template has room, under its words. */
export const tileRoom = ({ width, height }: Rectangle): Rectangle => ({
  width,
  height: height - TILE_HEAD_IN,
});
