import { phrase } from '../../words/phrase.ts';
import type { Mark } from '../marks.ts';
import type { BlockWork, FabricWork } from './block-work.ts';
import { fabricsUsed, swatch } from './cover.ts';
import {
  BODY,
  draftsOf,
  type FlowItem,
  flowInto,
  HEADING,
  moved,
  type PageDraft,
  type PageSetting,
  paragraph,
  readingFrame,
  SMALL,
  STRONG,
  together,
} from './flow.ts';

const LABEL_IN = 2.3;
const PAD_IN = 0.1;

/** A pile of cut pieces: one fabric of one block. */
export interface Pile {
  readonly fabric: FabricWork | null;
  /** Ids of its patches, in the order of the papers. */
  readonly patches: readonly string[];
}

/** The piles of one block: a fabric each, in the order of the project; what is unpainted comes last. */
export function pilesOf(block: BlockWork): readonly Pile[] {
  const of = (fabric: string | null): string[] =>
    block.plan.patches.filter((patch) => patch.fabric === fabric).map(({ id }) => id);
  const known = new Set(block.fabrics.map(({ id }) => id));
  const bare = block.plan.patches
    .filter(({ fabric }) => fabric === null || !known.has(fabric))
    .map(({ id }) => id);
  return [
    ...fabricsUsed([block]).map((fabric): Pile => ({ fabric, patches: of(fabric.id) })),
    ...(bare.length > 0 ? [{ fabric: null, patches: bare }] : []),
  ];
}

/** Labels for the piles of all chosen blocks, to be cut apart and laid or pinned on what is cut. */
export function pileLabelPages(blocks: readonly BlockWork[], setting: PageSetting): readonly PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const columns = Math.max(1, Math.floor(frame.width / LABEL_IN));
  const cell = frame.width / columns;
  const labels = blocks.flatMap((block) => pilesOf(block).map((pile) => labelOf(block, pile, cell, setting)));
  if (labels.length === 0) return [];
  const rows: FlowItem[] = [];
  for (let i = 0; i < labels.length; i += columns) {
    const row = labels.slice(i, i + columns);
    const height = Math.max(0.9, ...row.map((one) => one.height + 2 * PAD_IN));
    const corners = (k: number): Mark => ({
      kind: 'polygon',
      pen: 'cut-apart',
      ring: [
        [k * cell, 0],
        [(k + 1) * cell, 0],
        [(k + 1) * cell, height],
        [k * cell, height],
      ],
    });
    rows.push({
      height,
      space: 0,
      marks: row.flatMap(({ marks }, k) => [corners(k), ...moved(marks, [k * cell + PAD_IN, PAD_IN])]),
    });
  }
  const head = paragraph(
    typeface,
    phrase('Labels for piles: cut them apart, and lay each with its fabric once it is cut.'),
    BODY,
    frame.width,
  );
  const [first, ...rest] = rows;
  return draftsOf(
    flowInto([...head, { ...first!, space: 0.12 }, ...rest], frame.height),
    frame,
    {
      part: 'labels',
      block: blocks.length === 1 ? blocks[0]!.blockId : null,
      title: phrase('Labels for piles'),
    },
    setting,
  );
}

function labelOf(
  { blockName, copies }: BlockWork,
  { fabric, patches }: Pile,
  cell: number,
  { typeface }: PageSetting,
): FlowItem {
  const width = cell - 2 * PAD_IN;
  const beside = width - 0.45;
  const name = fabric ? fabric.label.meaning : phrase('No fabric yet');
  const head = together([
    ...paragraph(typeface, fabric?.label.code ?? '–', HEADING, beside),
    ...(fabric && fabric.label.meaning === fabric.label.code
      ? []
      : paragraph(typeface, name, STRONG, beside)),
  ]);
  const pieces = patches.length * copies;
  return together([
    {
      ...head,
      height: Math.max(0.38, head.height),
      marks: [...(fabric ? [swatch(fabric, 0.35, [0, 0.02])] : []), ...moved(head.marks, [0.45, 0])],
    },
    ...paragraph(
      typeface,
      phrase(
        '{blockName}: {pieces, plural, one {# piece} other {# pieces}}{isCopies, select, true {, {copies} of each} other {}}',
        { blockName, pieces, isCopies: copies > 1, copies },
      ),
      SMALL,
      width,
      0.05,
    ),
    ...paragraph(typeface, patches.join(' '), { ...BODY, points: 9 }, width, 0.02),
  ]);
}
