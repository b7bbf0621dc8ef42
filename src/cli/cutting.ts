import { type CuttingPlan, cuttingPlan, type FabricPlan } from '../cutting/cutting-plan.ts';
import { cuttingReport } from '../cutting/cutting-report.ts';
import type { Savings } from '../cutting/cutting-rules.ts';
import { KIND_WORDS } from '../cutting/cutting-table.ts';
import { joinedWords } from '../cutting/joined-cloth.ts';
import { clothsOf, cuttingRulesOf, handSizesOf, slackOf } from '../cutting/project-cutting.ts';
import { THOROUGH_STEPS } from '../cutting/strips/lay-strips.ts';
import { BOUND_WORDS, sumLines } from '../cutting/sums.ts';
import { oneLine } from '../document/file-place.ts';
import type { Project } from '../document/project.ts';
import { formatLength, parseLength } from '../geometry/length.ts';
import { type MadeBlock, makingOf } from '../making/making.ts';
import { verdictSentence } from '../piecing/sentences.ts';
import { phrase } from '../words/phrase.ts';
import { type Command, type ExitStatus, type Output, readArgs } from './command.ts';
import { readInHand } from './in-hand.ts';
import { readProject } from './read-project.ts';
import { WrongUsage } from './trouble.ts';

export const cutting: Command = {
  name: 'cutting',
  summary: phrase('tell what to cut for each patch, in which strips, and from how much fabric'),
  help: `Usage: npm run --silent underpaper -- cutting FILE [options]

Tells for each patch the size of the piece to cut, for each fabric the strips to cut across its
width and the cuts in each of them, and the length to buy. Every piece is proved to cover its
patch with the seam allowance once it is sewn and pressed open.

Options
  --json           print pieces and strips as JSON: {"pieces":[{"block","patch","fabric","shape",
                   "cut":{"kind","width","height"}}],"fabrics":[{"fabric","usableWidth","length",
                   "bound","yards","strips":[{"height","cuts":[{"width","height","for"}]}]}]}, inches;
                   with --quilt a cut of plain cloth has an empty "for" and a "what"; with --at-hand a
                   fabric has "fromStock":[{"width","height","strips"}]
  --blocks a,b     only these blocks, by id or name (all)
  --copies N       copies of each block, 1 to 999 (1)
  --quilt          all that the quilt of the file takes, and the quilts beside it: every block as
                   often as it lies there, turned over where it is mirrored, and all plain cloth: sashing,
                   triangles, borders, binding, backing, sleeve and label
  --at-hand        cut from the pieces at hand that the file knows before any is bought
  --ease LENGTH    added beyond the seam allowance on every side, such as 1/8 or 6mm (1/4)
  --round LENGTH   sizes are rounded up to a multiple of this (1/4, or 5 mm in metric projects)
  --width LENGTH   usable width of fabrics that do not say their own (40)
  --savings WHICH  none: rectangles alone; squares: also halves and quarters of squares; all: also
                   rectangles halved aslant, "half-rectangle" in the JSON (squares)
  --help           print this help

Exit status
  0    every patch has a piece in a strip
  1    the file could not be opened, a block is not in it or has no usable outline, or a fabric is
       too narrow for a patch; all the rest is reported
  2    wrong usage
`,
  run: (args, output) => {
    const { file, values } = readArgs('cutting', args, {
      json: { type: 'boolean' },
      blocks: { type: 'string' },
      copies: { type: 'string' },
      ease: { type: 'string' },
      round: { type: 'string' },
      width: { type: 'string' },
      savings: { type: 'string' },
      quilt: { type: 'boolean' },
      'at-hand': { type: 'boolean' },
    });
    const choose = readInHand(values);
    const ease = lengthOf('ease', values.ease, 0, 10);
    const step = lengthOf('round', values.round, 1 / 64, 10);
    const usableWidth = lengthOf('width', values.width, 1, 500);
    const savings = savingsOf(values.savings);
    const project = readProject(file);
    const chosen = {
      ...project.cutting,
      ...(ease !== null && { ease }),
      ...(step !== null && { step }),
      ...(usableWidth !== null && { width: usableWidth }),
      ...(savings !== null && { savings }),
    };
    // What is at hand is known to who stands at the shelf: unless asked, all is counted as if it were bought.
    const asked: Project = { ...project, cutting: { ...chosen, stockFirst: values['at-hand'] ?? false } };
    const { plain, ...taken } = choose(asked, file);
    const made = makingOf(project, taken);
    const plan = cuttingPlan({
      made,
      plain,
      cloths: clothsOf(asked),
      rules: cuttingRulesOf(asked),
      sizeOf: handSizesOf(asked),
      steps: THOROUGH_STEPS,
    });
    if (values.json) output.out(jsonReport(plan));
    else output.out(readableReport(project, made, plan));
    return remarkTrouble(project, made, plan, output);
  },
};

function lengthOf(option: string, text: string | undefined, least: number, most: number): number | null {
  if (text === undefined) return null;
  const length = parseLength(text);
  if (!length.ok) throw new WrongUsage(`--${option}: ${length.error}`);
  if (length.inches < least || length.inches > most)
    throw new WrongUsage(
      `--${option} takes a length from ${formatLength(least, 'in')} to ${formatLength(most, 'in')}.`,
    );
  return length.inches;
}

function savingsOf(text: string | undefined): Savings | null {
  if (text === undefined) return null;
  if (text === 'none' || text === 'squares' || text === 'all') return text;
  throw new WrongUsage('--savings takes none, squares or all.');
}

