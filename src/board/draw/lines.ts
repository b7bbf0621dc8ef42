import type { Cut } from '../../document/project.ts';
import type { Ring, Segment } from '../../geometry/point.ts';
import { type Camera, toScreen } from '../camera.ts';
import { boxesAlong, type Figure } from './figures.ts';
import { INKS } from './inks.ts';
import { type Pen, strokeLine, strokeLines } from './pen.ts';

/** Strokes of the cuts and of the outline. */
const CUT_PX = 1.2;
const OUTLINE_PX = 1.6;
const UNSOUND_PX = 2;
/** Further than this no line's ink or halo goes from it. */
const LINE_REACH_PX = 4;
/** A sharp corner of the outline is drawn out to this at most: ten times half its width, the canvas's miter limit. */
const CORNER_REACH_PX = 10;

/** The outline as a figure of its own. */
export const outlineFigure = (camera: Camera, outline: Ring, sound: boolean): Figure => ({
  get key() {
    return `outline ${sound} ${outline}`;
  },
  boxes: () =>
    boxesAlong(
      outline.map((corner) => toScreen(camera, corner)),
      CORNER_REACH_PX,
      true,
    ),
  draw: (pen) => drawOutlineLine(pen, outline, sound),
});

/** A cut as a figure of its own; its segment in inches, since lines are stroked together. */
export interface LineFigure extends Figure {
  readonly segment: Segment;
}

/** One cut: the same figure as long as it is the same object. */
export const lineFigure = (camera: Camera, cut: Cut): LineFigure => {
  const segment: Segment = [cut.from, cut.to];
  return {
    key: cut,
    segment,
    boxes: () => boxesAlong([toScreen(camera, cut.from), toScreen(camera, cut.to)], LINE_REACH_PX),
    draw: (pen) => drawLines(pen, [segment], false),
  };
};

/** Cuts as drawn. `onPrints`: some lie between pictures, where a line needs more of a halo. */
export function drawLines(pen: Pen, lines: readonly Segment[], onPrints: boolean): void {
  pen.ctx.lineCap = 'round';
  strokeLines(pen, lines, {
    color: INKS.ink,
    width: CUT_PX,
    halo: onPrints ? INKS.printLineHalo : INKS.lineHalo,
  });
}

/** The outline, over the cuts that end on it; broken where the block is not sound. */
export function drawOutlineLine(pen: Pen, outline: Ring, sound: boolean): void {
  pen.ctx.lineCap = 'round';
  pen.ctx.lineJoin = 'miter';
  strokeLine(
    pen,
    outline,
    sound ? { color: INKS.ink, width: OUTLINE_PX } : { color: INKS.madder, width: UNSOUND_PX, dash: [6, 4] },
    true,
  );
}
