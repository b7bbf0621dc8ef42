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
import { finishingList } from '../finishing/finishing-list.ts';
import { plainPieces } from '../finishing/plain-pieces.ts';
import type { Layout } from '../layout.ts';
import { clothLength, sizeWords } from '../words.ts';

/** Cut sizes and lengths of everything that is no block. */
export function finishingPages(project: Project, layout: Layout, setting: PageSetting): PageDraft[] {
  const { typeface } = setting;
  const { unit, seamAllowance, quilt } = project;
  const frame = readingFrame(setting);
  const { box } = layout;
  const list = finishingList([box.maxX - box.minX, box.maxY - box.minY], quilt?.finishing, seamAllowance);
  const nameOf = (id: string | null): string =>
    project.fabrics.find((fabric) => fabric.id === id)?.name ?? 'no fabric chosen yet';
  const line = (text: string): FlowItem[] => paragraph(typeface, text, BODY, frame.width, 0.05);
  const head = (text: string): FlowItem[] =>
    paragraph(typeface, text, HEADING, frame.width, 0.22).map((item) => ({ ...item, keepsWithNext: true }));
  const [backing, other] = list.backing;
  const say = (inches: number): string => clothLength(inches, unit);
  const items = [
    ...paragraph(typeface, 'Finishing', TITLE, frame.width),
    ...line(
      `The top is ${sizeWords(list.size, unit)}. All sizes are as cut, with seams of ${say(seamAllowance)}.`,
    ),
    ...head('Plain pieces'),
    ...plainPieces(layout, seamAllowance).flatMap(({ what, fabric, count, width, height, kind, pieces }) =>
      line(
        `${what}, ${nameOf(fabric)}: ${count} × ${sizeWords([width, height], unit)}${kind === 'rectangle' ? '' : `, each cut ${kind === 'half-square' ? 'once' : 'twice'} from corner to corner: ${pieces} triangles`}.`,
      ),
    ),
    ...head('Backing and batting'),
    ...line(
      backing.panels === 1
        ? `Backing: one panel, ${sizeWords(backing.panel, unit)}.`
        : `Backing: ${backing.panels} panels of ${sizeWords(backing.panel, unit)} with ${backing.seams} seams, ${say(backing.buy)} of cloth. With ${other.seams} seams: ${say(other.buy)}.`,
    ),
    ...line(
      list.batting === null
        ? `Batting: ${sizeWords(list.battingNeeded, unit)}, larger than any package.`
        : `Batting: the package of ${sizeWords(list.batting, unit)}.`,
    ),
    ...head('Binding'),
    ...line(
      list.binding.square === null
        ? `${list.binding.strips} strips ${say(list.binding.width)} wide, joined on the slant: ${say(list.binding.length)} with what joins and corners take. ${say(list.binding.buy)} of cloth.`
        : `On the bias: a square of ${say(list.binding.square)} in strips ${say(list.binding.width)} wide, ${say(list.binding.length)} with what joins and corners take.`,
    ),
    ...(list.sleeve
      ? [
          ...head('Sleeve'),
          ...line(`Cut ${sizeWords(list.sleeve, unit)}, hem the ends, fold along its length.`),
        ]
      : []),
    ...(list.label ? [...head('Label'), ...line(`Cut ${sizeWords(list.label, unit)}.`)] : []),
    ...line(
      'Rotary cutters are sharp and irons are hot: cut away from your hands, close the blade after every cut, and keep to the makers’ instructions.',
    ),
  ];
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    { part: 'guide', block: null, title: 'Finishing' },
    setting,
  );
}
