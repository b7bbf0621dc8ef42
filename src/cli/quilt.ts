import { oneLine } from '../document/file-place.ts';
import type { Project } from '../document/project.ts';
import { isBlockPlace, JOININGS, type Joining } from '../document/quilt.ts';
import { formatLength } from '../geometry/length.ts';
import { curesOf } from '../quilt/cures.ts';
import { plainPieces } from '../quilt/finishing/plain-pieces.ts';
import { finishingOf } from '../quilt/finishing/project-finishing.ts';
import { type JoiningPlan, joiningOf } from '../quilt/joining.ts';
import { type Layout, layOut } from '../quilt/layout.ts';
import {
  blockCounts,
  JOINING_WORDS,
  joiningSentence,
  noPlanSentence,
  numbersOf,
  sizeWords,
  stepWords,
} from '../quilt/words.ts';
import { phrase } from '../words/phrase.ts';
import { type Command, readArgs } from './command.ts';
import { readProject } from './read-project.ts';
import { Refusal, WrongUsage } from './trouble.ts';

export const quilt: Command = {
  name: 'quilt',
  summary: phrase('tell how the places of the quilt are joined, and what finishes it'),
  help: `Usage: npm run --silent underpaper -- quilt FILE [--plan WAY] [--json]

Tells how the quilt of a project file is put together: its places, the seams that join them in
order, and what is cut to finish it.

Options
  --plan WAY    balanced (blocks into blocks), rows or columns; what the file asks for if not
                given, balanced if it asks for nothing
  --json        print JSON: {"size":[w,h],"pieces":[{"id","kind","block","polygon"}],"steps":
                [{"step","left","right","kind","seam"}]}, inches, y down; kind of a piece is
                block or plain, of a step straight or set-in
  --help        print this help

Exit status
  0    done
  1    the file could not be opened, or its quilt has no places or cannot be joined as they lie
  2    wrong usage
`,
  run: (args, output) => {
    const { file, values } = readArgs('quilt', args, { json: { type: 'boolean' }, plan: { type: 'string' } });
    const way = readWay(values.plan);
    const project = readProject(file);
    const { places = [], joining, units } = project.quilt ?? {};
    const layout = layOut({ places }, project.blocks);
    const joined = joiningOf(layout, way ?? joining, units);
    if (!joined.ok) {
      const reason =
        project.quilt === undefined
          ? phrase('The project has no quilt.')
          : noPlanSentence(joined.why, layout, numbersOf(layout));
      throw new Refusal(`${file}: ${reason}`);
    }
    output.out(
      values.json
        ? jsonReport(layout, joined.plan)
        : readableReport(project, layout, joined.plan, way ?? joining ?? 'balanced'),
    );
    return 0;
  },
};

function readWay(text: string | undefined): Joining | undefined {
  if (text === undefined) return undefined;
  const way = JOININGS.find((one) => one === text);
  if (way === undefined)
    throw new WrongUsage(
      `--plan is ${JOININGS.slice(0, -1).join(', ')} or ${JOININGS.at(-1)}, not ${oneLine(text)}.`,
    );
  return way;
}

/** One piece and one step a line. */
function jsonReport({ box, pieces }: Layout, plan: JoiningPlan): string {
  const items = (list: readonly object[]): string =>
    list.length === 0 ? '[]' : `[\n${list.map((item) => JSON.stringify(item)).join(',\n')}\n]`;
  const shown = pieces.map(({ place, polygon }) => ({
    id: place.id,
    kind: isBlockPlace(place) ? 'block' : 'plain',
    block: isBlockPlace(place) ? place.block : null,
    ...(isBlockPlace(place) ? {} : { fabric: place.fabric ?? null }),
    ...(place.part !== undefined && { part: place.part }),
    polygon,
  }));
  const steps = plan.steps.map(({ step, left, right, kind, seam, stretches }) => ({
    step,
    left,
    right,
    kind,
    seam,
    ...(kind === 'straight' ? {} : { stretches }),
  }));
  return `{"size":${JSON.stringify([box.maxX - box.minX, box.maxY - box.minY])},"pieces":${items(shown)},"steps":${items(steps)}}\n`;
}

