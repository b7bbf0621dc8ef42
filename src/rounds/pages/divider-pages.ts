import { codedAddress } from '../../document/coded-address.ts';
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
  together,
} from '../../foundations/booklet/flow.ts';
import type { Mark } from '../../foundations/marks.ts';
import { squareCode } from '../../foundations/type/square-code.ts';
import { phrase } from '../../words/phrase.ts';
import { fabricName, paperName, patchCount } from '../words.ts';
import { boxed, inColumns } from './card-pages.ts';
import { swatchOf } from './marks.ts';
import type { SewPrint } from './sew-print.ts';

const NAME = { face: 'semibold', points: 34 } as const;
const SWATCH_IN = 1.3;
const CODE_IN = 1.1;

/**
 * A page for each fabric, to stand between the papers that wait: its name to be read along the edge, a swatch, every
 * round that takes it with its papers, and a code that opens its next round.
 */
export function dividerPages({ project, work, setting, address }: SewPrint): PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const half = (frame.width - 0.3) / 2;
  const used = [...new Set(work.rounds.map(({ fabric }) => fabric))];
  const known = project.fabrics.filter(({ id }) => used.includes(id));
  const ordered = [...known.map(({ id }) => id), ...used.filter((id) => !known.some((one) => one.id === id))];
  return ordered.flatMap((id) => {
    const fabric = project.fabrics.find((one) => one.id === id);
    const name = fabricName(project, id);
    const rounds = work.rounds.flatMap((round, k) =>
      round.fabric === id ? [{ ...round, number: k + 1 }] : [],
    );
    const patches = rounds.reduce(
      (sum, { takes }) => sum + takes.reduce((own, take) => own + take.patches.length, 0),
      0,
    );
    const code: readonly Mark[] =
      address === null || id === undefined ? [] : squareCode(codedAddress(address, { fabric: id }), CODE_IN);
    const words = together([
      ...paragraph(typeface, name, NAME, frame.width - SWATCH_IN - CODE_IN - 0.5),
      ...paragraph(
        typeface,
        phrase('{patches} in {rounds, plural, one {# round} other {# rounds}}', {
          patches: patchCount(patches),
          rounds: rounds.length,
        }),
        HEADING,
        frame.width - SWATCH_IN - CODE_IN - 0.5,
        0.04,
      ),
      ...(code.length > 0
        ? paragraph(
            typeface,
            phrase('The code opens its next round in this app, on the device the work is kept on.'),
            SMALL,
            frame.width - SWATCH_IN - CODE_IN - 0.5,
            0.06,
          )
        : []),
    ]);
    const items: FlowItem[] = [
      {
        height: Math.max(SWATCH_IN, words.height),
        space: 0,
        marks: [
          swatchOf(fabric, SWATCH_IN, [0, 0]),
          ...moved(words.marks, [SWATCH_IN + 0.25, 0]),
          ...moved(code, [frame.width - CODE_IN, 0]),
        ],
      },
      ...rounds.flatMap(({ number, takes }) => [
        ...paragraph(typeface, phrase('Round {number, number}', { number }), HEADING, frame.width, 0.2).map(
          (item) => ({ ...item, keepsWithNext: true }),
        ),
        ...inColumns(
          takes.map(({ paper, patches: own }) =>
            boxed(
              typeface,
              phrase('{paper}: {patches}', { paper: paperName(work, paper), patches: own.join(', ') }),
              half,
            ),
          ),
          half + 0.3,
        ),
      ]),
      ...paragraph(
        typeface,
        phrase('File here what waits for this fabric; tick a paper when its patches are sewn.'),
        BODY,
        frame.width,
        0.2,
      ),
    ];
    return draftsOf(
      flowInto(items, frame.height),
      frame,
      { part: 'labels', block: null, title: phrase('Divider: {fabric}', { fabric: name }) },
      setting,
    );
  });
}
