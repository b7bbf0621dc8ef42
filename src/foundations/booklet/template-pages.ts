import { phrase } from '../../words/phrase.ts';
import { blockEdges } from '../foundation/laid-patches.ts';
import { PT, placeMark } from '../marks.ts';
import { TILE_WORDS, testSquare } from '../sheet/band.ts';
import { DEFAULT_NESTING, fillSheets } from '../sheet/filling.ts';
import { fitsSheet, type Rectangle } from '../sheet/level-packing.ts';
import type { Part } from '../sheet/sheet.ts';
import { tileGrid, tileSize } from '../sheet/tile-grid.ts';
import { tileHead } from '../sheet/tile-head.ts';
import { tilesOf } from '../sheet/tiles.ts';
import type { Typeface } from '../type/typeface.ts';
import type { BlockWork } from './block-work.ts';
import {
  CAPTION_IN,
  type Drawn,
  drawTemplate,
  sidesOf,
  slantOf,
  TILE_HEAD_IN,
  tileRoom,
} from './draw-template.ts';
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
import { templatesOf } from './templates.ts';

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
  const title = phrase('{blockName}: cutting templates', { blockName: block.blockName });
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
  const pieces = drawn.flatMap((one, i) => {
    const shapes = piecesOf(one, room, typeface);
    const tileOf = shapes.length > 1 ? String(i) : null;
    return shapes.map((shape) => ({ shape, tileOf }));
  });
  const pages: Part[][] = [];
  const laid = fillSheets(
    pieces.map((piece) => ({ ...piece, group: block.blockId, copy: 1 })),
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
      marks: pieces[i]!.shape.marks,
      placement: { ...placement, at: [frame.x + x, frame.y + headHeight + y] },
      paper: null,
    });
  }
  return pages.map((parts): PageDraft => ({ part: 'templates', block: block.blockId, title, page, parts }));
}

/** Test square, which side is shown, which line is which, and where there are tiles, how they are laid together. */
function footOf(
  { allowance, unit }: BlockWork,
  width: number,
  { typeface }: PageSetting,
  hasTiles: boolean,
): FlowItem {
  const x = 1.2;
  const words = together([
    ...paragraph(
      typeface,
      phrase(
        'Not mirrored: as the finished front is seen. Lay them on the right side of the fabric, or turned over on its wrong side.',
      ),
      STRONG,
      width - x,
    ),
    ...paragraph(
      typeface,
      allowance > 0
        ? phrase('Cut on the dashed line; the solid line is the seam. Arrows run along the straight grain.')
        : phrase('No allowance is drawn: the solid line is the seam. Arrows run along the straight grain.'),
      { ...BODY, points: 9 },
      width - x,
      0.03,
    ),
    ...paragraph(
      typeface,
      unit === 'mm'
        ? phrase(
            'Print at actual size, 100%, then measure the square. If it measures 23.8 mm, the viewer shrank the page to fit: print again.',
          )
        : phrase(
            'Print at actual size, 100%, then measure the square. If it measures 15/16 in, the viewer shrank the page to fit: print again.',
          ),
      { ...BODY, points: 9 },
      width - x,
      0.03,
    ),
    ...(hasTiles ? paragraph(typeface, TILE_WORDS, { ...BODY, points: 9 }, width - x, 0.03) : []),
  ]);
  return {
    height: Math.max(1.04, words.height),
    space: 0,
    marks: [...testSquare([0.02, 0.02], typeface, unit), ...moved(words.marks, [x, 0])],
  };
}

/** A template as it is laid: itself, or where it is larger than a page its tiles, each with its words over it. */
function piecesOf(drawn: Drawn, room: Rectangle, typeface: Typeface): readonly Drawn[] {
  if (fitsSheet(drawn, room)) return [drawn];
  const edges = drawn.marks.flatMap((mark) =>
    mark.kind === 'polygon' && mark.pen === 'edge' ? [mark.ring] : [],
  );
  const grid = { ...tileGrid(drawn, tileRoom(room)), lines: sidesOf(edges) };
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
