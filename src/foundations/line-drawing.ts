import type { BlockWork } from './block-work.ts';
import {
  draftsOf,
  flowInto,
  moved,
  type PageDraft,
  type PageSetting,
  paragraph,
  readingFrame,
  SMALL,
  titleStyle,
} from './flow.ts';
import { fitFront, outlineMarks, patchMarks } from './front-drawing.ts';
import { sizeWords, wholeUnit } from './guide/units.ts';

/** The block as bare lines, as large as the page allows but not over its own size, to be coloured by hand. */
export function lineDrawingPages(
  { plan, blockId, blockName, unit, allowance }: BlockWork,
  setting: PageSetting,
): readonly PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const { finished } = wholeUnit(plan, allowance);
  const head = [
    ...paragraph(typeface, blockName, titleStyle(blockName), frame.width),
    ...paragraph(
      typeface,
      `Line drawing to colour: the finished front. The block finishes ${sizeWords(finished, unit)}; do not sew on this page.`,
      SMALL,
      frame.width,
      0.02,
    ),
  ];
  const taken = head.reduce((sum, { height, space }) => sum + height + space, 0) + 0.2;
  const fit = fitFront(plan, frame.width, Math.max(0.5, frame.height - taken), 1);
  const drawing = [
    ...patchMarks(plan.patches, fit, () => undefined, 'picture'),
    ...outlineMarks(plan.patches, fit, 'frame'),
  ];
  const items = [
    ...head,
    { height: fit.height, space: 0.2, marks: moved(drawing, [(frame.width - fit.width) / 2, 0]) },
  ];
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    { part: 'line-drawing', block: blockId, title: `${blockName}: line drawing` },
    setting,
  );
}
