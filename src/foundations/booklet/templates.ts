import { type Area, holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { boxOf, distance } from '../../geometry/ring.ts';
import type { Patch } from '../../piecing/plan.ts';
import { corners, holeTrimLine, trimLine } from '../foundation/allowance.ts';
import { grainArrow } from '../foundation/arrows.ts';
import { blockEdges } from '../foundation/draw-foundation.ts';
import { Ground, type LabelBox } from '../foundation/ground.ts';
import { SMALLEST_PT, stack } from '../foundation/label-request.ts';
import { spotsOver } from '../foundation/patch-labels.ts';
import { type Mark, PT, placeMark } from '../marks.ts';
import { TILE_WORDS, testSquare } from '../sheet/band.ts';
import { DEFAULT_NESTING, fillSheets, type SheetShape } from '../sheet/filling.ts';
import { fitsSheet, type Rectangle } from '../sheet/level-packing.ts';
import type { Part } from '../sheet/sheets.ts';
import { alignmentCrosses, tileBarriers, tileGrid, tileHead, tileSize, tilesOf } from '../sheet/tiles.ts';
import { blockMarks, type TextBlock, wrapped } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import { type BlockWork, type FabricWork, fabricWords } from './block-work.ts';
import {
  BODY,
  type FlowItem,
  fullFrame,
  HEADING,
  moved,
  oneLine,
  type PageDraft,
  type PageSetting,
  paragraph,
  SMALL,
  STRONG,
  together,
} from './flow.ts';

/** A shape to cut, and all the patches that have it. */
export interface Template {
  /** As the finished front shows it, without allowance, where the first of its patches lies. */
  readonly patch: Patch;
  /** Ids of patches that are this shape, turned by quarters or not at all; never its mirror image. */
  readonly patches: readonly string[];
  readonly fabric: FabricWork | null;
}

/** Corners closer than this count as the same: 1/250 in, about a tenth of a millimetre. */
const SAME_IN = 1 / 250;

/**
 * The templates of a block: patches of one shape and one fabric share one. Turned by quarters counts as the same,
 * since the straight grain then still runs along the sides of the block; a mirror image does not.
 */
export function templatesOf({ plan, fabrics }: BlockWork): readonly Template[] {
  const found: { patch: Patch; patches: string[]; fabric: FabricWork | null }[] = [];
  for (const patch of plan.patches) {
    const same = found.find((one) => one.patch.fabric === patch.fabric && hasSameShape(one.patch, patch));
    if (same) same.patches.push(patch.id);
    else
      found.push({
        patch,
        patches: [patch.id],
        fabric: fabrics.find(({ id }) => id === patch.fabric) ?? null,
      });
  }
  return found;
}

function hasSameShape(a: Patch, b: Patch): boolean {
  if (a.holes.length > 0 || b.holes.length > 0) return false;
  const [p, q] = [corners(a.polygon), corners(b.polygon)];
  if (p.length !== q.length) return false;
  const turns: readonly ((point: Point) => Point)[] = [
    ([x, y]) => [x, y],
    ([x, y]) => [-y, x],
    ([x, y]) => [-x, -y],
    ([x, y]) => [y, -x],
  ];
  return turns.some((turn) => {
    const turned = q.map(turn);
    return turned.some((_, k) => {
      const dx = p[0]![0] - turned[k]![0];
      const dy = p[0]![1] - turned[k]![1];
      return p.every((corner, i) => {
        const [x, y] = turned[(i + k) % turned.length]!;
        return distance(corner, [x + dx, y + dy]) <= SAME_IN;
      });
    });
  });
}

const TILE_HEAD_IN = 0.17;
/** Narrowest column of words under a template, inches. */
const CAPTION_IN = 1.25;

interface Drawn extends SheetShape {
  readonly marks: readonly Mark[];
  /** What a tile of it says: the name of its fabric, and what comes after that, the fullest wording first. */
  readonly fabricName: string;
  readonly rest: readonly string[];
}

/** How much trying for fewer pages is allowed, see `nest`: about a tenth of a second a block. */
const EFFORT = 1e7;

/**
 * Cutting templates of every patch at true scale with its allowance, as the finished front is seen (not mirrored),
 * laid on the fewest pages found. What each is for stands in it, so that it is still known when it is cut out, or
 * under it where it has no room for words. One larger than a page comes in tiles.
 */
export function templatePages(block: BlockWork, setting: PageSetting): readonly PageDraft[] {
  const { typeface, page } = setting;
  const frame = fullFrame(setting);
  const title = `${block.blockName}: cutting templates`;
  const head = paragraph(typeface, title, HEADING, frame.width);
  const headHeight = head.reduce((sum, { height }) => sum + height, 0) + 0.12;
  const templates = templatesOf(block);
  const roomOver = (foot: FlowItem): Rectangle => ({
    width: frame.width,
    height: frame.height - foot.height - headHeight - 0.12,
  });
  const edgeOf = blockEdges(block.plan);
  const drawnFor = (room: Rectangle): readonly Drawn[] =>
    room.height < 1 || room.width < 1
      ? []
      : templates.map((template) =>
          drawTemplate(template, slantOf(edgeOf(template.patch)), block, room, typeface),
        );
  const plain = footOf(block, frame.width, setting, false);
  const untiled = drawnFor(roomOver(plain));
  const hasTiles = untiled.some((one) => !fitsSheet(one, roomOver(plain)));
  const foot = hasTiles ? footOf(block, frame.width, setting, true) : plain;
  const room = roomOver(foot);
  const drawn = hasTiles ? drawnFor(room) : untiled;
  if (room.height < 1 || room.width < 1) return [];
  const pieces = drawn.flatMap((one) => piecesOf(one, room, typeface));
  const pages: Part[][] = [];
  const laid = fillSheets(
    pieces.map((shape) => ({ shape, group: block.blockId, copy: 1 })),
    room,
    { ...DEFAULT_NESTING, effort: EFFORT },
  );
  for (const [i, { sheet, placement }] of laid.entries()) {
    pages[sheet] ??= [
      { marks: together(head).marks, placement: { at: [frame.x, frame.y], quarterTurns: 0 }, paper: null },
      {
        marks: foot.marks,
        placement: { at: [frame.x, frame.y + frame.height - foot.height], quarterTurns: 0 },
        paper: null,
      },
    ];
    const [x, y] = placement.at;
    pages[sheet].push({
      marks: pieces[i]!.marks,
      placement: { ...placement, at: [frame.x + x, frame.y + headHeight + y] },
      paper: null,
    });
  }
  return pages.map((parts): PageDraft => ({ part: 'templates', block: block.blockId, title, page, parts }));
}

/** Test square, which side is shown, which line is which, and where there are tiles, how they are laid together. */
function footOf(
  { allowance }: BlockWork,
  width: number,
  { typeface }: PageSetting,
  hasTiles: boolean,
): FlowItem {
  const x = 1.2;
  const words = together([
    ...paragraph(
      typeface,
      'Not mirrored: as the finished front is seen. Lay them on the right side of the fabric, or turned over on its wrong side.',
      STRONG,
      width - x,
    ),
    ...paragraph(
      typeface,
      allowance > 0
        ? 'Cut on the dashed line; the solid line is the seam. Arrows run along the straight grain.'
        : 'No allowance is drawn: the solid line is the seam. Arrows run along the straight grain.',
      { ...BODY, points: 9 },
      width - x,
      0.03,
    ),
    ...paragraph(
      typeface,
      'Print at actual size, 100 %, then measure the square. If it measures 15/16 in, the viewer shrank the page to fit: print again.',
      { ...BODY, points: 9 },
      width - x,
      0.03,
    ),
    ...(hasTiles ? paragraph(typeface, TILE_WORDS, { ...BODY, points: 9 }, width - x, 0.03) : []),
  ]);
  return {
    height: Math.max(1.04, words.height),
    space: 0,
    marks: [...testSquare([0.02, 0.02], typeface), ...moved(words.marks, [x, 0])],
  };
}

/** A direction that runs aslant to the block; null for a level or upright one, and for none. */
const slantOf = (edge: Point | null): Point | null =>
  edge && Math.min(Math.abs(edge[0]), Math.abs(edge[1])) > SAME_IN ? edge : null;

/**
 * `slant` is the direction of the edge of the block that the patch lies on where that is not level or upright: the
 * straight grain runs along it. Of all other patches it runs level.
 */
function drawTemplate(
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
      ? `${patches.slice(0, 11).join(' ')} and ${patches.length - 11} more`
      : patches.join(' ');
  const fabricName = fabric ? fabricWords(fabric) : 'No fabric yet';
  const known = { fabricName, rest: [`, ${ids}. Cut ${count}.`, `, ${ids}`], isStraight: true };
  const size: Rectangle = { width: box.maxX - box.minX, height: box.maxY - box.minY };

  // The number as large as may be; smaller words only where the larger ones have no room.
  const settings = [SMALL.points, LEAST_WORDS_PT].flatMap((points) => {
    const words = [...(patches.length > 1 ? [ids] : []), fabricName].flatMap((text) =>
      wrapped(typeface, { text, face: 'regular', size: points * PT }, WORDS_IN),
    );
    return [16, 12, 9].map((number) =>
      stack(typeface, [
        [id, 'semibold', number],
        ...[...words, `Cut ${count}`].map((text) => [text, 'regular', points] as const),
      ]),
    );
  });
  const inside = insideMarks(area, settings, [0.4, 0.25], slant, size, room);
  if (inside) return { ...known, ...size, rings: [placed(trim)], marks: [...lines, ...inside] };

  const width = Math.max(CAPTION_IN, size.width);
  // A number alone on the next line would be overlooked.
  const caption = together(paragraph(typeface, `${fabricName}, ${ids}. Cut\u00a0${count}.`, SMALL, width));
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
  for (const ring of [area.polygon, ...area.holes])
    ring.forEach((a, i) => {
      ground.addLine([a, ring[(i + 1) % ring.length]!]);
    });
  if (!fitsSheet(size, room)) {
    const grid = tileGrid(size, tileRoom(room));
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

/** A level line with a head at both ends. */
function arrow([x0, y]: Point, [x1]: Point): Mark[] {
  const head = (x: number, back: number): Mark => ({
    kind: 'line',
    pen: 'tick',
    points: [
      [x + back, y - ARROW_HEAD_IN],
      [x, y],
      [x + back, y + ARROW_HEAD_IN],
    ],
  });
  return [
    {
      kind: 'line',
      pen: 'tick',
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
const tileRoom = ({ width, height }: Rectangle): Rectangle => ({ width, height: height - TILE_HEAD_IN });

/** A template as it is laid: itself, or where it is larger than a page its tiles, each with its words over it. */
function piecesOf(drawn: Drawn, room: Rectangle, typeface: Typeface): readonly Drawn[] {
  if (fitsSheet(drawn, room)) return [drawn];
  const grid = tileGrid(drawn, tileRoom(room));
  const size = tileSize(drawn, grid);
  const tiles = tilesOf(drawn.marks, drawn, grid, typeface);
  return tiles.map((tile, i): Drawn => {
    // The block's name stands at the head of the page; the fabric's may be shortened.
    const text = tileHead(
      typeface,
      { face: SMALL.face, size: SMALL.points * PT },
      { number: i + 1, of: tiles.length, row: tile.row, column: tile.column },
      drawn.fabricName,
      drawn.rest,
      Math.max(CAPTION_IN, size.width),
    );
    const head = oneLine(typeface, text, SMALL, Math.max(CAPTION_IN, size.width));
    const width = Math.max(CAPTION_IN, size.width);
    const height = size.height + TILE_HEAD_IN;
    return {
      width,
      height,
      rings: [
        [
          [0, 0],
          [width, 0],
          [width, height],
          [0, height],
        ],
      ],
      isStraight: true,
      fabricName: drawn.fabricName,
      rest: drawn.rest,
      marks: [
        ...head.marks,
        ...tile.marks.map((mark) => placeMark(mark, { at: [0, TILE_HEAD_IN], quarterTurns: 0 })),
      ],
    };
  });
}
