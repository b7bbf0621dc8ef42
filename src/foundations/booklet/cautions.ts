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
  TITLE,
} from './flow.ts';

/** A tool or a matter, and what to mind with it. Common practice; what makers and rules say comes first. */
export const CAUTIONS: readonly { readonly about: string; readonly lines: readonly string[] }[] = [
  {
    about: 'Before all else',
    lines: [
      'Read and follow the instructions of the makers of your machine, iron, cutter and glue, and the rules of the room you work in. Where they differ from this page, they are right.',
      'Work in good light, take breaks, and put the cutter down when you are tired.',
    ],
  },
  {
    about: 'Rotary cutter',
    lines: [
      'Close the blade after every cut, before you lay the cutter down.',
      'Cut away from yourself. Keep the hand flat on the ruler, fingers well behind its edge.',
      'Wear closed shoes. Keep cords off the mat: a blade goes through them.',
      'Change a blunt blade, since it slips. Tape old blades up and put them in a closed tin.',
    ],
  },
  {
    about: 'Iron',
    lines: [
      'The plate is hot long after it is switched off. Unplug it when you leave the table.',
      'Press paper dry: steam curls it. Keep ink and toner off the plate and the cloth: press from the fabric side, or lay a cloth between.',
      'Nothing of plastic goes under it, neither ruler nor template.',
    ],
  },
  {
    about: 'Needles and pins',
    lines: [
      'Take each pin out before the needle reaches it, and sew slowly where there are pins. A needle that strikes one can break and fly.',
      'Switch the machine off before you change the needle. Paper blunts it: change it often.',
      'Count the pins back into their box. Old needles go into a closed tin.',
    ],
  },
  {
    about: 'Glue',
    lines: [
      'A tiny amount, washable and made for cloth, only inside the allowance. Let it dry before the needle comes to it.',
      'Keep it off the skin and away from the eyes; the label says what to do if it gets there.',
    ],
  },
  {
    about: 'Magnets',
    lines: [
      'Keep magnetic pin bowls and holders away from pacemakers and other medical implants, and from cards and electronics; some machines are upset by them too.',
    ],
  },
  {
    about: 'Children and animals',
    lines: [
      'Cutter, scissors, needles, pins, magnets and glue belong out of their reach. Look over the floor for pins when you stop.',
    ],
  },
];

/** A page of cautions, to hang beside the table. */
export function cautionPages(setting: PageSetting): readonly PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const width = Math.min(frame.width, 6.4);
  const items: FlowItem[] = [
    ...paragraph(typeface, 'Cautions', TITLE, width),
    ruleItem(frame.width, 0.1),
    ...CAUTIONS.flatMap(({ about, lines }) => [
      ...paragraph(typeface, about, HEADING, width, 0.2).map((item) => ({ ...item, keepsWithNext: true })),
      ...lines.flatMap((line) => paragraph(typeface, line, { ...BODY, points: 10.5 }, width, 0.06)),
    ]),
  ];
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    { part: 'cautions', block: null, title: 'Cautions' },
    setting,
  );
}
