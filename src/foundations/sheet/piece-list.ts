import { cuttingPlan } from '../../cutting/cutting-plan.ts';
import type { Cut } from '../../cutting/piece.ts';
import { clothsOf, cuttingRulesOf, handSizesOf } from '../../cutting/project-cutting.ts';
import { formatLength, type LengthUnit } from '../../geometry/length.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import type { FabricLabel } from '../foundation/label-request.ts';
import { type Mark, PT, shiftMark } from '../marks.ts';
import type { Foundation, PrintWork } from '../print-work.ts';
import { lengthOf, shortened, type TextLine, textAt } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import type { Rectangle } from './level-packing.ts';

/** A list of the pieces of a foundation in sewing order, drawn from its upper left corner. */
export interface PieceList extends Rectangle {
  readonly marks: readonly Mark[];
}

/** Longest name of a fabric in a list, and most columns that a long list stands in. */
const NAME_IN = 1.25;
const MOST_COLUMNS = 4;

const SWATCH_IN = 0.085;
const GAP_IN = 0.06;
const PAD_IN = 0.05;

/** How a piece is cut that is no plain rectangle. */
const KINDS: Readonly<Record<Cut['kind'], string>> = {
  rectangle: '',
  'half-square': phrase(', halved'),
  'quarter-square': phrase(', quartered'),
  'half-rectangle': phrase(', halved aslant'),
};

/**
 * The piece list of each foundation: order, fabric with its code and a swatch, cut size as in the cutting list. Given
 * in the shapes it may have, the tallest first: in one column, in two and so on.
 */
export function pieceLists(
  { project, jobs }: PrintWork,
  fabrics: ReadonlyMap<string, FabricLabel>,
  typeface: Typeface,
  times = 1,
): (foundation: Foundation) => readonly PieceList[] {
  const sizes = new Map(
    // Strips are of no interest here, so none are searched for.
    cuttingPlan({
      made: jobs,
      cloths: clothsOf(project),
      rules: cuttingRulesOf(project),
      sizeOf: handSizesOf(project),
      steps: 0,
    }).pieces.map(({ block, patch, piece }) => [`${block} ${patch}`, piece.cut]),
  );
  return ({ job, section, blockName }) => {
    const rows = job.plan.patches
      .filter((patch) => patch.section === section.letter)
      .sort((a, b) => a.position - b.position)
      .map(({ id, position, fabric }): Row => {
        const label = fabric === null ? undefined : fabrics.get(fabric);
        const cut = sizes.get(`${job.block.id} ${id}`);
        return {
          position,
          color: label?.look?.color ?? null,
          name: label ? nameOf(label) : phrase('no fabric'),
          cut: cut ? cutWords(cut, project.unit) : '',
        };
      });
    const title = phrase('{name} {letter}, in this order', { name: blockName, letter: section.letter });
    const most = Math.min(MOST_COLUMNS, Math.ceil(rows.length / 3));
    return Array.from({ length: most }, (_, i) => listOf(title, rows, i + 1, typeface, times));
  };
}

interface Row {
  readonly position: number;
  /** `#rrggbb`; null where there is no fabric. */
  readonly color: string | null;
  readonly name: string;
  readonly cut: string;
}

const nameOf = ({ code, meaning }: FabricLabel): string => (meaning === code ? code : `${code} ${meaning}`);

function cutWords({ kind, width, height }: Cut, unit: LengthUnit): string {
  const [across, down] = [formatLength(width, unit), formatLength(height, unit)];
  return `${across.replace(/ (in|mm)$/, '')} × ${down}${KINDS[kind]}`;
}

function listOf(
  title: string,
  rows: readonly Row[],
  columns: number,
  typeface: Typeface,
  times: number,
): PieceList {
  const style: Omit<TextLine, 'text'> = { face: 'regular', size: times * 6.5 * PT };
  const strong: Omit<TextLine, 'text'> = { ...style, face: 'semibold' };
  const lineHigh = 1.3 * style.size;
  const baseline = 0.8 * style.size;
  const named = rows.map((row) => ({
    ...row,
    name: shortened(typeface, { text: row.name, ...style }, times * NAME_IN),
  }));
  const widest = (texts: readonly string[], of = style): number =>
    Math.max(0, ...texts.map((text) => lengthOf(typeface, { text, ...of })));
  const numberWide = widest(
    named.map(({ position }) => String(position)),
    strong,
  );
  const nameWide = widest(named.map(({ name }) => name));
  const cutWide = widest(named.map(({ cut }) => cut));
  const swatch = times * SWATCH_IN;
  const nameAt = numberWide + GAP_IN + swatch + GAP_IN;
  const cutAt = nameAt + nameWide + 1.5 * GAP_IN;
  const columnWide = cutAt + cutWide;
  const each = Math.ceil(rows.length / columns);
  const inner = columns * columnWide + (columns - 1) * 3 * GAP_IN;
  const head = { ...strong, text: shortened(typeface, { text: title, ...strong }, Math.max(inner, 1.6)) };
  const width = 2 * PAD_IN + Math.max(inner, lengthOf(typeface, head));
  const height = 2 * PAD_IN + (each + 1) * lineHigh;
  const marks: Mark[] = [
    { kind: 'polygon', pen: 'picture', ring: box([0, 0], width, height) },
    textAt(typeface, head, [PAD_IN, PAD_IN + baseline]),
  ];
  for (const [i, { position, color, name, cut }] of named.entries()) {
    const x = PAD_IN + Math.floor(i / each) * (columnWide + 3 * GAP_IN);
    const y = PAD_IN + (1 + (i % each)) * lineHigh;
    const line: Mark[] = [textAt(typeface, { text: String(position), ...strong }, [0, baseline])];
    if (color !== null)
      line.push({
        kind: 'polygon',
        pen: 'picture',
        fill: color,
        ring: box([numberWide + GAP_IN, (lineHigh - swatch) / 2 - 0.01], swatch, swatch),
      });
    line.push(textAt(typeface, { text: name, ...style }, [nameAt, baseline]));
    if (cut !== '') line.push(textAt(typeface, { text: cut, ...style }, [cutAt, baseline]));
    marks.push(...line.map((mark) => shiftMark(mark, x, y)));
  }
  return { width, height, marks };
}

const box = ([x, y]: Point, width: number, height: number): Ring => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];
