import { innerSpot, levelStretches } from '../geometry/inner-spot.ts';
import type { Point, Ring } from '../geometry/point.ts';
import { boxOf, distance } from '../geometry/ring.ts';
import type { Patch } from '../piecing/plan.ts';
import { corners, holeTrimLine, trimLine } from './allowance.ts';
import { TILE_WORDS, testSquare } from './band.ts';
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
import { Ground } from './ground.ts';
import { boxAround, stack } from './label-request.ts';
import { blockMarks } from './lettering.ts';
import { fitsSheet, layInLevels, type Rectangle } from './level-packing.ts';
import { type Mark, PT, placeMark } from './marks.ts';
import type { Part } from './sheets.ts';
import { tileGrid, tileHead, tileSize, tilesOf } from './tiles.ts';
import type { Typeface } from './typeface.ts';

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

const GAP_IN = 1 / 8;
const TILE_HEAD_IN = 0.17;
/** Narrowest column of words under a template, inches. */
const CAPTION_IN = 1.25;

interface Drawn extends Rectangle {
  readonly marks: readonly Mark[];
  /** What a tile of it says: the name of its fabric, and what comes after that, the fullest wording first. */
  readonly fabricName: string;
  readonly rest: readonly string[];
}

/**
 * Cutting templates of every patch at true scale with its allowance, as the finished front is seen (not mirrored),
 * laid on as few pages as rectangles allow. One larger than a page comes in tiles.
 */
