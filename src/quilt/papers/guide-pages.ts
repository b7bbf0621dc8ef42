import type { Project } from '../../document/project.ts';
import {
  BODY,
  draftsOf,
  type FlowItem,
  flowInto,
  moved,
  type PageDraft,
  type PageSetting,
  paragraph,
  readingFrame,
  ruleItem,
  STRONG,
  TITLE,
  tickBox,
  together,
} from '../../foundations/booklet/flow.ts';
import type { Mark } from '../../foundations/marks.ts';
import { boxOf } from '../../geometry/ring.ts';
import { letters } from '../../piecing/ids.ts';
import type { Join } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import { joiningOf } from '../joining.ts';
import type { Layout } from '../layout.ts';
import type { Pinned } from '../matching.ts';
import {
  clothLength,
  JOINING_WORDS,
  joiningSentence,
  noPlanSentence,
  numbersOf,
  seamLength,
  stepWords,
  unitWords,
} from '../words.ts';
import { drawn, FRONT } from './drawn.ts';
import { groupsOf } from './groups.ts';
import { fitBox, numberMarks, outlineOf, pieceMarks } from './quilt-marks.ts';

/** A page a row, or a unit: its drawing, its steps with boxes to tick; then pages that join the units. */
export function guidePages(
  project: Project,
  layout: Layout,
  setting: PageSetting,
  pinned: readonly Pinned[],
): PageDraft[] {
  const { typeface } = setting;
  const { quilt, unit } = project;
  const way = quilt?.joining ?? 'balanced';
  const frame = readingFrame(setting);
  const numbers = numbersOf(layout);
  const joined = joiningOf(layout, way, quilt?.units);
  const title = { part: 'guide', block: null, title: phrase('Joining the quilt') } as const;
  if (!joined.ok)
    return draftsOf(
      [
        paragraph(typeface, noPlanSentence(joined.why, layout, numbers), BODY, frame.width).flatMap(
          ({ marks }) => marks,
        ),
      ],
      frame,
      title,
      setting,
    );
  const { steps } = joined.plan;
  const groups = groupsOf(steps, way, layout);
  return groups.flatMap((group, k) => {
    const ids = new Set(group.steps.flatMap(({ left, right }) => [...left, ...right]));
    const pieces = layout.pieces.filter(({ place }) => ids.has(place.id));
    const box = boxOf(pieces.flatMap(({ polygon }) => polygon));
    const fit = fitBox(box, frame.width, 0.42 * frame.height);
    const seams = group.steps.flatMap(({ stretches }) => stretches);
    const heading = group.isLast
      ? groups.length === 1
        ? phrase('Joining the quilt')
        : phrase(
            'Joining the {way, select, rows {rows} other {{way, select, columns {columns} other {parts}}}}',
            { way },
          )
      : phrase('{way, select, rows {Row} other {{way, select, columns {Column} other {Part}}}} {letters}', {
          way,
          letters: way === 'balanced' ? letters(k) : k + 1,
        });
    const items: FlowItem[] = [
      ...paragraph(typeface, heading, TITLE, frame.width),
      ...paragraph(
        typeface,
        phrase(
          '{joiningWord}. {isK, select, true {{joiningSentence} A unit has the number of the step that made it. } other {}}{front}',
          {
            joiningWord: JOINING_WORDS[way],
            isK: k === 0,
            joiningSentence: joiningSentence(joined.plan, layout.pieces.length),
            front: FRONT,
          },
        ),
        BODY,
        frame.width,
        0.03,
      ),
      drawn(
        fit,
        frame.width,
        [
          ...pieceMarks(pieces, project, fit, true),
          ...outlineOf(pieces, fit),
          ...seams.map((points): Mark => ({ kind: 'line', pen: 'join', points: points.map(fit.place) })),
          ...numberMarks(pieces, numbers, fit, typeface),
        ],
        0.12,
      ),
      ruleItem(frame.width, 0.12),
      ...group.steps.map((step) => stepItem(step, steps, numbers, unit, pinned, frame.width, setting)),
    ];
    return draftsOf(flowInto(items, frame.height), frame, title, setting);
  });
}

function stepItem(
  step: Join,
  steps: readonly Join[],
  numbers: ReadonlyMap<string, number>,
  unit: Project['unit'],
  pinned: readonly Pinned[],
  width: number,
  { typeface }: PageSetting,
): FlowItem {
  const points = pinned.find((one) => one.step === step.step)?.points ?? step.points;
  const count = (kind: string): number => points.filter((point) => point.kind === kind).length;
  const matches = count('match');
  const pins = phrase(
    'Pin {points} spots{isMatches, select, true {, {matches} of them where seams of both sides meet} other {}}.',
    { points: points.length, isMatches: matches > 0, matches },
  );
  const head =
    step.kind === 'straight'
      ? stepWords(step, steps, numbers, unit)
      : phrase('Join {unitWords} and {unitWords2}: stop and turn at each corner, {seamLength}.', {
          unitWords: unitWords(step.left, steps, numbers),
          unitWords2: unitWords(step.right, steps, numbers),
          seamLength: clothLength(seamLength(step), unit),
        });
  const words = together([
    ...paragraph(typeface, `${step.step}.  ${head}`, STRONG, width - 0.3),
    ...paragraph(
      typeface,
      phrase('{pins} Press {isMatches, select, true {the seam open} other {to one side}}.', {
        pins,
        isMatches: matches > 0,
      }),
      BODY,
      width - 0.3,
    ),
  ]);
  return { height: words.height, space: 0.09, marks: [tickBox([0, 0.02]), ...moved(words.marks, [0.3, 0])] };
}
