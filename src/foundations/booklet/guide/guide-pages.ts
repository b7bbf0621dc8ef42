import type { PiecingPlan } from '../../../piecing/plan.ts';
import { verdictSentence } from '../../../piecing/sentences.ts';
import { phrase } from '../../../words/phrase.ts';
import type { Typeface } from '../../type/typeface.ts';
import type { BlockWork } from '../block-work.ts';
import { fitFront, fitUnit } from '../fit.ts';
import {
  BODY,
  beside,
  draftsOf,
  type FlowItem,
  flowInto,
  HEADING,
  moved,
  oneLine,
  type PageDraft,
  type PageSetting,
  paragraph,
  readingFrame,
  ruleItem,
  SMALL,
  STRONG,
  tickBox,
  titleStyle,
  together,
} from '../flow.ts';
import { joinDrawing, startDrawing } from '../join-drawing.ts';
import { joinStrip } from '../join-strip.ts';
import { sectionsDrawing } from '../sections-drawing.ts';
import {
  blockSizeWords,
  EVERY_JOIN,
  everyPaper,
  type GuideOptions,
  type GuideStep,
  guideSteps,
  type Line,
  paperLines,
  partialSeamWords,
} from './steps.ts';

/** A page narrower than this has its drawings above their words. Inches. */
const WIDE_IN = 5.5;

/** Space between a drawing and the words beside it, inches. */
const GUTTER_IN = 0.28;

const BOX_IN = 0.26;

/**
 * The joining guide of one block: front view with its sections, the papers with their sizes, how every join goes,
 * and a step a join with its drawing and its box to tick. The plan must be one that can be sewn.
 */
export function guidePages(request: BlockWork, setting: PageSetting): readonly PageDraft[] {
  const { plan, blockName, unit, allowance } = request;
  const { typeface } = setting;
  const options: GuideOptions = { unit, allowance };
  const frame = readingFrame(setting);
  const steps = guideSteps(plan, options);
  const made = steps.map((step) => stepItems(step, request, frame, setting));
  const rest: readonly FlowItem[] = [
    // Papers that show the front are for methods of their own.
    ...(setting.side === 'printed'
      ? saidOnce(phrase('Every paper'), everyPaper(options), typeface, frame.width)
      : []),
    ...(steps.some(({ kind }) => kind === 'join')
      ? saidOnce(
          phrase('Every join'),
          [...EVERY_JOIN, ...(made.some(({ hasStrip }) => hasStrip) ? [stripWords(setting.side)] : [])],
          typeface,
          frame.width,
        )
      : []),
    // The last join and the last words go to the next page together.
    ...made.flatMap(({ items }, i) =>
      i < made.length - 1 ? items : items.map((item) => ({ ...item, keepsWithNext: true })),
    ),
    ...partialSeam(plan, typeface, frame.width),
    ...lastStep(plan, options, typeface, frame.width),
  ];
  const itemsAt = (share: number): FlowItem[] => [
    ...paragraph(typeface, blockName, titleStyle(blockName), frame.width),
    ...paragraph(
      typeface,
      phrase('Joining guide. {verdictSentence}', { verdictSentence: verdictSentence(plan) }),
      BODY,
      frame.width,
      0.02,
    ),
    ...paragraph(typeface, blockSizeWords(plan, options), STRONG, frame.width, 0.03),
    ruleItem(frame.width, 0.1),
    ...overview(request, steps, frame.width, share, setting),
    ...rest,
  ];
  // A somewhat smaller front view is better than a last page with three lines on it.
  const tries = [1, 0.86, 0.74].map((share) => flowInto(itemsAt(share), frame.height));
  const fewest = Math.min(...tries.map(({ length }) => length));
  return draftsOf(
    tries.find(({ length }) => length === fewest)!,
    frame,
    { part: 'guide', block: request.blockId, title: phrase('{blockName}: joining guide', { blockName }) },
    setting,
  );
}

