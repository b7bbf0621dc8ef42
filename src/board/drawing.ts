import { valueOfColor } from '../document/lightness.ts';
import type { Block, Fabric } from '../document/project.ts';
import type { Point } from '../geometry/point.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { shownPlan } from '../workspace/plans.ts';
import { session, shownProject } from '../workspace/session.ts';
import { blockOnSheet, board, gridInUse } from './board-state.ts';
import { drawAxes, drawDivisions } from './draw/aids.ts';
import {
  drawFindings,
  drawJoins,
  drawLabels,
  drawLines,
  drawLit,
  drawPatches,
  drawSections,
} from './draw/block.ts';
import { drawFinding } from './draw/finding.ts';
import { drawChosen, drawCrosshair, drawMarks } from './draw/marks.ts';
import type { Pen } from './draw/pen.ts';
import { drawProposal } from './draw/proposal.ts';
import { drawGrid, drawSheet } from './draw/sheet.ts';
import { drawUnitsFirst } from './draw/unit-first.ts';
import { sheetBox } from './looking.ts';
import { proposals } from './proposal.ts';
import type { Mark } from './tools/tool.ts';

const byId = new WeakMap<readonly Fabric[], ReadonlyMap<string, Fabric>>();

function fabricsById(fabrics: readonly Fabric[]): ReadonlyMap<string, Fabric> {
  const known = byId.get(fabrics);
  if (known !== undefined) return known;
  const map = new Map(fabrics.map((fabric) => [fabric.id, fabric]));
  byId.set(fabrics, map);
  return map;
}

const asGreys = new WeakMap<readonly Fabric[], readonly Fabric[]>();

/** The fabrics as greys, each as light as its colour. */
function asValues(fabrics: readonly Fabric[]): readonly Fabric[] {
  const known = asGreys.get(fabrics);
  if (known !== undefined) return known;
  const greys = fabrics.map((fabric) => ({ ...fabric, color: valueOfColor(fabric.color) }));
  asGreys.set(fabrics, greys);
  return greys;
}

/** Draws what lies still while the pointer moves about: the sheet, the block and its plan. */
export function drawStill(ctx: CanvasRenderingContext2D): void {
  const state = board.getState();
  const project = shownProject(session.getState());
  const pen: Pen = { ctx, camera: state.camera };
  const box = sheetBox();
  const block = blockOnSheet();
  drawSheet(pen, box, project.unit);
  drawGrid(pen, box, gridInUse(project), project.unit, state.gridKind);
  if (block === null) return;
  const fabrics = fabricsById(state.valueView ? asValues(project.fabrics) : project.fabrics);
  const proposal = proposals.getState().shown;
  if (proposal !== null && proposal.block === block) {
    drawPlanned(pen, proposal.after, shownPlan(proposal.after).plan ?? shownPlan(block).plan, fabrics);
    drawProposal(pen, proposal);
    return;
  }
  const { plan } = shownPlan(block);
  drawPlanned(pen, block, plan, fabrics);
  if (plan === null) return;
  const finding = state.lit?.kind === 'finding' ? plan.findings[state.lit.index] : undefined;
  if (finding !== undefined) drawFinding(pen, block, plan, finding);
  else if (state.lit !== null) drawLit(pen, block, plan, state.lit);
  drawFindings(pen, plan, {
    lit: state.lit?.kind === 'finding' ? state.lit.index : null,
    avoid: session.getState().draft === null ? [] : state.marks.flatMap(placesOf),
  });
}

/** A block and what its plan makes of it; its lines alone while there is no plan yet. */
function drawPlanned(
  pen: Pen,
  block: Block,
  plan: PiecingPlan | null,
  fabrics: ReadonlyMap<string, Fabric>,
): void {
  if (plan === null) {
    drawLines(pen, block, true);
    return;
  }
  drawPatches(pen, plan, fabrics);
  drawLines(pen, block, plan.verdict !== 'broken');
  drawSections(pen, plan, fabrics);
  drawJoins(pen, plan.joins);
  drawLabels(pen, plan, fabrics);
  drawUnitsFirst(pen, plan);
}

/** Where a mark of the tool in hand stands. */
function placesOf(mark: Mark): readonly Point[] {
  switch (mark.kind) {
    case 'snap':
      return [mark.snap.at];
    case 'line':
      return mark.segment;
    case 'typed':
      return [mark.at];
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
  const plan = block === null ? null : shownPlan(block).plan;
  const snap = state.marks.find((mark) => mark.kind === 'snap');
  if (block !== null) {
    drawAxes(pen, block.outline, state.symmetry);
    drawDivisions(pen, state.divisions);
  }
  if (block !== null && plan !== null)
    drawChosen(pen, block, plan, selection, state.chosen, state.tool === 'select', snap?.snap.at ?? null);
  if (state.crosshair !== null) drawCrosshair(pen, state.crosshair, state.view, snap !== undefined);
  drawMarks(pen, block, plan, state.marks, project.unit, state.view);
}
