import type { LengthUnit } from '../../geometry/length.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { type Mark, placeMark, shiftMark, type TextMark } from '../marks.ts';
import type { Side } from '../side.ts';
import { blockMarks } from '../type/lettering.ts';
import { squareCode } from '../type/square-code.ts';
import type { Typeface } from '../type/typeface.ts';
import { corners } from './allowance.ts';
import { setTitle, type Title } from './edge-labels.ts';
import { type FabricStyle, fabricMarks } from './fabric-marks.ts';
import { edgesWithin, frameOf } from './frame.ts';
import { CODE_IN } from './free-square.ts';
import { joiningEdge } from './joining-edge.ts';
import type { FabricLabel, LabelRoom } from './label-request.ts';
import { placeLabels } from './labels.ts';
import { blockEdges, laidPatch, laidUnit } from './laid-patches.ts';
import { beyond, labelBox, obstaclesOf, reach } from './mark-reach.ts';
import { joiningSides } from './mates.ts';
import { registrationMarks, seamTicks } from './registration-marks.ts';
import type { TickCount } from './tick-counts.ts';

export interface DrawingRequest {
  readonly plan: PiecingPlan;
  /** Letter of the section to draw. */
  readonly section: string;
  /** Name of the block, as the typeface can print it. */
  readonly blockName: string;
  readonly fabrics: ReadonlyMap<string, FabricLabel>;
  /** Seam allowance, inches. */
  readonly allowance: number;
  readonly side: Side;
  readonly copies: number;
  /** Whether room for a square code is looked for. */
  readonly hasCode?: boolean;
  readonly unit: LengthUnit;
  readonly room: LabelRoom;
  /** Ticks of each join of the plan, see `tickCounts`. */
  readonly ticks: ReadonlyMap<number, TickCount>;
  /** How patches show their fabric. */
  readonly style: FabricStyle;
  /** Whether patches at the edge of the block carry a straight-grain arrow. */
  readonly grain: boolean;
  /** Whether larger type is tried before the usual. */
  readonly large: boolean;
  readonly typeface: Typeface;
}

/** One foundation drawn, from the upper left corner of its box. Inches, y down. */
export interface Drawing {
  readonly section: string;
  readonly width: number;
  readonly height: number;
  /** What it covers of its box: the trim line first, then the box of every mark that reaches beyond it. */
  readonly rings: readonly Ring[];
  /** All that is alike on every copy. */
  readonly marks: readonly Mark[];
  readonly title: Title | null;
  /** Upper left corner of the square code; null where none is wanted, or no spot is free. */
  readonly code: Point | null;
  /** Ids of fabrics that are shown by their code somewhere on the paper. */
  readonly codedFabrics: readonly string[];
  /** Labels that found no free place, see `PlacedLabels`. */
  readonly crowded: readonly string[];
}

/**
 * Draws one foundation: the section mirrored (x → -x) for the printed side, with sewing lines, trim line, ticks,
 * registration points and labels. The section must be one of the plan's.
 */
export function drawFoundation(request: DrawingRequest): Drawing {
  const { plan, allowance, side, fabrics } = request;
  const section = plan.sections.find((one) => one.letter === request.section);
  if (!section) throw new Error(`The plan has no section ${request.section}.`);
  const frame = frameOf(section, allowance, side);
  const patches = plan.patches.filter((patch) => patch.section === section.letter);
  const unit = plan.patches.filter((patch) => section.startsFrom.includes(patch.section));

  const place = ([a, b]: Segment): Segment => [frame.toPaper(a), frame.toPaper(b)];
  const sewnBefore = edgesWithin(plan, section.startsFrom);
  const isSewn = new Set(sewnBefore.map(String));
  const seams = edgesWithin(plan, [section.letter, ...section.startsFrom])
    .filter((edge) => !isSewn.has(String(edge)))
    .map(place);
  const edges = joiningSides(plan, section).map((one) => joiningEdge(one, request.ticks, frame, side));
  const registration = registrationMarks(edges, frame, allowance);
  const ticks = allowance > 0 ? seamTicks(seams, frame, registration.ticks, allowance) : [];

  const lines: Mark[] = [
    ...sewnBefore.map((edge): Mark => ({ kind: 'line', pen: 'unit', points: place(edge) })),
    ...seams.map((points): Mark => ({ kind: 'line', pen: 'seam', points })),
    ...[frame.outline, ...frame.holes].map(
      (ring): Mark => ({ kind: 'polygon', pen: 'edge', ring: corners(ring) }),
    ),
    ...ticks.map((points): Mark => ({ kind: 'line', pen: 'tick', points })),
    ...registration.marks,
    ...(allowance > 0 ? frame.trims : []).map((ring): Mark => ({ kind: 'polygon', pen: 'trim', ring })),
  ];

  const edgeOf = request.grain ? blockEdges(plan) : () => null;
  const laid = [
    ...laidUnit(plan, section, unit, frame),
    ...patches.map((patch) => laidPatch(patch, fabrics, edgeOf(patch), frame)),
  ];
  const labels = placeLabels({
    ...request,
    section,
    patches: laid,
    outline: frame.outline,
    trim: frame.trims[0]!,
    edges,
    obstacles: obstaclesOf(lines),
  });

  const { title, code, codedFabrics, crowded } = labels;
  const titleMarks = title
    ? blockMarks(setTitle(request, title, request.copies), title.slot.at, title.slot.turn)
    : [];
  const box = boxOf([
    [0, 0],
    [frame.width, frame.height],
    ...[...labels.marks, ...titleMarks].flatMap((mark) => reach(mark, request.typeface)),
  ]);
  const dx = -box.minX;
  const dy = -box.minY;
  const fabricsShown = fabricMarks(
    laid,
    request.style,
    [...labels.marks, ...titleMarks].flatMap((mark) => labelBox(mark, request.typeface) ?? []),
  );
  const marks = [...fabricsShown, ...lines, ...labels.marks].map((mark) => shiftMark(mark, dx, dy));
  const trim = frame.trims[0]!.map(([x, y]): Point => [x + dx, y + dy]);
  return {
    section: section.letter,
    width: box.maxX - box.minX,
    height: box.maxY - box.minY,
    rings: [
      trim,
      ...beyond(trim, [...marks, ...titleMarks.map((mark) => shiftMark(mark, dx, dy))], request.typeface),
    ],
    marks,
    title: title && { ...title, slot: { ...title.slot, at: [title.slot.at[0] + dx, title.slot.at[1] + dy] } },
    code: code && [code[0] - CODE_IN / 2 + dx, code[1] - CODE_IN / 2 + dy],
    codedFabrics,
    crowded,
  };
}

/** The title of one copy. */
export function titleOfCopy(typeface: Typeface, { title }: Drawing, copy: number): readonly TextMark[] {
  return title ? blockMarks(setTitle({ typeface }, title, copy), title.slot.at, title.slot.turn) : [];
}

/** The square code of one copy, which leads to `text`. */
export const codeOfCopy = ({ code }: Drawing, text: string): readonly Mark[] =>
  code === null
    ? []
    : squareCode(text, CODE_IN).map((mark) => placeMark(mark, { at: code, quarterTurns: 0 }));
