import { valueOfColor } from '../document/lightness.ts';
import type { Block, Fabric, Project } from '../document/project.ts';
import { gridOriginFor } from '../editing/grid.ts';
import { withTwins } from '../editing/symmetric.ts';
import type { Point } from '../geometry/point.ts';
import type { Finding, PiecingPlan } from '../piecing/plan.ts';
import { pictures } from '../workspace/fabric-pictures.ts';
import { madePlan, requestPlan } from '../workspace/plans.ts';
import { session, shownProject } from '../workspace/session.ts';
import { type BoardState, blockOnSheet, board, gridInUse, gridKindOn } from './board-state.ts';
import { sheetBox } from './camera-acts.ts';
import { drawAxes, drawDivisions } from './draw/aids.ts';
import { drawChosen, drawTwins } from './draw/chosen.ts';
import { drawCrosshair } from './draw/crosshair.ts';
import type { Figure } from './draw/figures.ts';
import { drawFinding } from './draw/finding.ts';
import { joinFigures } from './draw/joins.ts';
import { drawLens } from './draw/lens.ts';
import { drawLines, type LineFigure, lineFigure, outlineFigure } from './draw/lines.ts';
import { drawLit } from './draw/lit.ts';
import { drawLoupe } from './draw/loupe.ts';
import { findingFigures, findingsAt } from './draw/markers.ts';
import { drawMarks } from './draw/marks.ts';
import { labelFigures } from './draw/patch-labels.ts';
import { drawPatches } from './draw/patches.ts';
import type { Pen } from './draw/pen.ts';
import { drawProposal } from './draw/proposal.ts';
import { sectionFigures } from './draw/sections.ts';
import { drawGrid, drawSheet } from './draw/sheet.ts';
import { strengthOf } from './draw/strength.ts';
import {
  drawUnderPicture,
  FABRIC_OVER_PICTURE,
  hasPictureShown,
  squaredPictures,
} from './draw/under-picture.ts';
import { unitFirstFigures } from './draw/unit-first.ts';
import { type Proposal, proposals } from './proposal.ts';
import { cutsInHand, isFigureBegun } from './still-drawing.ts';
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

/** What is on the sheet at this moment. */
interface Scene {
  readonly state: BoardState;
  readonly project: Project;
  /** The block as it is drawn: as a repair would leave it while that is shown. Null on an empty sheet. */
  readonly block: Block | null;
  readonly plan: PiecingPlan | null;
  readonly fabrics: ReadonlyMap<string, Fabric>;
  readonly proposal: Proposal | null;
}

function sceneNow(): Scene {
  const state = board.getState();
  const project = shownProject(session.getState());
  const block = blockOnSheet();
  const { shown } = proposals.getState();
  const proposal = shown?.block === block ? shown : null;
  return {
    state,
    project,
    block: proposal?.after ?? block,
    plan:
      (proposal === null ? null : requestPlan(proposal.after).plan) ??
      (block === null ? null : requestPlan(block).plan),
    fabrics: fabricsById(state.valueView ? asValues(project.fabrics) : project.fabrics),
    proposal,
  };
}

const isPainted = (plan: PiecingPlan): boolean => plan.patches.some(({ fabric }) => fabric !== null);

/** The sheet, a picture that is traced, and the fabrics over it. */
function drawGround(pen: Pen): void {
  const { state, project, block, plan, fabrics } = sceneNow();
  const box = sheetBox();
  drawSheet(pen, box, project.unit);
  if (block !== null) drawUnderPicture(pen, block, session.getState().draft !== null, state.valueView);
  if (!state.plain) {
    const kind = gridKindOn(block);
    const origin = gridOriginFor(kind, block?.outline ?? []);
    drawGrid(pen, box, gridInUse(project), project.unit, kind, origin);
  }
  if (plan === null) return;
  pen.ctx.save();
  if (hasPictureShown(block)) pen.ctx.globalAlpha = FABRIC_OVER_PICTURE;
  drawPatches(pen, plan, fabrics, state.valueView);
  pen.ctx.restore();
}

/** The cuts but those that what is chosen is drawn over, then the outline. */
function cutFigures({ camera }: Pen): readonly Figure[] {
  const { block, plan, proposal } = sceneNow();
  if (block === null) return [];
  const covered = new Set(plan === null || proposal !== null ? [] : session.getState().selection);
  const cuts = block.cuts.filter(({ id }) => !covered.has(id)).map((cut) => lineFigure(camera, cut));
  return [...cuts, outlineFigure(camera, block.outline, plan?.verdict !== 'broken')];
}

