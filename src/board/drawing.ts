import type { Fabric } from '../document/project.ts';
import type { Point } from '../geometry/point.ts';
import { planOf } from '../workspace/plans.ts';
import { session, shownProject } from '../workspace/session.ts';
import { blockOnSheet, board, gridInUse } from './board-state.ts';
import {
  drawFindings,
  drawJoins,
  drawLabels,
  drawLines,
  drawLit,
  drawPatches,
  drawSections,
} from './draw/block.ts';
import { drawChosen, drawCrosshair, drawMarks } from './draw/marks.ts';
import type { Pen } from './draw/pen.ts';
import { drawGrid, drawSheet } from './draw/sheet.ts';
import { sheetBox } from './looking.ts';
import type { Mark } from './tools/tool.ts';

const byId = new WeakMap<readonly Fabric[], ReadonlyMap<string, Fabric>>();

function fabricsById(fabrics: readonly Fabric[]): ReadonlyMap<string, Fabric> {
  const known = byId.get(fabrics);
  if (known !== undefined) return known;
  const map = new Map(fabrics.map((fabric) => [fabric.id, fabric]));
  byId.set(fabrics, map);
  return map;
}

/** Draws what lies still while the pointer moves about: the sheet, the block and its plan. */
export function drawStill(ctx: CanvasRenderingContext2D): void {
  const state = board.getState();
  const project = shownProject(session.getState());
  const pen: Pen = { ctx, camera: state.camera };
  const box = sheetBox();
  const block = blockOnSheet();
  drawSheet(pen, box, project.unit);
  drawGrid(pen, box, gridInUse(project), project.unit);
  if (block === null) return;
  const plan = planOf(block);
  const fabrics = fabricsById(project.fabrics);
  drawPatches(pen, plan, fabrics);
  drawLines(pen, block, plan.verdict !== 'broken');
  drawSections(pen, plan, fabrics);
  drawJoins(pen, plan.joins);
  drawLabels(pen, plan, fabrics);
  if (state.lit !== null) drawLit(pen, block, plan, state.lit);
  drawFindings(pen, plan, {
    lit: state.lit?.kind === 'finding' ? state.lit.index : null,
    avoid: session.getState().draft === null ? [] : state.marks.flatMap(placesOf),
  });
}

/** Where a mark of the tool in hand stands. */
function placesOf(mark: Mark): readonly Point[] {
  switch (mark.kind) {
    case 'snap':
      return [mark.snap.at];
    case 'line':
      return mark.segment;
    default:
      return [];
  }
}

/** Draws what follows the pointer: what is chosen, the marks of the tool in hand, the crosshair. */
export function drawMoving(ctx: CanvasRenderingContext2D): void {
  const state = board.getState();
  const { selection, project } = session.getState();
  const pen: Pen = { ctx, camera: state.camera };
  const block = blockOnSheet();
  const plan = block === null ? null : planOf(block);
  const snap = state.marks.find((mark) => mark.kind === 'snap');
  if (block !== null && plan !== null)
    drawChosen(pen, block, plan, selection, state.chosen, state.tool === 'select', snap?.snap.at ?? null);
  if (state.crosshair !== null) drawCrosshair(pen, state.crosshair, state.view, snap !== undefined);
  drawMarks(pen, block, plan, state.marks, project.unit, state.view);
}
