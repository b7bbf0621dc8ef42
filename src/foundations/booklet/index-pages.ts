import { phrase } from '../../words/phrase.ts';
import { type Mark, PT } from '../marks.ts';
import type { PaperShown, Sheet } from '../sheet/sheet.ts';
import { lengthOf, textAt } from '../type/lettering.ts';
import type { BlockWork } from './block-work.ts';
import {
  BODY,
  draftsOf,
  type FlowItem,
  flowInto,
  HEADING,
  type PageDraft,
  type PageSetting,
  paragraph,
  readingFrame,
  ruleItem,
  STRONG,
  TITLE,
  tickBox,
} from './flow.ts';

const LINE_IN = 0.21;
const BOX_IN = 0.13;
/** From a box to its words, and from one entry to the next, inches. */
const BESIDE_IN = 0.06;
const APART_IN = 0.22;
/** Room for the letter of a section before its papers, inches. */
const LETTER_IN = 0.42;

interface Found extends PaperShown {
  /** Of the foundations, from 1. */
  readonly sheet: number;
}

/**
 * On which sheet each paper lies: block by block and section by section a box to tick for each copy, or for each tile of
 * it where it lies on several.
 */
export function indexPages(
  blocks: readonly BlockWork[],
  sheets: readonly Sheet[],
  setting: PageSetting,
): readonly PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const found = sheets.flatMap(({ parts }, i) =>
    parts.flatMap(({ paper }): Found[] => (paper ? [{ ...paper, sheet: i + 1 }] : [])),
  );
  const style = { face: 'regular', size: BODY.points * PT } as const;
  const strong = { face: 'semibold', size: STRONG.points * PT } as const;

  const rowsOf = (block: BlockWork, letter: string): FlowItem[] => {
    const own = found
      .filter(({ block: id, section }) => id === block.blockId && section === letter)
      .sort((a, b) => a.copy - b.copy || (a.tile?.number ?? 0) - (b.tile?.number ?? 0));
    const entries = own.map((one) => wordsOf(one, block.copies));
    const widest = Math.max(0, ...entries.map((text) => lengthOf(typeface, { text, ...style })));
    const cell = BOX_IN + BESIDE_IN + widest + APART_IN;
    const columns = Math.max(1, Math.floor((frame.width - LETTER_IN + APART_IN) / cell));
    const rows: FlowItem[] = [];
    for (let i = 0; i < entries.length; i += columns) {
      const marks: Mark[] = i === 0 ? [textAt(typeface, { text: letter, ...strong }, [0, 0.125])] : [];
      for (const [k, text] of entries.slice(i, i + columns).entries()) {
        const x = LETTER_IN + k * cell;
        marks.push(
          tickBox([x, 0.02], BOX_IN),
          textAt(typeface, { text, ...style }, [x + BOX_IN + BESIDE_IN, 0.125]),
        );
      }
      rows.push({
        height: LINE_IN,
        marks,
        space: i === 0 ? 0.03 : 0,
        keepsWithNext: i + columns < entries.length,
      });
    }
    return rows;
  };

  const listed = blocks.flatMap((block): FlowItem[] => {
    const letters = block.plan.sections.map(({ letter }) => letter);
    const rows = letters.flatMap((letter) => rowsOf(block, letter));
    if (rows.length === 0) return [];
    const head = paragraph(typeface, block.blockName, HEADING, frame.width, 0.2);
    return [...head.map((item) => ({ ...item, keepsWithNext: true })), ...rows];
  });
  if (listed.length === 0) return [];
  const items: FlowItem[] = [
    ...paragraph(typeface, phrase('Sheet index'), TITLE, frame.width),
    ...paragraph(
      typeface,
      phrase(
        'On which of the {sheets, plural, one {# sheet} other {# sheets}} of foundations each paper lies. Tick it when it is cut out.',
        { sheets: sheets.length },
      ),
      BODY,
      frame.width,
      0.04,
    ),
    ruleItem(frame.width, 0.1),
    ...listed,
  ];
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    {
      part: 'index',
      block: blocks.length === 1 ? blocks[0]!.blockId : null,
      title: phrase('Sheet index'),
    },
    setting,
  );
}

function wordsOf({ copy, tile, sheet }: Found, copies: number): string {
  const values = { copy, sheet, tile: tile?.number ?? 0 };
  if (copies > 1)
    return tile
      ? phrase('copy {copy}, tile {tile}: sheet {sheet}', values)
      : phrase('copy {copy}: sheet {sheet}', values);
  return tile ? phrase('tile {tile}: sheet {sheet}', values) : phrase('sheet {sheet}', values);
}
