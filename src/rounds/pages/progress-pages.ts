import {
  BODY,
  draftsOf,
  type FlowItem,
  flowInto,
  type PageDraft,
  paragraph,
  readingFrame,
  TITLE,
} from '../../foundations/booklet/flow.ts';
import type { Mark } from '../../foundations/marks.ts';
import { boxOf } from '../../geometry/ring.ts';
import { layOut } from '../../quilt/layout.ts';
import { drawn } from '../../quilt/papers/drawn.ts';
import { fitBox, numberMarks, outlineOf, pieceMarks } from '../../quilt/papers/quilt-marks.ts';
import { numbersOf } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import type { SewPrint } from './sew-print.ts';

/**
 * A picture in lines alone, to be coloured as blocks are finished: one for each quilt that is made, or the blocks side
 * by side where there is none.
 */
export function progressPages({ project, work, setting }: SewPrint): PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const title = phrase('Progress map');
  const page = (name: string, drawing: FlowItem): PageDraft[] =>
    draftsOf(
      flowInto(
        [
          ...paragraph(typeface, name, TITLE, frame.width),
          ...paragraph(typeface, phrase('Colour what is finished. Front view.'), BODY, frame.width, 0.04),
          drawing,
        ],
        frame.height,
      ),
      frame,
      { part: 'line-drawing', block: null, title },
      setting,
    );
  const layout = layOut({ places: project.quilt?.places ?? [] }, project.blocks);
  if (layout.pieces.length > 0) {
    const fit = fitBox(layout.box, frame.width, frame.height - 0.8);
    const bare = pieceMarks(layout.pieces, { ...project, fabrics: [] }, fit);
    const marks = [
      ...bare,
      ...outlineOf(layout.pieces, fit),
      ...numberMarks(layout.pieces, numbersOf(layout), fit, typeface),
    ];
    const copies = work.quilt?.copies ?? 1;
    return Array.from({ length: copies }, (_, k) =>
      page(
        copies > 1
          ? phrase('Progress map, quilt {k, number} of {copies, number}', { k: k + 1, copies })
          : title,
        drawn(fit, frame.width, marks, 0.14),
      ),
    ).flat();
  }
  const all = work.blocks.flatMap((block) => Array.from({ length: block.copies }, () => block));
  const columns = Math.ceil(Math.sqrt((all.length * frame.width) / frame.height));
  const cell = frame.width / Math.max(1, columns);
  const marks = all.flatMap((block, k): Mark[] => {
    const fit = fitBox(boxOf(block.outline), 0.9 * cell, 0.9 * cell);
    const [x, y] = [(k % columns) * cell, Math.floor(k / columns) * cell];
    return block.patches.map(
      ({ polygon }): Mark => ({
        kind: 'polygon',
        pen: 'picture',
        ring: polygon.map((point) => {
          const [px, py] = fit.place(point);
          return [x + px, y + py] as const;
        }),
      }),
    );
  });
  return page(title, { height: Math.ceil(all.length / Math.max(1, columns)) * cell, space: 0.14, marks });
}
