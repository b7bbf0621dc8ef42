import { holdsPoint } from '../../geometry/inner-spot.ts';
import { formatLength, type LengthUnit } from '../../geometry/length.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance, signedArea } from '../../geometry/ring.ts';
import type { RegistrationPoint } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import { PT } from '../marks.ts';
import { shortened, type TextBlock } from '../type/lettering.ts';
import { corners } from './allowance.ts';
import {
  type JoiningEdge,
  type LabelRequest,
  type Slot,
  SMALLEST_PT,
  stack,
  type Try,
} from './label-request.ts';
import { spotsOver } from './patch-labels.ts';

/** Clear space wished for around a text along an edge, and the least in a narrow allowance. */
const PAD = 2.2 * PT;
const LEAST_PAD = 0.8 * PT;

/** More space wished for between texts one after the other along an edge. */
const GAP = 4 * PT;

/** How far apart the places tried along an edge are, inches. */
const SLIDE_IN = 0.09;

const SIZES: readonly number[] = [7.5, 7, 6.5, SMALLEST_PT];

/** Tried before them where type is to be large. */
const LARGE_SIZES: readonly number[] = [11, 10, 9, 8];

const sizesOf = ({ large }: Pick<LabelRequest, 'large'>): readonly number[] =>
  large ? [...LARGE_SIZES, ...SIZES] : SIZES;

/** Across an edge: in its allowance, just inside its sewing line, or beyond its trim line, where it is cut off. */
type Zone = 'allowance' | 'inside' | 'beyond';

const ZONES: readonly Zone[] = ['allowance', 'inside', 'beyond'];

/** A straight side of the outer sewing line, corner to corner; the section lies to the right of it. */
export interface Run {
  readonly side: Segment;
  readonly length: number;
  /** No join runs along any of it. */
  readonly outer: boolean;
}

/** The sides of the section: outside edges of the block first, then by falling length. */
export function runsOf({ outline, edges }: LabelRequest): readonly Run[] {
  const ring = corners(outline);
  const runs = ring.map((a, i): Run => {
    const side: Segment = [a, ring[(i + 1) % ring.length]!];
    const outer = !edges.some(({ edge }) => edge.every((end) => liesOn(end, side)));
    return { side, length: distance(...side), outer };
  });
  return runs.sort((a, b) => Number(b.outer) - Number(a.outer) || b.length - a.length);
}

/** Within a line's width of the side. */
function liesOn(p: Point, side: Segment): boolean {
  const { along, length, ux, uy } = axisOf(side);
  const x = p[0] - side[0][0];
  const y = p[1] - side[0][1];
  return Math.abs(ux * y - uy * x) < PT / 2 && along(p) > -PT / 2 && along(p) < length + PT / 2;
}

function axisOf([a, b]: Segment) {
  const length = distance(a, b);
  const ux = (b[0] - a[0]) / length;
  const uy = (b[1] - a[1]) / length;
  // Parallel to the side, reading from the left, or from below where the side is upright.
  let turn = Math.atan2(uy, ux);
  const flipped = turn >= Math.PI / 2 - 1e-9 || turn < -Math.PI / 2 - 1e-9;
  if (flipped) turn += turn > 0 ? -Math.PI : Math.PI;
  return {
    length,
    ux,
    uy,
    turn,
    flipped,
    along: (p: Point): number => (p[0] - a[0]) * ux + (p[1] - a[1]) * uy,
    /** `along` inches from the first end, `depth` outside the side. */
    at: (along: number, depth: number): Point => [
      a[0] + along * ux + depth * uy,
      a[1] + along * uy - depth * ux,
    ],
  };
}

/** Places along a side for a text set parallel to it, `depth` inches outside it, from the middle to both ends. */
function* slotsAlong(side: Segment, block: TextBlock, depth: number): Generator<Slot> {
  const { length, turn, at } = axisOf(side);
  const room = (length - block.width) / 2;
  if (room < 0) return;
  yield { at: at(length / 2, depth), turn };
  for (let step = SLIDE_IN; step <= room; step += SLIDE_IN) {
    yield { at: at(length / 2 + step, depth), turn };
    yield { at: at(length / 2 - step, depth), turn };
  }
}

/** Places in one zone of a side; none where the text is too high for the allowance. */
function* inZone({ allowance }: LabelRequest, side: Segment, block: TextBlock, zone: Zone): Generator<Try> {
  const most = zone === 'allowance' ? Math.min(PAD, (allowance - block.height) / 2 - 0.3 * PT) : PAD;
  // Less clear space is worth trying only where no smaller type is left.
  const smallest = block.lines.every(({ size }) => size <= SMALLEST_PT * PT + 1e-9);
  for (const pad of smallest ? [most, LEAST_PAD] : [most]) {
    if (pad < LEAST_PAD) return;
    const high = block.height + 2 * pad;
    const depth = { allowance: allowance / 2, inside: -high / 2 - PT, beyond: allowance + high / 2 + PT }[
      zone
    ];
    for (const slot of slotsAlong(side, block, depth))
      yield { block, slot, pad, gap: pad === most ? GAP : 0 };
  }
}

