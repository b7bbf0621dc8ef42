import type { Page } from '../../document/pages.ts';
import type { Project } from '../../document/project.ts';
import { type PageDraft, type PageSetting, readingFrame } from '../../foundations/booklet/flow.ts';
import type { Sheet } from '../../foundations/sheet/sheet.ts';
import { tileGrid } from '../../foundations/sheet/tile-grid.ts';
import { tilesOf } from '../../foundations/sheet/tiles.ts';
import { phrase } from '../../words/phrase.ts';
import type { Layout } from '../layout.ts';
import { layOut } from '../layout.ts';
import { fitBox, pieceMarks } from './quilt-marks.ts';

/** The picture over as many sheets as it takes, to be trimmed and taped. */
export function posterDrafts(
  project: Project,
  layout: Layout,
  setting: PageSetting,
  width: number,
): PageDraft[] {
  const { typeface, page } = setting;
  const frame = readingFrame(setting);
  const { box, pieces } = layout;
  const fit = fitBox(box, width, Number.POSITIVE_INFINITY);
  const paper = { width: fit.width, height: fit.height };
  const grid = tileGrid(paper, { width: frame.width, height: frame.height });
  const tiles = tilesOf(pieceMarks(pieces, project, fit), paper, grid, typeface);
  return tiles.map((tile) => ({
    part: 'guide',
    block: null,
    title: phrase('Poster, column {column}, row {row}', { column: tile.column, row: tile.row }),
    page,
    parts: [{ marks: tile.marks, placement: { at: [frame.x, frame.y], quarterTurns: 0 }, paper: null }],
  }));
}

/** The quilt as one picture, as wide as asked for. */
export function pictureSheet(project: Project, width: number): Sheet {
  const layout = layOut({ places: project.quilt?.places ?? [] }, project.blocks);
  const fit = fitBox(layout.box, width, Number.POSITIVE_INFINITY);
  return {
    width: fit.width,
    height: fit.height,
    title: project.name,
    parts: [
      {
        marks: pieceMarks(layout.pieces, project, fit),
        placement: { at: [0, 0], quarterTurns: 0 },
        paper: null,
      },
    ],
  };
}

/** Pages a poster takes. */
export function posterPages(
  size: readonly [number, number],
  width: number,
  page: Page,
  margin: number,
): number {
  const frame = readingFrame({ page, margin } as PageSetting);
  const grid = tileGrid(
    { width, height: (width * size[1]) / size[0] },
    { width: frame.width, height: frame.height },
  );
  return grid.columns * grid.rows;
}
