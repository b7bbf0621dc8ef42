import type { Project } from '../../document/project.ts';
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
  TITLE,
} from '../../foundations/booklet/flow.ts';
import { phrase } from '../../words/phrase.ts';
import { plainPieces } from '../finishing/plain-pieces.ts';
import { finishingOf } from '../finishing/project-finishing.ts';
import type { Layout } from '../layout.ts';
import { clothLength, sizeWords } from '../words.ts';

/** Cut sizes and lengths of everything that is no block. */
export function finishingPages(project: Project, layout: Layout, setting: PageSetting): PageDraft[] {
  const { typeface } = setting;
  const { unit, seamAllowance } = project;
  const frame = readingFrame(setting);
  const list = finishingOf(project, layout);
  const nameOf = (id: string | null): string =>
    project.fabrics.find((fabric) => fabric.id === id)?.name ?? phrase('no fabric chosen yet');
  const line = (text: string): FlowItem[] => paragraph(typeface, text, BODY, frame.width, 0.05);
  const head = (text: string): FlowItem[] =>
    paragraph(typeface, text, HEADING, frame.width, 0.22).map((item) => ({ ...item, keepsWithNext: true }));
  const [backing, other] = list.backing;
  const say = (inches: number): string => clothLength(inches, unit);
  const items = [
    ...paragraph(typeface, phrase('Finishing'), TITLE, frame.width),
    ...line(
      phrase('The top is {sizeWords}. All sizes are as cut, with seams of {seamAllowance}.', {
        sizeWords: sizeWords(list.size, unit),
        seamAllowance: say(seamAllowance),
      }),
    ),
    ...head(phrase('Plain pieces')),
    ...plainPieces(layout, seamAllowance).flatMap(({ what, fabric, count, width, height, kind, pieces }) =>
      line(
        phrase(
          '{what}, {nameOf}: {count} × {sizeWords}{kind, select, rectangle {} other {, each cut {isKind, select, true {once} other {twice}} from corner to corner: {pieces} triangles}}.',
          {
            what,
            nameOf: nameOf(fabric),
            count,
            sizeWords: sizeWords([width, height], unit),
            kind,
            isKind: kind === 'half-square',
            pieces,
          },
        ),
      ),
    ),
    ...head(phrase('Backing and batting')),
    ...line(
      backing.panels === 1
        ? phrase('Backing: one panel, {sizeWords}.', { sizeWords: sizeWords(backing.panel, unit) })
        : phrase(
            'Backing: {panels} panels of {sizeWords} with {seams, select, upright {vertical} other {horizontal}} seams, {buy} of cloth. With {seams2, select, upright {vertical} other {horizontal}} seams: {buy2}.',
            {
              panels: backing.panels,
              sizeWords: sizeWords(backing.panel, unit),
              seams: backing.seams,
              buy: say(backing.buy),
              seams2: other.seams,
              buy2: say(other.buy),
            },
          ),
    ),
    ...line(
      list.batting === null
        ? phrase('Batting: {sizeWords}, larger than any package.', {
            sizeWords: sizeWords(list.battingNeeded, unit),
          })
        : phrase('Batting: the package of {sizeWords}.', { sizeWords: sizeWords(list.batting, unit) }),
    ),
    ...head(phrase('Binding')),
    ...line(
      list.binding.square === null
        ? phrase(
            '{strips} strips {width} wide, joined on the slant: {binding} with what joins and corners take. {buy} of cloth.',
            {
              strips: list.binding.strips,
              width: say(list.binding.width),
              binding: say(list.binding.length),
              buy: say(list.binding.buy),
            },
          )
        : phrase(
            'On the bias: a square of {square} in strips {width} wide, {binding} with what joins and corners take.',
            {
              square: say(list.binding.square),
              width: say(list.binding.width),
              binding: say(list.binding.length),
            },
          ),
    ),
    ...(list.sleeve
      ? [
          ...head(phrase('Sleeve')),
          ...line(
            phrase('Cut {sizeWords}, hem the ends, fold along its length.', {
              sizeWords: sizeWords(list.sleeve, unit),
            }),
          ),
        ]
      : []),
    ...(list.label
      ? [
          ...head(phrase('Label')),
          ...line(phrase('Cut {sizeWords}.', { sizeWords: sizeWords(list.label, unit) })),
        ]
      : []),
    ...line(
      phrase(
        'Rotary cutters are sharp and irons are hot: cut away from your hands, close the blade after every cut, and keep to the makers’ instructions.',
      ),
    ),
  ];
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    { part: 'guide', block: null, title: phrase('Finishing') },
    setting,
  );
}