/** What an edge says of its mates: `join 2: to B`, or `start of C` where the unit is position 1 of another paper. */
export const mateText = ({ step, mates }: JoiningEdge): string =>
  step === null
    ? phrase('start of {mates}', { mates: mates.join(', ') })
    : phrase('{step}: to {mates}', { step, mates: mates.join(', ') });

/** The text of a joining edge, naming its mates from left to right as it reads, in full before in short. */
export function* mateTries(request: LabelRequest, one: JoiningEdge): Generator<Try> {
  const { edge, step } = one;
  const mates = axisOf(edge).flipped ? [...one.mates].reverse() : one.mates;
  const texts = [mateText({ ...one, mates })];
  if (step !== null)
    texts.push(phrase('{step}: to {mates}', { step: step.replace(/\D+/g, ''), mates: mates.join(', ') }));
  texts.push(phrase('to {mates}', { mates: mates.join(', ') }));
  for (const zone of ZONES)
    for (const text of texts)
      for (const size of sizesOf(request))
        yield* inZone(request, edge, stack(request.typeface, [[text, 'regular', size]]), zone);
}

/**
 * The label of a registration point: beside its tick in the allowance, towards the longer stretch first; then
 * inside the seam; then beyond the trim line.
 */
export function* pointTries(
  request: LabelRequest,
  edge: JoiningEdge,
  point: RegistrationPoint,
): Generator<Try> {
  const { allowance, typeface, large } = request;
  const { length, turn, along, at } = axisOf(edge.edge);
  const here = along(point.at);
  const index = edge.points.indexOf(point);
  const before = here - (edge.points[index - 1] ? along(edge.points[index - 1]!.at) : 0);
  const after = (edge.points[index + 1] ? along(edge.points[index + 1]!.at) : length) - here;
  const first = after >= before ? 1 : -1;
  const pad = 0.9 * PT;
  // Where seams must meet the label is bold.
  const face = point.kind === 'match' ? 'semibold' : 'regular';
  const blocks = [...(large ? [10, 8.5] : []), 7, 6.5, SMALLEST_PT].map((size) =>
    stack(typeface, [[point.label, face, size]]),
  );
  const one = (block: TextBlock, aside: number, depth: number): Try => ({
    block,
    slot: { at: at(here + aside, depth), turn },
    pad,
  });
  for (const block of blocks) {
    const high = block.height + 2 * pad;
    if (high > allowance) continue;
    const beside = block.width / 2 + pad + 0.8 * PT;
    // Beside the tick and, where other ticks fan out there, a little on.
    for (let more = 0; more <= 6; more += 1.5)
      for (const depth of [allowance / 2, allowance - high / 2 - 0.3 * PT, high / 2 + 0.5 * PT])
        for (const sign of [first, -first]) yield one(block, sign * (beside + more * PT), depth);
  }
  for (const block of blocks)
    for (const more of [0, 3 * PT, 6 * PT])
      for (const aside of [0, 4 * PT, 8 * PT, 12 * PT])
        for (const sign of [first, -first])
          yield one(block, sign * aside, -(block.height / 2 + pad + 1.5 * PT + more));
  const smallest = blocks.at(-1)!;
  if (smallest.height + 2 * pad <= allowance)
    for (let more = 6; more <= 30; more += 1.5)
      for (const depth of [allowance / 2, allowance - smallest.height / 2 - pad - 0.3 * PT])
        for (const sign of [first, -first])
          yield one(smallest, sign * (smallest.width / 2 + pad + more * PT), depth);
  for (const more of [0, 3 * PT, 6 * PT])
    for (const aside of [0, 5 * PT, 10 * PT])
      for (const sign of [first, -first]) {
        yield one(smallest, sign * aside, allowance + smallest.height / 2 + pad + PT + more);
      }
}

/** A length between the sixteenths of a ruler is this far from them at least, inches. */
const BETWEEN_IN = 1 / 200;

/** A length as a ruler of the project's unit shows it: to a tenth of a millimetre, or against the nearest 1/16 in. */
function onRuler(length: number, unit: LengthUnit): string {
  if (unit === 'mm') return phrase('{round} mm', { round: Math.round(length * 254) / 10 });
  const sixteenths = Math.round(16 * length) / 16;
  const off = length - sixteenths;
  const said = formatLength(sixteenths, 'in');
  return Math.abs(off) < BETWEEN_IN
    ? said
    : phrase('just {isOff, select, true {under} other {over}} {said}', { isOff: off < 0, said });
}