/** The front view, and beside it the papers to sew first. */
function overview(
  { plan, unit, allowance, copies }: BlockWork,
  steps: readonly GuideStep[],
  width: number,
  share: number,
  { typeface, page, side }: PageSetting,
): FlowItem[] {
  const isWide = width >= WIDE_IN;
  const isOne = plan.sections.length === 1;
  const papersAre = isOne ? phrase('the paper is') : phrase('the papers are');
  const mirror = side === 'printed' ? phrase('; {papersAre} its mirror image', { papersAre }) : '';
  // Where there are many sections the front view needs all the width there is for their letters and joins.
  const isLarge = plan.sections.length > MANY_SECTIONS;
  const drawn = share * (isWide && !isLarge ? Math.min(3.6, 0.48 * width) : width);
  const fit = fitFront(
    plan,
    drawn,
    share * (isLarge ? Math.min(width, 0.66 * page.height) : Math.min(4, 0.42 * page.height)),
  );
  const caption = paragraph(
    typeface,
    steps.length > 0
      ? phrase(
          'The finished front{mirror}. Letters are sections; dashed lines are joins, each with its step.',
          { mirror },
        )
      : phrase('The finished front{mirror}.', { mirror }),
    SMALL,
    drawn,
    0.08,
  );
  const picture = together([
    { height: fit.height, marks: sectionsDrawing(plan, fit, typeface), space: 0.14 },
    ...caption,
  ]);
  const column = isLarge && isWide ? (width - GUTTER_IN) / 2 : isWide ? width - drawn - GUTTER_IN : width;
  const made =
    copies === 1 ? '' : phrase(' Make {copies}{isOne, select, true {} other { of each}}.', { copies, isOne });
  const head: FlowItem[] = [
    ...paragraph(
      typeface,
      isOne ? phrase('First sew the paper') : phrase('First sew the papers'),
      HEADING,
      isLarge ? width : column,
    ),
    ...paragraph(
      typeface,
      phrase(
        'Tick {isOne, select, true {it} other {each}} when it is sewn and trimmed.{made} Sizes are across × down in the front view.',
        { isOne, made },
      ),
      SMALL,
      isLarge ? width : column,
      0.03,
    ),
  ];
  const papers = paperLines(plan, { unit, allowance }).map((paper) =>
    boxed(
      [
        ...paragraph(typeface, `${paper.letter}: ${paper.order}`, STRONG, column - BOX_IN),
        ...(paper.wait === null ? [] : paragraph(typeface, paper.wait, SMALL, column - BOX_IN)),
        ...paragraph(typeface, paper.sizes, SMALL, column - BOX_IN),
      ],
      0.07,
      0.012,
    ),
  );
  const under = (items: readonly FlowItem[]): FlowItem[] => [
    picture,
    ...items.map((item, i) => ({
      ...item,
      space: i === 0 ? 0.2 : item.space,
      keepsWithNext: i < head.length,
    })),
  ];
  if (isLarge && isWide) return under([...head, ...inPairs(papers, column + GUTTER_IN)]);
  const all = [...head, ...papers];
  const high = all.reduce((sum, one) => sum + one.height + one.space, 0);
  // A long list of papers runs on under the drawing instead of leaving it alone on its page.
  if (!isWide || high > 0.8 * page.height - 2.5) return under(all);
  return [{ ...beside(picture, all, drawn + GUTTER_IN), space: 0.14 }];
}

/** More sections than this want a front view as wide as the page. */
const MANY_SECTIONS = 12;

/** Items two and two side by side, read line by line. */
function inPairs(items: readonly FlowItem[], x: number): FlowItem[] {
  const rows: FlowItem[] = [];
  for (let i = 0; i < items.length; i += 2)
    rows.push({ ...beside(items[i]!, items.slice(i + 1, i + 2), x), space: items[i]!.space });
  return rows;
}

/** How all papers or all joins are sewn, under a rule and a heading. */
function saidOnce(
  heading: string,
  sentences: readonly string[],
  typeface: Typeface,
  width: number,
): FlowItem[] {
  return [
    { ...ruleItem(width, 0.16), keepsWithNext: true },
    ...paragraph(typeface, heading, HEADING, width, 0.1).map((item) => ({ ...item, keepsWithNext: true })),
    ...sentences.map((text) => together(paragraph(typeface, text, BODY, width), 0.025)),
  ];
}

/** Sentences with a box to tick before them. */
function boxed(items: readonly FlowItem[], space: number, drop = 0.03): FlowItem {
  const words = together(items, space);
  return beside({ height: 0.15, marks: [tickBox([0, drop])], space }, [{ ...words, space: 0 }], BOX_IN);
}

/** A unit this many times as wide as it is high is long; its drawing is no higher than this, inches. */
const LONG = 2;
const LONG_HIGH_IN = 2.2;

/** The drawing of a step, `drawn` inches wide and at most `high`. */
function stepPicture(
  step: GuideStep,
  plan: PiecingPlan,
  typeface: Typeface,
  { drawn, high = drawn }: { readonly drawn: number; readonly high?: number },
) {
  // Labels of points at the rim stand a little outside the drawing.
  const rim = 0.2;
  const room = [drawn - 2 * rim, high - 2 * rim] as const;
  // The two units fill the drawing: in a whole block the points of a short join would lie on each other.
  const fit =
    step.kind === 'join'
      ? fitUnit(plan, [...step.join.left, ...step.join.right], ...room)
      : fitFront(plan, ...room);
  const { marks, unnamed } =
    step.kind === 'join'
      ? joinDrawing(plan, step.join, fit, typeface)
      : { marks: startDrawing(plan, step.unit, step.section, fit, typeface), unnamed: [] };
  const picture: FlowItem = {
    height: fit.height + 2 * rim,
    space: 0.12,
    marks: moved(marks, [(drawn - fit.width) / 2, rim]),
  };
  return { picture, unnamed, drawn, isLong: fit.width > LONG * fit.height };
}

