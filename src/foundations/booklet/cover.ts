import { phrase } from '../../words/phrase.ts';
import type { Mark } from '../marks.ts';
import { type BlockWork, type FabricWork, fabricWords } from './block-work.ts';
import { fitFront } from './fit.ts';
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
  ruleItem,
  SMALL,
  STRONG,
  type TextStyle,
  TITLE,
  together,
} from './flow.ts';
import { bothSizes } from './guide/steps.ts';
import { wholeUnit } from './guide/units.ts';
import { outlineMarks, patchMarks } from './patch-marks.ts';

const GAP_IN = 0.3;

/** The cover: the chosen blocks in colour with their sizes, and the fabrics they are made of. */
export function coverPages(blocks: readonly BlockWork[], setting: PageSetting): readonly PageDraft[] {
  const { typeface, project } = setting;
  const frame = readingFrame(setting);
  const [only, ...more] = blocks;
  if (!only) return [];
  const papers = blocks.reduce((sum, { plan, copies }) => sum + plan.sections.length * copies, 0);
  const copies = blocks.reduce((sum, one) => sum + one.copies, 0);
  const what =
    more.length === 0
      ? phrase(
          '{blockName}{isCopies, select, true {, {inCopies}} other {}}: {papers, plural, one {# foundation} other {# foundations}}',
          {
            blockName: only.blockName,
            isCopies: only.copies > 1,
            inCopies: phrase('{copies, plural, one {# copy} other {# copies}}', { copies: only.copies }),
            papers,
          },
        )
      : phrase(
          '{blocks, plural, one {# block} other {# blocks}}{isCopies, select, true { in {copies, number} copies} other {}}: {papers, plural, one {# foundation} other {# foundations}}',
          { blocks: blocks.length, isCopies: copies > blocks.length, copies, papers },
        );
  const itemsAt = (share: number): FlowItem[] => [
    ...paragraph(typeface, project, coverTitle(project), frame.width),
    ...paragraph(typeface, what, { ...BODY, points: 11 }, frame.width, 0.03),
    ruleItem(frame.width, 0.12),
    ...gallery(blocks, frame.width, share * frame.height, setting),
    ...fabricKey(blocks, frame.width, setting),
  ];
  // Somewhat smaller pictures are better than a few fabrics on a second page.
  const tries = [1, 0.85, 0.7, 0.55].map((share) => flowInto(itemsAt(share), frame.height));
  return draftsOf(
    tries.find((pages) => pages.length === 1) ?? tries[0]!,
    frame,
    { part: 'cover', block: null, title: phrase('Cover') },
    setting,
  );
}

/** The blocks in rows; one alone as large as it looks well. */
function gallery(
  blocks: readonly BlockWork[],
  width: number,
  height: number,
  { typeface }: PageSetting,
): FlowItem[] {
  const wished = blocks.length === 1 ? 1 : blocks.length <= 4 ? 2 : blocks.length <= 9 ? 3 : 4;
  const columns = Math.max(1, Math.min(wished, Math.floor((width + GAP_IN) / (1.2 + GAP_IN))));
  const cell = (width - (columns - 1) * GAP_IN) / columns;
  const high = Math.min(cell, (columns === 1 ? 0.6 : columns === 2 ? 0.36 : 0.19) * height);
  const rows: FlowItem[] = [];
  for (let i = 0; i < blocks.length; i += columns) {
    const cells = blocks.slice(i, i + columns).map((block) => {
      const fit = fitFront(block.plan, cell, high);
      const byId = new Map(block.fabrics.map((fabric) => [fabric.id, fabric]));
      const picture: Mark[] = [
        ...patchMarks(block.plan.patches, fit, ({ fabric }) =>
          fabric === null ? undefined : byId.get(fabric),
        ),
        ...outlineMarks(block.plan, block.plan.patches, fit, 'frame'),
      ];
      const words = [
        ...paragraph(typeface, block.blockName, columns === 1 ? HEADING : STRONG, cell, 0.08),
        ...paragraph(
          typeface,
          `${capital(bothSizes(wholeUnit(block.plan, block.allowance), block))}.`,
          SMALL,
          cell,
          0.01,
        ),
        ...paragraph(
          typeface,
          phrase(
            '{sections, plural, one {# foundation} other {# foundations}}{isCopies, select, true {, {copies, number} times} other {}}.',
            { sections: block.plan.sections.length, isCopies: block.copies > 1, copies: block.copies },
          ),
          SMALL,
          cell,
          0.01,
        ),
      ];
      // Pictures of a row stand on one line, whatever their shapes.
      return { picture: moved(picture, [0, high - fit.height]), words, height: fit.height };
    });
    const tallest = Math.max(...cells.map((one) => one.height));
    const rowCells = cells.map(({ picture, words }) =>
      together([{ height: tallest, marks: moved(picture, [0, tallest - high]), space: 0 }, ...words]),
    );
    rows.push({
      height: Math.max(...rowCells.map((one) => one.height)),
      space: 0.28,
      marks: rowCells.flatMap(({ marks }, k) => moved(marks, [k * (cell + GAP_IN), 0])),
    });
  }
  return rows;
}

/** A cover's title is large, unless the name is a sentence. */
const coverTitle = (name: string): TextStyle => ({ ...TITLE, points: [...name].length > 80 ? 16 : 28 });

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** Fabrics that the chosen blocks use, each with a swatch, in as many columns as stand. */
function fabricKey(blocks: readonly BlockWork[], width: number, { typeface }: PageSetting): FlowItem[] {
  const fabrics = fabricsUsed(blocks);
  if (fabrics.length === 0) return [];
  const columns = Math.max(1, Math.floor(width / 1.75));
  const cell = width / columns;
  const rows: FlowItem[] = [];
  for (let i = 0; i < fabrics.length; i += columns) {
    const cells = fabrics.slice(i, i + columns).map((fabric) => {
      const words = together(paragraph(typeface, fabricWords(fabric), BODY, cell - 0.45));
      return {
        height: Math.max(0.23, words.height + 0.04),
        marks: [swatch(fabric, 0.2, [0, 0.01]), ...moved(words.marks, [0.3, 0.02])],
      };
    });
    rows.push({
      height: Math.max(...cells.map(({ height }) => height)),
      space: 0.07,
      marks: cells.flatMap(({ marks }, k) => moved(marks, [k * cell, 0])),
    });
  }
  return [
    ...paragraph(typeface, phrase('Fabrics'), HEADING, width, 0.25).map((item) => ({
      ...item,
      keepsWithNext: true,
    })),
    ...rows,
  ];
}

/** The fabrics painted in some blocks, in the order of the project. */
export function fabricsUsed(blocks: readonly BlockWork[]): readonly FabricWork[] {
  const used = new Set(blocks.flatMap(({ plan }) => plan.patches.map(({ fabric }) => fabric)));
  return (blocks[0]?.fabrics ?? []).filter(({ id }) => used.has(id));
}

/** A square of the fabric's colour, or of the whole of its picture. */
export const swatch = (
  { color, picture }: Pick<FabricWork, 'color' | 'picture'>,
  side: number,
  [x, y]: readonly [number, number],
): Mark => ({
  kind: 'polygon',
  pen: 'picture',
  fill: color,
  ...(picture && {
    print: {
      data: picture.data,
      at: [x, y],
      // The longer side runs over the edge, so that the square is full.
      width: side * Math.max(1, picture.width / picture.height),
      height: side * Math.max(1, picture.height / picture.width),
      quarterTurns: 0,
    },
  }),
  ring: [
    [x, y],
    [x + side, y],
    [x + side, y + side],
    [x, y + side],
  ],
});