/** `this edge 4 1/2 in` on an outside edge, one of a length that a ruler shows before one between its lines. */
export function* lengthTries(request: LabelRequest, runs: readonly Run[]): Generator<Try> {
  const inUnit = ({ length }: Run): string => formatLength(length, request.unit);
  const odd = request.unit === 'in' ? /\./ : /\.\d\d/;
  const plain = (run: Run): boolean => !odd.test(inUnit(run));
  const text = (run: Run): string => (plain(run) ? inUnit(run) : onRuler(run.length, request.unit));
  const ordered = [...runs].sort(
    (a, b) => Number(b.outer) - Number(a.outer) || Number(plain(b)) - Number(plain(a)) || b.length - a.length,
  );
  const wordings: readonly ((run: Run) => readonly string[])[] = [
    (run) => [phrase('this edge {text}', { text: text(run) })],
    (run) => [phrase('this edge'), text(run)],
  ];
  for (const zone of ZONES)
    for (const wording of wordings)
      for (const run of ordered)
        for (const size of sizesOf(request).slice(1)) {
          const lines = wording(run).map((line) => [line, 'regular', size] as const);
          yield* inZone(request, run.side, stack(request.typeface, lines), zone);
        }
}

/** Stands for the number of the copy in a title; a private-use character, so no name can hold it. */
export const COPY_SIGN = '\ue000';

/** Where and how the title stands; set anew for each copy. */
export interface Title {
  /** With `COPY_SIGN` where the number of the copy goes. */
  readonly lines: readonly string[];
  /** Type size in points. */
  readonly size: number;
  readonly slot: Slot;
}

/** The title of one copy, set as it will stand. */
export const setTitle = (
  request: Pick<LabelRequest, 'typeface'>,
  title: Omit<Title, 'slot'>,
  copy: number,
): TextBlock =>
  stack(
    request.typeface,
    title.lines.map((line) => [line.replace(COPY_SIGN, String(copy)), 'semibold', title.size] as const),
  );

export interface TitleTry extends Try {
  readonly title: Title;
  /** It lies beyond the trim line and is cut off with what is there. */
  readonly isCutOff: boolean;
}

/**
 * Block, section, copy and the paper's stamp: in the allowance of an edge, in one line or two; else inside, largest
 * patch first; in short where there is no room for all of it; beyond the trim line, where it is cut off, last of all.
 */
export function* titleTries(request: LabelRequest, runs: readonly Run[]): Generator<TitleTry> {
  const { typeface, section, copies, blockName } = request;
  const copy = phrase('copy {copySign} of {copies} · {stamp}', {
    copySign: COPY_SIGN,
    copies,
    stamp: section.stamp,
  });
  const names = [3.2, 1.4, 0.6].map((widest) =>
    shortened(typeface, { text: blockName, face: 'semibold', size: SMALLEST_PT * PT }, widest),
  );
  const texts = [...new Set(names)].flatMap((name) =>
    name === ''
      ? []
      : [
          [phrase('{name}, section {letter}, {copy}', { name, letter: section.letter, copy })],
          [`${name} ${section.letter}, ${copy}`],
          [name, phrase('section {letter}, {copy}', { letter: section.letter, copy })],
          [`${name} ${section.letter}`, copy],
        ],
  );
  const wordings = texts.flatMap((lines) => sizesOf(request).map((size) => ({ lines, size })));
  // Room for the copy with the widest number.
  const set = (wording: Omit<Title, 'slot'>): TextBlock => setTitle(request, wording, copies);
  const entitled = (one: Try, wording: Omit<Title, 'slot'>, isCutOff = false): TitleTry => ({
    ...one,
    title: { ...wording, slot: one.slot },
    isCutOff,
  });

  const count = `${section.letter} ${COPY_SIGN}/${copies}`;
  const shortWordings = [...new Set([...names, ''])]
    .flatMap((name) => [
      [`${name} ${count} · ${section.stamp}`.trim()],
      [`${name} ${count}`.trim(), section.stamp],
      [name, count, section.stamp],
    ])
    .map((lines) => ({ lines: lines.filter((line) => line !== ''), size: SMALLEST_PT }));

  const alongEdges = function* (zone: Zone, some = wordings): Generator<TitleTry> {
    for (const wording of some) {
      const block = set(wording);
      for (const { side } of runs)
        for (const one of inZone(request, side, block, zone)) yield entitled(one, wording, zone === 'beyond');
    }
  };
  yield* alongEdges('allowance');
  const bySize = [...request.patches].sort(
    (a, b) => Math.abs(signedArea(b.area.polygon)) - Math.abs(signedArea(a.area.polygon)),
  );
  const inPatches = function* (some: typeof wordings, pad: number): Generator<TitleTry> {
    for (const wording of some) {
      const block = set(wording);
      for (const { area } of bySize.slice(0, 6))
        for (const at of spotsOver(area, block, 8))
          if (holdsPoint(area, at)) yield entitled({ block, slot: { at, turn: 0 }, pad }, wording);
    }
  };
  const inTwo = wordings.filter(({ lines }) => lines.length === 2);
  yield* inPatches(inTwo, PAD);
  yield* alongEdges('inside');
  yield* alongEdges('allowance', shortWordings);
  yield* inPatches(shortWordings, LEAST_PAD);
  yield* alongEdges('inside', shortWordings);
  yield* alongEdges('beyond');
}