/** Cuts are stroked together: where their halos overlap they must not be thicker. */
function drawCutFigures(pen: Pen, figures: readonly Figure[]): void {
  const { block, plan, fabrics } = sceneNow();
  const lines = figures.filter((figure): figure is LineFigure => 'segment' in figure);
  drawLines(
    pen,
    lines.map(({ segment }) => segment),
    hasPictureShown(block) || isOnPrints(plan, fabrics),
  );
  for (const figure of figures) if (!('segment' in figure)) figure.draw(pen);
}

const isOnPrints = (plan: PiecingPlan | null, fabrics: ReadonlyMap<string, Fabric>): boolean =>
  [...fabrics.values()].some(({ picture }) => picture !== undefined) &&
  (plan?.patches.some(({ fabric }) => fabric !== null && fabrics.get(fabric)?.picture) ?? false);

/** What the plan makes of the block, but for its findings. */
function* plannedFigures(pen: Pen): Generator<Figure> {
  const { state, block, plan, fabrics } = sceneNow();
  if (block === null || plan === null || state.plain) return;
  const strength = strengthOf(plan, pen.camera);
  if (strength > 0.25) yield* sectionFigures(pen.camera, plan, fabrics);
  yield* joinFigures(pen.camera, plan.joins, strength);
  yield* labelFigures(pen, plan, fabrics, hasPictureShown(block));
  yield* unitFirstFigures(pen, plan);
}

function* shownFindings({ camera }: Pen): Generator<Figure> {
  const { state, plan } = sceneNow();
  if (plan === null || state.plain) return;
  const lit = litFinding(state, plan)?.index ?? null;
  yield* findingFigures(camera, plan, { lit, hidden: findingsUnderHand(state, plan) });
}

const drawAll = (pen: Pen, figures: Iterable<Figure>): void => {
  for (const figure of figures) figure.draw(pen);
};

/** What the plan makes of the block, a repair that is shown, and what a panel points at. */
function drawPlanned(pen: Pen): void {
  const { state, project, block, plan, fabrics, proposal } = sceneNow();
  if (block === null) return;
  drawAll(pen, [...plannedFigures(pen)]);
  if (proposal !== null) {
    drawProposal(pen, proposal, sheetBox());
    return;
  }
  if (plan === null) return;
  const lit = litFinding(state, plan);
  if (lit !== null) drawFinding(pen, block, plan, lit.finding);
  else if (state.lit !== null) drawLit(pen, block, plan, state.lit);
  drawAll(pen, [...shownFindings(pen)]);
  if (lit !== null)
    drawLens(pen, {
      block,
      plan,
      finding: lit.finding,
      fabrics,
      asGrey: state.valueView,
      view: state.view,
      unit: project.unit,
    });
}

function litFinding({ lit }: BoardState, plan: PiecingPlan) {
  const finding = lit?.kind === 'finding' ? plan.findings[lit.index] : undefined;
  return finding === undefined || lit?.kind !== 'finding' ? null : { finding, index: lit.index };
}

/**
 * Findings that wait: all while a symmetric figure is begun, what a line in hand brings until it is drawn, and those whose
 * markers would stand over it.
 */
function findingsUnderHand(state: BoardState, plan: PiecingPlan): ReadonlySet<number> {
  if (isFigureBegun(state)) return new Set(plan.findings.keys());
  const { draft, project, blockId } = session.getState();
  if (draft === null) return new Set();
  const waiting = cutsInHand(draft, project, blockId) === null ? [] : newFindings(plan);
  return new Set([...waiting, ...findingsAt(state.camera, plan.findings, state.marks.flatMap(placesOf))]);
}