function stepItems(
  step: GuideStep,
  { plan }: BlockWork,
  frame: { readonly width: number },
  { typeface }: PageSetting,
): { readonly items: FlowItem[]; readonly hasStrip: boolean } {
  const canBeside = frame.width >= WIDE_IN;
  const small = stepPicture(step, plan, typeface, {
    drawn: canBeside ? 2.1 : Math.min(2.6, frame.width - 0.4),
  });
  // A long unit has no room beside words for its letters and points: it stands over them, as wide as the page.
  const isOver = canBeside && small.isLong && small.unnamed.length > 0;
  const { picture, unnamed, drawn } = isOver
    ? stepPicture(step, plan, typeface, { drawn: frame.width, high: LONG_HIGH_IN })
    : small;
  const isWide = canBeside && !isOver;
  const column = isWide ? frame.width - drawn - GUTTER_IN : frame.width;
  const words = [
    boxed(paragraph(typeface, step.title, HEADING, column - BOX_IN), 0, 0.025),
    ...step.lines.map((line) => lineItem(line, column, typeface)),
  ];
  // Where the points lie too close for the drawing, the seam stands under it, laid straight over the whole width.
  const strip: FlowItem[] =
    step.kind === 'join' && unnamed.length > 0
      ? [{ ...joinStrip(plan, step.join, frame.width, typeface), space: 0.08 }]
      : [];
  const hasStrip = strip.length > 0;
  const rule = { ...ruleItem(frame.width, 0.14), keepsWithNext: true };
  if (isOver) {
    const [title, ...lines] = words;
    const items = [rule, { ...title!, space: 0.1 }, { ...picture, space: 0 }, ...strip, ...lines];
    return {
      items: items.map((item, i) => ({ ...item, keepsWithNext: i < items.length - 1 })),
      hasStrip,
    };
  }
  if (!isWide) return { items: [rule, { ...picture, keepsWithNext: true }, ...strip, ...words], hasStrip };
  // Words as high as the picture stand beside it; a long step may run on to the next page after them.
  let high = 0;
  let count = 0;
  while (count < words.length && high < picture.height) high += words[count]!.height + words[count++]!.space;
  const x = drawn + GUTTER_IN;
  const rest = words.slice(count).map((item): FlowItem => ({ ...item, marks: moved(item.marks, [x, 0]) }));
  const isShort = rest.length <= 3;
  const items = [
    rule,
    {
      ...beside(picture, words.slice(0, count), x),
      space: 0.1,
      keepsWithNext: hasStrip || (isShort && rest.length > 0),
    },
    ...rest.map((item, i) => ({
      ...item,
      keepsWithNext: hasStrip || (isShort && i < rest.length - 1),
    })),
    ...strip,
  ];
  return { items, hasStrip };
}

/** What the strips of joins show, said once. */
const stripWords = (side: PageSetting['side']): string =>
  phrase(
    'Where points lie close together the join is drawn once more, laid level and seen from the front{side, select, printed {; the papers are its mirror image} other {}}. A tick there stands on the side from which a seam comes in.',
    { side },
  );

/** What a line is about, and its sentences in a column beside it. */
function lineItem({ about, text }: Line, width: number, typeface: Typeface): FlowItem {
  const indent = 0.62;
  return beside(
    { ...oneLine(typeface, about, { ...STRONG, points: 9 }, indent, 0.035) },
    paragraph(typeface, text, { ...BODY, points: 9 }, width - indent),
    indent,
  );
}

function partialSeam(plan: PiecingPlan, typeface: Typeface, width: number): FlowItem[] {
  const words = partialSeamWords(plan);
  if (words === null) return [];
  const [heading, ...rest] = words.split('. ');
  return [
    { ...ruleItem(width, 0.16), keepsWithNext: true },
    ...paragraph(typeface, heading!, HEADING, width, 0.1).map((item) => ({ ...item, keepsWithNext: true })),
    together(paragraph(typeface, rest.join('. '), BODY, width), 0.03),
  ];
}

/** The block done: measure it, and what happens to the paper. */
function lastStep(plan: PiecingPlan, options: GuideOptions, typeface: Typeface, width: number): FlowItem[] {
  const size = blockSizeWords(plan, options);
  return [
    { ...ruleItem(width, 0.16), keepsWithNext: true },
    boxed(
      [
        ...paragraph(typeface, phrase('The block is done'), HEADING, width - BOX_IN),
        ...paragraph(
          typeface,
          phrase(
            'Measure it before it goes into the quilt. {size} Leave the paper on its outer edges until these are sewn to their neighbours; then take it off from the patch sewn last to the first.',
            { size },
          ),
          BODY,
          width - BOX_IN,
          0.03,
        ),
      ],
      0.12,
      0.025,
    ),
  ];
}