function readableReport(project: Project, layout: Layout, plan: JoiningPlan, way: Joining): string {
  const { unit, seamAllowance, blocks } = project;
  const numbers = numbersOf(layout);
  const { box, pieces, gaps } = layout;
  const size = [box.maxX - box.minX, box.maxY - box.minY] as const;
  const fabricName = (id: string | null): string =>
    oneLine(project.fabrics.find((fabric) => fabric.id === id)?.name ?? phrase('no fabric chosen'));
  const counts = blockCounts(layout);
  const list = finishingOf(project, layout);
  const say = (inches: number): string => formatLength(inches, unit);
  const cures = curesOf(layout, plan, blocks);
  const [backing, other] = list.backing;
  return `${[
    `${oneLine(project.name)}: ${sizeWords(size, unit)}, ${joiningSentence(plan, pieces.length)}`,
    ...(gaps.length === 0
      ? []
      : [
          phrase('  {gaps, plural, one {# gap} other {# gaps}} between or beside the places.', {
            gaps: gaps.length,
          }),
        ]),
    ...cures.map(({ kind, changed, after }) =>
      kind === 'rearrange'
        ? phrase('  With {changed} set otherwise, {after} are set in.', {
            changed: changed.map((id) => numbers.get(id)).join(', '),
            after,
          })
        : phrase('  With {numbers} parted in two, {after} are set in.', {
            numbers: numbers.get(changed[0]!),
            after,
          }),
    ),
    phrase('Blocks'),
    ...blocks.flatMap(({ id, name }) => (counts.has(id) ? [`  ${counts.get(id)} × ${oneLine(name)}`] : [])),
    phrase('Plain pieces, as cut'),
    ...plainPieces(layout, seamAllowance).map(({ what, fabric, count, width, height, kind }) =>
      phrase(
        '  {what}, {fabricName}: {count} × {width} × {height}{isKind, select, true {, each cut once from corner to corner} other {{isKind2, select, true {, each cut twice from corner to corner} other {}}}}',
        {
          what,
          fabricName: fabricName(fabric),
          count,
          width: say(width),
          height: say(height),
          isKind: kind === 'half-square',
          isKind2: kind === 'quarter-square',
        },
      ),
    ),
    phrase('Joining: {joiningWord}', { joiningWord: JOINING_WORDS[way].toLowerCase() }),
    ...plan.steps.map((step) => `  ${step.step}. ${stepWords(step, plan.steps, numbers, unit)}`),
    phrase('Finishing'),
    list.binding.square === null
      ? phrase('  Binding: {strips} strips {width} wide, {buy} of cloth', {
          strips: list.binding.strips,
          width: say(list.binding.width),
          buy: say(list.binding.buy),
        })
      : phrase('  Bias binding: a square of {square}, in strips {width} wide', {
          square: say(list.binding.square),
          width: say(list.binding.width),
        }),
    phrase(
      '  Backing: {panels, plural, one {# panel} other {# panels}} with {seams, select, upright {vertical} other {horizontal}} seams, {buy} of cloth ({seams2, select, upright {vertical} other {horizontal}} seams: {buy2})',
      {
        panels: backing.panels,
        seams: backing.seams,
        buy: say(backing.buy),
        seams2: other.seams,
        buy2: say(other.buy),
      },
    ),
    list.batting === null
      ? phrase('  Batting: {sizeWords}, larger than any package', {
          sizeWords: sizeWords(list.battingNeeded, unit),
        })
      : phrase('  Batting: {sizeWords}', { sizeWords: sizeWords(list.batting, unit) }),
  ].join('\n')}\n`;
}