/** One piece and one strip a line, so that a large report can be read and compared. */
function jsonReport(plan: CuttingPlan): string {
  const { pieces, fabrics } = cuttingReport(plan);
  const listed = (items: readonly string[]): string =>
    items.length === 0 ? '[]' : `[\n${items.join(',\n')}\n]`;
  const fabricTexts = fabrics.map(({ strips, ...fabric }) =>
    JSON.stringify(fabric).replace(
      /\}$/,
      `,"strips":${listed(strips.map((strip) => JSON.stringify(strip)))}}`,
    ),
  );
  return `{"pieces":${listed(pieces.map((piece) => JSON.stringify(piece)))},"fabrics":${listed(fabricTexts)}}\n`;
}

function readableReport(project: Project, made: readonly MadeBlock[], plan: CuttingPlan): string {
  const said = (inches: number): string => formatLength(inches, project.unit);
  const pieces =
    made.reduce((sum, { plan: { patches }, copies }) => sum + patches.length * copies, 0) +
    plan.fabrics.flatMap(({ plain }) => plain).reduce((sum, { count }) => sum + count, 0);
  const lines = [
    phrase('{project}: {pieces, plural, one {# piece} other {# pieces}} to cut', {
      project: oneLine(project.name),
      pieces,
    }),
  ];
  for (const fabric of plan.fabrics) {
    lines.push(
      '',
      fabricName(project, fabric.fabric),
      ...sumLines(fabric, slackOf(project), project.unit).map((line) => `  ${line}`),
      phrase('  no plan can do with less than {bound}: {boundWord}', {
        bound: said(fabric.bound.length),
        boundWord: BOUND_WORDS[fabric.bound.kind],
      }),
      phrase('  Strips across {usableWidth}', { usableWidth: said(fabric.usableWidth) }),
    );
    lines.push(...stripLines(fabric.strips, said));
    for (const [i, one] of fabric.fromStock.entries())
      lines.push(
        phrase('  From piece {i} at hand, {width} × {height}', {
          i: i + 1,
          width: said(one.width),
          height: said(one.height),
        }),
        ...stripLines(one.strips, said),
      );
    for (const joined of fabric.joined) lines.push(`  ${joinedWords(joined, project.unit)}`);
  }
  return `${lines.join('\n')}\n`;
}

const stripLines = (strips: FabricPlan['strips'], said: (inches: number) => string): string[] =>
  strips.flatMap(({ height, cuts }, i) => [
    phrase('    {i}. {height} high', { i: i + 1, height: said(height) }),
    ...cuts.map((cut) => `       ${cutLine(cut, said)}`),
  ]);

function cutLine(
  { kind, width, height, slant, for: patches, what }: FabricPlan['strips'][number]['cuts'][number],
  said: (inches: number) => string,
): string {
  const aslant = slant
    ? phrase(' from {slant} along one long edge to {slant2} along the other', {
        slant: said(slant[0]),
        slant2: said(slant[1]),
      })
    : '';
  const names = patches.map(([block, patch, copy]) =>
    phrase('{block} {patch} copy {copy}', { block: oneLine(block), patch, copy }),
  );
  return `${said(width)} × ${said(height)}${KIND_WORDS[kind] && `, ${KIND_WORDS[kind]}`}${aslant}: ${what ?? names.join(', ')}`;
}

const fabricName = ({ fabrics }: Project, id: string | null): string =>
  id === null ? phrase('Without a fabric') : oneLine(fabrics.find((fabric) => fabric.id === id)?.name ?? id);

function remarkTrouble(
  project: Project,
  made: readonly MadeBlock[],
  { pieces, fabrics }: CuttingPlan,
  { remark }: Output,
): ExitStatus {
  const broken = made.filter(({ plan }) => plan.verdict === 'broken');
  const [first] = broken;
  if (first) {
    const others =
      broken.length === 1 ? '' : phrase(' ({broken} more like it)', { broken: broken.length - 1 });
    remark(
      phrase('Block ‘{name}’{others}: {verdictSentence}', {
        name: oneLine(first.block.name),
        others,
        verdictSentence: verdictSentence(first.plan),
      }),
    );
    return 1;
  }
  const narrow = fabrics.find(({ tooLarge }) => tooLarge.length > 0);
  if (!narrow) {
    const short = pieces.find((piece) => piece.short.length > 0);
    if (short) {
      const missing = Math.max(...short.short.map((margin) => margin.missing));
      remark(
        phrase('Patch {patch} of block {block}: the size chosen by hand falls short by {ceil}.', {
          patch: short.patch,
          block: oneLine(short.block),
          ceil: formatLength(Math.ceil(missing * 64) / 64, project.unit),
        }),
      );
    }
    return 0;
  }
  const { block, patch, piece } = narrow.tooLarge[0]!;
  const others =
    narrow.tooLarge.length === 1
      ? ''
      : phrase(' ({tooLarge} more like it)', { tooLarge: narrow.tooLarge.length - 1 });
  const said = (inches: number): string => formatLength(inches, project.unit);
  remark(
    phrase(
      'Patch {patch} of block {block}{others} takes a piece of {width} × {height}, and ‘{fabricName}’ is only {usableWidth} wide: it is in no strip.',
      {
        patch,
        block: oneLine(block),
        others,
        width: said(piece.cut.width),
        height: said(piece.cut.height),
        fabricName: fabricName(project, narrow.fabric),
        usableWidth: said(narrow.usableWidth),
      },
    ),
  );
  return 1;
}