export function templatePages(block: BlockWork, setting: PageSetting): readonly PageDraft[] {
  const { typeface, page } = setting;
  const frame = fullFrame(setting);
  const title = `${block.blockName}: cutting templates`;
  const head = paragraph(typeface, title, HEADING, frame.width);
  const headHeight = head.reduce((sum, { height }) => sum + height, 0) + 0.12;
  const drawn = templatesOf(block).map((template) => drawTemplate(template, block, typeface));
  const roomOver = (foot: FlowItem): Rectangle => ({
    width: frame.width,
    height: frame.height - foot.height - headHeight - 0.12,
  });
  const plain = footOf(block, frame.width, setting, false);
  const hasTiles = drawn.some((one) => !fitsSheet(one, roomOver(plain)));
  const foot = hasTiles ? footOf(block, frame.width, setting, true) : plain;
  const room = roomOver(foot);
  if (room.height < 1 || room.width < 1) return [];
  const pieces = drawn.flatMap((one) => piecesOf(one, room, typeface));
  const pages: Part[][] = [];
  for (const { item, sheet, x, y, turned } of layInLevels(pieces, room, GAP_IN)) {
    const piece = pieces[item]!;
    pages[sheet] ??= [
      { marks: together(head).marks, placement: { at: [frame.x, frame.y], quarterTurns: 0 }, paper: null },
      {
        marks: foot.marks,
        placement: { at: [frame.x, frame.y + frame.height - foot.height], quarterTurns: 0 },
        paper: null,
      },
    ];
    const at: Point = [frame.x + x, frame.y + headHeight + y];
    pages[sheet].push({
      marks: piece.marks,
      placement: turned ? { at: [at[0] + piece.height, at[1]], quarterTurns: 1 } : { at, quarterTurns: 0 },
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
      'Not mirrored: as the finished front is seen. Lay them on the right side of the fabric; turn them over to cut from its wrong side.',
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

function drawTemplate(
  { patch, patches, fabric }: Template,
  { allowance, copies }: BlockWork,
  typeface: Typeface,
): Drawn {
  const trim = trimLine(patch.polygon, allowance);
  const box = boxOf(trim);
  const place = ([x, y]: Point): Point => [x - box.minX, y - box.minY];
  const placed = (ring: Ring): Ring => ring.map(place);
  const holes = patch.holes.map(placed);
  const outline = placed(corners(patch.polygon));
  const marks: Mark[] = [outline, ...holes].map((ring): Mark => ({ kind: 'polygon', pen: 'edge', ring }));
  if (allowance > 0)
    for (const ring of [
      trim,
      ...patch.holes.map((hole) => holeTrimLine(hole, allowance)).filter((one) => one !== null),
    ])
      marks.push({ kind: 'polygon', pen: 'trim', ring: placed(ring) });
  marks.push(...insideMarks(outline, holes, patches[0]!, typeface));

  const width = Math.max(CAPTION_IN, box.maxX - box.minX);
  const count = patches.length * copies;
  const ids =
    patches.length > 12
      ? `${patches.slice(0, 11).join(' ')} and ${patches.length - 11} more`
      : patches.join(' ');
  const fabricName = fabric ? fabricWords(fabric) : 'No fabric yet';
  // A number alone on the next line would be overlooked.
  const words = `${fabricName}. ${ids}. Cut\u00a0${count}.`;
  const caption = together(paragraph(typeface, words, SMALL, width));
  const height = box.maxY - box.minY;
  return {
    width,
    height: height + 0.03 + caption.height,
    marks: [...marks, ...moved(caption.marks, [0, height + 0.03])],
    fabricName,
    rest: [`. ${ids}. Cut ${count}.`, `. ${ids}`],
  };
}

/** The first patch's number inside, and under it the grain arrow, each where there is room. */
function insideMarks(outline: Ring, holes: readonly Ring[], id: string, typeface: Typeface): Mark[] {
  const area = { polygon: outline, holes };
  const spot = innerSpot(area);
  const ground = new Ground(boxOf(outline));
  for (const ring of [outline, ...holes])
    ring.forEach((a, i) => {
      ground.addLine([a, ring[(i + 1) % ring.length]!]);
    });
  const marks: Mark[] = [];
  const arrowY = spot[1] + 0.11;
  for (const points of [16, 12, 9, 7, 6]) {
    const block = stack(typeface, [[id, 'semibold', points]]);
    const one = { block, slot: { at: [spot[0], spot[1] - 0.03] as const, turn: 0 }, pad: 1.5 * PT };
    if (!ground.isFree(boxAround(one))) continue;
    ground.addLabel(boxAround(one));
    marks.push(...blockMarks(block, one.slot.at));
    break;
  }
  const stretch = levelStretches(area, arrowY).find(([from, to]) => from <= spot[0] && spot[0] <= to);
  if (!stretch) return marks;
  const half = Math.min(0.4, spot[0] - stretch[0] - 0.08, stretch[1] - spot[0] - 0.08);
  if (
    half < 0.16 ||
    !ground.isFree({ middle: [spot[0], arrowY], halfWidth: half, halfHeight: 0.03, turn: 0 })
  )
    return marks;
  return [...marks, ...arrow([spot[0] - half, arrowY], [spot[0] + half, arrowY])];
}

/** A level line with a head at both ends. */
function arrow([x0, y]: Point, [x1]: Point): Mark[] {
  const head = (x: number, back: number): Mark => ({
    kind: 'line',
    pen: 'tick',
    points: [
      [x + back, y - 0.03],
      [x, y],
      [x + back, y + 0.03],
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

/** A template as it is laid: itself, or where it is larger than a page its tiles, each with its words over it. */
function piecesOf(drawn: Drawn, room: Rectangle, typeface: Typeface): readonly Drawn[] {
  if (fitsSheet(drawn, room)) return [drawn];
  const grid = tileGrid(drawn, { width: room.width, height: room.height - TILE_HEAD_IN });
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
    return {
      width: size.width,
      height: size.height + TILE_HEAD_IN,
      fabricName: drawn.fabricName,
      rest: drawn.rest,
      marks: [
        ...head.marks,
        ...tile.marks.map((mark) => placeMark(mark, { at: [0, TILE_HEAD_IN], quarterTurns: 0 })),
      ],
    };
  });
}
