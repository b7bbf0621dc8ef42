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
  TITLE,
} from './flow.ts';

/** A tool or a matter, and what to mind with it. Common practice; what makers and rules say comes first. */
export const CAUTIONS: readonly { readonly about: string; readonly lines: readonly string[] }[] = [
  {
    about: phrase('Before all else'),
    lines: [
      phrase(
        'Read and follow the instructions of the makers of your machine, iron, cutter and glue, and the rules of the room you work in. Where they differ from this page, they are right.',
      ),
      phrase('Work in good light, take breaks, and put the cutter down when you are tired.'),
    ],
  },
  {
    about: phrase('Rotary cutter'),
    lines: [
      phrase('Close the blade after every cut, before you lay the cutter down.'),
      phrase('Cut away from yourself. Keep the hand flat on the ruler, fingers well behind its edge.'),
      phrase('Wear closed shoes. Keep cords off the mat: a blade goes through them.'),
      phrase('Change a blunt blade, since it slips. Tape old blades up and put them in a closed tin.'),
    ],
  },
  {
    about: phrase('Iron'),
    lines: [
      phrase('The plate is hot long after it is switched off. Unplug it when you leave the table.'),
      phrase(
        'Press paper dry: steam curls it. Keep ink and toner off the plate and the cloth: press from the fabric side, or lay a cloth between.',
      ),
      phrase(
        'Where you do use steam, keep hands and face out of it: it scalds before it is seen. Stand the iron where it cannot tip, its cord where nobody trips on it.',
      ),
      phrase('Nothing of plastic goes under it, neither ruler nor template.'),
    ],
  },
  {
    about: phrase('Needles and pins'),
    lines: [
      phrase(
        'Keep fingers clear of the needle: guide the paper from its edges, and stop the needle before you reach under the foot or turn the paper.',
      ),
      phrase(
        'Take each pin out before the needle reaches it, and sew slowly where there are pins. A needle that strikes one can break and fly: guard your eyes, with glasses if you wear none.',
      ),
      phrase('Switch the machine off before you change the needle. Paper blunts it: change it often.'),
      phrase('Count the pins back into their box. Old needles go into a closed tin.'),
    ],
  },
  {
    about: phrase('Glue and spray'),
    lines: [
      phrase(
        'A tiny amount, washable and made for cloth, only inside the allowance. Let it dry before the needle comes to it.',
      ),
      phrase('Keep it off the skin and away from the eyes; the label says what to do if it gets there.'),
      phrase(
        'Use spray and strong glue in moving air, out of doors or at an open window, away from flame, iron and sparks, and do not breathe the mist.',
      ),
    ],
  },
  {
    about: phrase('Magnets'),
    lines: [
      phrase(
        'Keep magnetic pin bowls and holders away from pacemakers and other medical implants, and from cards and electronics; some machines are upset by them too.',
      ),
      phrase(
        'Small strong magnets must never be swallowed: two of them can hold bowels together and kill. Where one may have been swallowed, get medical help at once.',
      ),
    ],
  },
  {
    about: phrase('Children and animals'),
    lines: [
      phrase(
        'Cutter, scissors, needles, pins, magnets and glue belong out of their reach. Look over the floor for pins when you stop.',
      ),
    ],
  },
];

/** A page of cautions, to hang beside the table. */
export function cautionPages(setting: PageSetting): readonly PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const width = Math.min(frame.width, 6.4);
  const items: FlowItem[] = [
    ...paragraph(typeface, phrase('Cautions'), TITLE, width),
    ruleItem(frame.width, 0.1),
    ...CAUTIONS.flatMap(({ about, lines }) => [
      ...paragraph(typeface, about, HEADING, width, 0.2).map((item) => ({ ...item, keepsWithNext: true })),
      ...lines.flatMap((line) => paragraph(typeface, line, { ...BODY, points: 10.5 }, width, 0.06)),
    ]),
  ];
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    { part: 'cautions', block: null, title: phrase('Cautions') },
    setting,
  );
}