/** Findings of a plan that the recorded state of its block has not got. */
function newFindings({ findings }: PiecingPlan): readonly number[] {
  const { project, blockId } = session.getState();
  const block = project.blocks.find(({ id }) => id === blockId);
  const before = block === undefined ? null : madePlan(block);
  const nameOf = ({ code, at }: Finding): string => `${code} ${at}`;
  const known = new Set(before?.findings.map(nameOf));
  return findings.flatMap((finding, index) => (known.has(nameOf(finding)) ? [] : [index]));
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

/** What follows the pointer: what is chosen, the marks of the tool in hand, the crosshair. */
function drawMoving(pen: Pen): void {
  const state = board.getState();
  const { selection, project } = session.getState();
  const block = blockOnSheet();
  const plan = block === null ? null : requestPlan(block).plan;
  const snap = state.marks.find((mark) => mark.kind === 'snap');
  if (block !== null) {
    drawAxes(pen, block.outline, state.symmetry);
    drawDivisions(pen, state.divisions);
  }
  if (block !== null)
    drawTwins(pen, block, withTwins(block, selection, state.symmetry).slice(selection.length));
  if (block !== null && plan !== null)
    drawChosen(
      pen,
      block,
      plan,
      selection,
      state.chosen,
      state.tool === 'select' && !state.plain,
      snap?.snap.at ?? null,
      state.marks.find((mark) => mark.kind === 'handle')?.handle ?? null,
    );
  if (state.crosshair !== null) drawCrosshair(pen, state.crosshair, state.view, snap !== undefined);
  const { finger, marks, valueView: asGrey, view } = state;
  // Under the rest, so that the words at the loupe stand over all.
  const glass =
    finger === null
      ? null
      : drawLoupe(pen, { block, plan, fabrics: sceneNow().fabrics, asGrey, marks, finger, view });
  drawMarks(pen, block, plan, marks, project.unit, view, glass);
}

/** One of the canvases that lie over each other. */
export interface BoardCanvas {
  readonly name: string;
  readonly draw: (pen: Pen) => void;
  /** All that its picture hangs on; drawn anew when one part is another. */
  readonly parts: () => readonly unknown[];
  /** How it is drawn anew only where something has come or gone; without it always whole. */
  readonly inFigures?: {
    /** Parts that concern the whole canvas: when one is another, it is drawn whole. */
    readonly whole: () => readonly unknown[];
    /** All that is on it, the lowest first; null where it shows more than figures. */
    readonly figures: (pen: Pen) => readonly Figure[] | null;
    readonly paint: (pen: Pen, figures: readonly Figure[]) => void;
    /** So many are painted in one frame; what is more waits for the next. Without it all are. */
    readonly mostAtOnce?: number;
  };
}

/**
 * A plan that comes for a large block may call most patches otherwise, and to write that at once would hold up the line
 * that follows the pointer: so many of its figures are painted in one frame. A small block has fewer.
 */
const MOST_AT_ONCE = 300;

/** What the lines hang on beside the block. */
function wholeOfLines(): readonly unknown[] {
  const { project, block, plan, fabrics, state } = sceneNow();
  return [...lookOf(state), ...settingsOf(project), hasPictureShown(block), isOnPrints(plan, fabrics)];
}

/** What the plan's canvas hangs on beside the plan. */
function wholeOfPlan(): readonly unknown[] {
  const { project, block, proposal, state } = sceneNow();
  return [...lookOf(state), ...settingsOf(project), proposal, block === null, hasPictureShown(block)];
}

/**
 * The drawing from the bottom up. Each is drawn anew only when something it shows has changed, and only there: while
 * the pointer moves a line of a large block, whose plan comes later, that is a few lines and what follows the pointer.
 */
export const CANVASES: readonly BoardCanvas[] = [
  {
    name: 'ground',
    draw: drawGround,
    parts: () => {
      const { project, block, plan, state } = sceneNow();
      const { cuts: _, ...rest } = block ?? { cuts: null };
      const painted = plan !== null && isPainted(plan) ? plan : null;
      const traced = hasPictureShown(block)
        ? [squaredPictures.getState().made, session.getState().draft === null]
        : [];
      return [...lookOf(state), ...settingsOf(project), ...Object.values(rest), painted, ...traced];
    },
  },
  {
    name: 'lines',
    draw: (pen) => drawCutFigures(pen, cutFigures(pen)),
    parts: () => {
      const { block, plan, proposal } = sceneNow();
      const { selection } = session.getState();
      return [...wholeOfLines(), block, plan?.verdict === 'broken', plan === null, proposal, selection];
    },
    inFigures: { whole: wholeOfLines, figures: cutFigures, paint: drawCutFigures },
  },
  {
    name: 'plan',
    draw: drawPlanned,
    parts: () => {
      const { block, plan, state } = sceneNow();
      const hidden = plan === null ? '' : [...findingsUnderHand(state, plan)].join();
      return [...wholeOfPlan(), plan, state.lit === null ? null : block, hidden];
    },
    inFigures: {
      whole: wholeOfPlan,
      figures: (pen) => {
        const { state, proposal } = sceneNow();
        return state.lit !== null || proposal !== null
          ? null
          : [...plannedFigures(pen), ...shownFindings(pen)];
      },
      paint: drawAll,
      mostAtOnce: MOST_AT_ONCE,
    },
  },
  { name: 'moving', draw: drawMoving, parts: () => [{}] },
];

/** How the board is looked at: all of its state but what only the moving canvas shows. */
function lookOf(state: BoardState): readonly unknown[] {
  const {
    marks: _m,
    announced: _s,
    crosshair: _c,
    held: _h,
    chosen: _ch,
    isFinger: _f,
    finger: _fi,
    menu: _me,
    ...look
  } = state;
  return Object.values(look);
}

/** What all drawings of a project share, and the pictures of its fabrics that have come. */
const settingsOf = ({ blocks: _, ...settings }: Project): readonly unknown[] => [
  ...Object.values(settings),
  pictures.getState().ready,
];
