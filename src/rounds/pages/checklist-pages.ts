import {
  BODY,
  draftsOf,
  type FlowItem,
  flowInto,
  HEADING,
  moved,
  type PageDraft,
  paragraph,
  readingFrame,
  SMALL,
  STRONG,
  TITLE,
  tickBox,
  together,
} from '../../foundations/booklet/flow.ts';
import type { Mark } from '../../foundations/marks.ts';
import { PT } from '../../foundations/marks.ts';
import { lengthOf, textAt } from '../../foundations/type/lettering.ts';
import { clothLength } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { paperId } from '../papers.ts';
import { joinWords, paperName, unitWords } from '../words.ts';
import { boxed, inColumns } from './card-pages.ts';
import type { SewPrint } from './sew-print.ts';

const BOX_IN = 0.13;

/** Everything to be done, block by block and copy by copy: a box for each position, join and trim, then the quilt. */
export function checklistPages({ project, work, setting }: SewPrint): PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const half = (frame.width - 0.3) / 2;
  const heading = (text: string): FlowItem[] =>
    paragraph(typeface, text, HEADING, frame.width, 0.18).map((item) => ({ ...item, keepsWithNext: true }));
  const items: FlowItem[] = [
    ...paragraph(typeface, phrase('Checklist'), TITLE, frame.width),
    ...paragraph(
      typeface,
      phrase(
        'A box for each position in the order it is sewn. Tick it when it is sewn, trimmed and pressed.',
      ),
      SMALL,
      frame.width,
      0.04,
    ),
    ...work.blocks.flatMap((block) =>
      Array.from({ length: block.copies }, (_, k) => k + 1).flatMap((copy): FlowItem[] => [
        ...heading(
          block.copies > 1 ? phrase('{block}, copy {copy, number}', { block: block.name, copy }) : block.name,
        ),
        ...block.sections.map(({ letter, order }) =>
          positions(typeface, paperName(work, paperId(block.id, letter, copy)), order, frame.width),
        ),
        ...inColumns(
          [
            ...block.joins.map((join, k) =>
              boxed(
                typeface,
                phrase('{step, number}. {units}', { step: k + 1, units: joinWords(join) }),
                half,
              ),
            ),
            boxed(typeface, phrase('Pressed and trimmed on the outer line'), half),
          ],
          half + 0.3,
        ),
      ]),
    ),
  ];
  const { quilt } = work;
  quilt?.done.forEach((_, k) => {
    items.push(
      ...heading(
        quilt.copies > 1 ? phrase('The quilt, number {k, number}', { k: k + 1 }) : phrase('The quilt'),
      ),
      ...inColumns(
        quilt.steps.map(({ length }, step) => {
          const [left, right] = unitWords(work, step);
          const text = phrase('{step, number}. {left} to {right}, {length}', {
            step: step + 1,
            left,
            right,
            length: clothLength(length, project.unit),
          });
          return boxed(typeface, text, half);
        }),
        half + 0.3,
      ),
    );
  });
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    { part: 'guide', block: null, title: phrase('Checklist') },
    setting,
  );
}

/** The name of a paper and a box for each of its positions, as many to a line as there is room. */
function positions(
  typeface: SewPrint['setting']['typeface'],
  name: string,
  order: readonly string[],
  width: number,
): FlowItem {
  const size = BODY.points * PT;
  const line = 1.5 * size;
  const head = together(paragraph(typeface, name, STRONG, width));
  const marks: Mark[] = [...head.marks];
  let [x, y] = [0, head.height];
  for (const id of order) {
    const text = { text: id, face: 'regular', size } as const;
    const step = BOX_IN + 0.06 + lengthOf(typeface, text) + 0.16;
    if (x > 0 && x + step > width) {
      x = 0;
      y += line;
    }
    marks.push(
      tickBox([x, y + 0.01], BOX_IN),
      ...moved([textAt(typeface, text, [BOX_IN + 0.06, 0.98 * size])], [x, y]),
    );
    x += step;
  }
  return { height: y + line, space: 0.05, marks };
}
