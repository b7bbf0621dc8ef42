import { phrase } from '../../words/phrase.ts';
import type { BlockWork } from './block-work.ts';
import { fitFront } from './fit.ts';
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
import { sizeWords, wholeUnit } from './guide/units.ts';
import { outlineMarks, patchMarks } from './patch-marks.ts';

/** Space between two drawings, and least above the foot of the page, inches. */
const BETWEEN_IN = 0.4;
const ABOVE_FOOT_IN = 0.15;

/**
 * The block as bare lines, as large as the page allows but not over its own size, to be coloured by hand; twice where
 * that leaves room for it, for another colouring.
 */
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
      phrase(
        'Line drawing to colour: the finished front. The block finishes {isRectangle, select, true {} other {at its widest }}{sizeWords}; do not sew on this page.',
        { isRectangle: finished.isRectangle, sizeWords: sizeWords(finished, unit) },
      ),
      SMALL,
      frame.width,
      0.02,
    ),
  ];
  const taken = head.reduce((sum, { height, space }) => sum + height + space, 0) + 0.2;
  const room = Math.max(0.5, frame.height - taken - ABOVE_FOOT_IN);
  const fit = fitFront(plan, frame.width, room, 1);
  const drawing = [
    ...patchMarks(plan.patches, fit, () => undefined, 'picture'),
    ...outlineMarks(plan, plan.patches, fit, 'frame'),
  ];
  const item = { height: fit.height, space: 0.2, marks: moved(drawing, [(frame.width - fit.width) / 2, 0]) };
  const isTwice = 2 * fit.height + BETWEEN_IN <= room;
  const items = [...head, item, ...(isTwice ? [{ ...item, space: BETWEEN_IN }] : [])];
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    { part: 'line-drawing', block: blockId, title: phrase('{blockName}: line drawing', { blockName }) },
    setting,
  );
}
