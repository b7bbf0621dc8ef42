import { cuttingRulesOf } from '../../cutting/project-cutting.ts';
import { lengthOfStrips } from '../../cutting/strips/cloth.ts';
import { CAUTIONS } from '../../foundations/booklet/cautions.ts';
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
  ruleItem,
  SMALL,
  STRONG,
  TITLE,
  tickBox,
  together,
} from '../../foundations/booklet/flow.ts';
import { clothLength } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { cutsOfRound } from '../round-cuts.ts';
import { cutWords, fabricName, paperName } from '../words.ts';
import { swatchOf } from './marks.ts';
import type { SewPrint } from './sew-print.ts';

const SWATCH_IN = 0.42;
const BESIDE_IN = SWATCH_IN + 0.14;
/** The share of a page up to which a card is kept whole. */
const WHOLE_SHARE = 0.6;
/** From the left of a line with a box to its words. */
const BOX_IN = 0.24;

/** A card for each round, one below the other: what is cut, and every paper that takes it, with boxes to tick. */
export function cardPages({ project, work, setting }: SewPrint): PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const half = (frame.width - 0.3) / 2;
  const cautions = CAUTIONS.flatMap(({ lines }) => lines.slice(0, 1)).join(' ');
  const items: FlowItem[] = [
    ...paragraph(typeface, phrase('Round cards'), TITLE, frame.width),
    ...paragraph(
      typeface,
      phrase('{cautions} The makers’ instructions and local rules come first.', { cautions }),
      SMALL,
      frame.width,
      0.06,
    ),
  ];
  work.rounds.forEach(({ fabric: id, takes }, k) => {
    const fabric = project.fabrics.find((one) => one.id === id);
    const cloth = {
      usableWidth: fabric?.width ?? cuttingRulesOf(project).usableWidth,
      isDirectional: fabric?.directional === true,
    };
    const { sizes, strips } = cutsOfRound(work, k, cloth);
    const pieces = takes.reduce((sum, { patches }) => sum + patches.length, 0);
    const head = [
      ...paragraph(
        typeface,
        phrase('{round, number}. {fabric}', { round: k + 1, fabric: fabricName(project, id) }),
        HEADING,
        frame.width - BESIDE_IN,
      ),
      ...paragraph(
        typeface,
        strips.length > 0
          ? phrase(
              '{pieces, plural, one {# piece} other {# pieces}} on {papers, plural, one {# paper} other {# papers}}. {strips, plural, one {# strip} other {# strips}}, {length} of the cloth: {heights}.',
              {
                pieces,
                papers: takes.length,
                strips: strips.length,
                length: clothLength(lengthOfStrips(strips), project.unit),
                heights: strips.map(({ height }) => clothLength(height, project.unit)).join(', '),
              },
            )
          : phrase(
              '{pieces, plural, one {# piece} other {# pieces}} on {papers, plural, one {# paper} other {# papers}}.',
              {
                pieces,
                papers: takes.length,
              },
            ),
        BODY,
        frame.width - BESIDE_IN,
      ),
    ];
    const top = together(head);
    const card: FlowItem[] = [
      ruleItem(frame.width, 0.16),
      {
        height: Math.max(SWATCH_IN, top.height),
        space: 0.1,
        marks: [swatchOf(fabric, SWATCH_IN, [0, 0]), ...moved(top.marks, [BESIDE_IN, 0])],
        keepsWithNext: true,
      },
      ...inColumns(
        sizes.map(({ cut, count }) =>
          boxed(
            typeface,
            phrase('Cut {count, number}: {size}', { count, size: cutWords(cut, project.unit) }),
            half,
          ),
        ),
        half + 0.3,
      ),
      ...inColumns(
        takes.map(({ paper, patches }) =>
          boxed(
            typeface,
            phrase('{paper}: {patches}', { paper: paperName(work, paper), patches: patches.join(', ') }),
            half,
            true,
          ),
        ),
        half + 0.3,
      ),
    ];
    // A card that fits is not parted between two pages.
    const whole = together(card);
    if (whole.height < WHOLE_SHARE * frame.height) items.push(whole);
    else items.push(...card);
  });
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    { part: 'guide', block: null, title: phrase('Round cards') },
    setting,
  );
}

/** A line with a box to tick. */
export function boxed(
  typeface: SewPrint['setting']['typeface'],
  text: string,
  width: number,
  isStrong = false,
): FlowItem {
  const words = together(paragraph(typeface, text, isStrong ? STRONG : BODY, width - BOX_IN));
  return {
    height: words.height + 0.03,
    space: 0.03,
    marks: [tickBox([0, 0.01]), ...moved(words.marks, [BOX_IN, 0])],
  };
}

/** Items two beside each other, row by row. */
export function inColumns(items: readonly FlowItem[], step: number): FlowItem[] {
  const rows: FlowItem[] = [];
  for (let i = 0; i < items.length; i += 2) {
    const [left, right] = [items[i]!, items[i + 1]];
    rows.push({
      height: Math.max(left.height, right?.height ?? 0),
      space: i === 0 ? 0.08 : left.space,
      marks: [...left.marks, ...(right ? moved(right.marks, [step, 0]) : [])],
    });
  }
  return rows;
}
