import { phrase } from '../../words/phrase.ts';
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
  SMALL,
  TITLE,
} from './flow.ts';

/** What to do with freezer paper, in turn. Common practice. */
const STAGES: readonly { readonly about: string; readonly lines: readonly string[] }[] = [
  {
    about: phrase('What it is'),
    lines: [
      phrase(
        'A paper with a plastic film on one side, the shiny one. Ironed on with that side down it holds to cloth, comes off without a trace, and can be ironed on again several times.',
      ),
      phrase(
        'You sew beside the paper, not through it. Nothing is torn out of the seams, and one paper serves for several copies.',
      ),
    ],
  },
  {
    about: phrase('Get the drawing on to it'),
    lines: [
      phrase(
        'Trace the foundation on to the dull side with a pencil and a ruler: every sewing line and every number. The printed side is the mirror image of the block, as it has to be: the dull side is the one you look at, and the fabric lies under the shiny one.',
      ),
      phrase(
        'Or print on sheets that are sold for ink-jet printers. Film melts in the heat of a laser printer and spoils it: never put freezer paper through one. Measure the test square on the sheet itself.',
      ),
    ],
  },
  {
    about: phrase('Cut and fold'),
    lines: [
      phrase(
        'Cut along the outer sewing line, the solid one, not along the dashed one: the allowance is left on the cloth, as wide as your sheet says, measured with a ruler.',
      ),
      phrase(
        'Fold back and crease sharply along every sewing line, so that it can be folded again with cloth on it. A score with a blunt needle along a ruler makes the fold straight.',
      ),
    ],
  },
  {
    about: phrase('Sew'),
    lines: [
      phrase(
        'Iron patch 1 with its wrong side on to the shiny side, over its place and beyond it by the allowance all round.',
      ),
      phrase(
        'Fold the paper back along the line between 1 and 2. Trim the cloth to the allowance outside the fold.',
      ),
      phrase(
        'Lay patch 2 right sides together with the edge just trimmed, and sew right beside the fold with an ordinary stitch length, not through the paper. Sew on past both ends of the line into the allowance.',
      ),
      phrase(
        'Unfold, press patch 2 open and down on the paper: the film holds it. Go on with 3, in the order of the numbers.',
      ),
      phrase('When all are on, trim to the allowance outside the paper’s edge with ruler and cutter.'),
    ],
  },
  {
    about: phrase('Join'),
    lines: [
      phrase(
        'Leave the papers on. Pin at the corners and where lines meet the edge, and sew beside the edges of both papers, which lie one on the other.',
      ),
      phrase(
        'Then peel the papers off and iron them on for the next copy. When one no longer holds, trace a new one.',
      ),
    ],
  },
  {
    about: phrase('Take care'),
    lines: [
      phrase(
        'A dry iron, not too hot, and only on the dull side or the cloth: the film must not touch the plate. Try it on a scrap of each fabric first. What the makers of paper, printer and iron say comes before this page.',
      ),
      phrase('Cut paper with scissors or a blade kept for paper; close the blade after every cut.'),
    ],
  },
];

/** A page for those who sew beside freezer paper that is ironed on, rather than through paper. */
export function freezerPages(setting: PageSetting): readonly PageDraft[] {
  const { typeface, side } = setting;
  const frame = readingFrame(setting);
  const width = Math.min(frame.width, 6.4);
  const warning =
    side === 'front'
      ? paragraph(
          typeface,
          phrase(
            'The foundations of this print show the front. For freezer paper ironed to the wrong side of the cloth, print the printed side instead.',
          ),
          { ...BODY, face: 'semibold' },
          width,
          0.08,
        )
      : [];
  const items: FlowItem[] = [
    ...paragraph(typeface, phrase('Sewing with freezer paper'), TITLE, width),
    ...paragraph(
      typeface,
      phrase('The same foundations, ironed on, folded and used again.'),
      SMALL,
      width,
      0.02,
    ),
    ruleItem(frame.width, 0.1),
    ...warning,
    ...STAGES.flatMap(({ about, lines }) => [
      ...paragraph(typeface, about, HEADING, width, 0.16).map((item) => ({ ...item, keepsWithNext: true })),
      ...lines.flatMap((line) => paragraph(typeface, line, { ...BODY, points: 10 }, width, 0.05)),
    ]),
  ];
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    { part: 'freezer', block: null, title: phrase('Freezer paper') },
    setting,
  );
}
