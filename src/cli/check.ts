import { oneLine } from '../document/file-place.ts';
import type { Project, Unit } from '../document/project.ts';
import { formatLength } from '../geometry/length.ts';
import { type MadeBlock, makingOf } from '../making/making.ts';
import type { Finding } from '../piecing/plan.ts';
import { joinSentence, orderWords, verdictSentence } from '../piecing/sentences.ts';
import { phrase } from '../words/phrase.ts';
import { type Command, type ExitStatus, type Output, readArgs } from './command.ts';
import { readProject } from './read-project.ts';

export const check: Command = {
  name: 'check',
  summary: phrase('tell for each block whether and how it can be sewn'),
  help: `Usage: npm run --silent underpaper -- check FILE [--json]

Tells for each block of a project file whether it can be pieced on paper and how: on how many
foundations, in which order, joined by which seams, and what to look out for.

Options
  --json    print the piecing plans as JSON: {"blocks":[{"id","name","verdict","fewest","patches",
            "sections","joins","edges","findings"}]}, coordinates in inches as [x, y], front view,
            y down
  --help    print this help

Exit status
  0    every block was pieced
  1    the file could not be opened, or a block has no usable outline; all other blocks are reported
  2    wrong usage
`,
  run: (args, output) => {
    const { file, values } = readArgs('check', args, { json: { type: 'boolean' } });
    const project = readProject(file);
    const planned = makingOf(project);
    if (values.json) output.out(jsonReport(planned));
    else output.out(readableReport(project, planned));
    return remarkBroken(planned, output);
  },
};

/** One block a line, so that a large report can be read and compared. */
function jsonReport(planned: readonly MadeBlock[]): string {
  const blocks = planned.map(({ block: { id, name }, plan }) => JSON.stringify({ id, name, ...plan }));
  return blocks.length === 0 ? '{"blocks":[]}\n' : `{"blocks":[\n${blocks.join(',\n')}\n]}\n`;
}

function readableReport(project: Project, planned: readonly MadeBlock[]): string {
  const count =
    planned.length === 1 ? '1 block' : phrase('{planned, number} blocks', { planned: planned.length });
  const lines = [`${oneLine(project.name)}: ${count}`];
  for (const { block, plan } of planned) {
    lines.push('', oneLine(block.name), `  ${verdictSentence(plan)}`);
    if (plan.verdict === 'broken') continue;
    if (plan.verdict !== 'undivided') {
      lines.push(
        '  Foundations',
        ...plan.sections.map((section) => `    ${section.letter}: ${orderWords(section)}`),
      );
    }
    if (plan.joins.length > 0) {
      lines.push(
        '  Joins',
        ...plan.joins.map((join) => `    ${join.step}. ${joinSentence(join, project.unit)}`),
      );
    }
    if (plan.findings.length > 0) {
      lines.push(
        '  Findings',
        ...plan.findings.map((finding) => `    ${findingLine(finding, project.unit)}`),
      );
    }
  }
  return `${lines.join('\n')}\n`;
}

function findingLine({ severity, message, at: [x, y] }: Finding, unit: Unit): string {
  return phrase('{severity}: {message} ({x} from the left, {y} from the top)', {
    severity,
    message,
    x: formatLength(x, unit),
    y: formatLength(y, unit),
  });
}

function remarkBroken(planned: readonly MadeBlock[], { remark }: Output): ExitStatus {
  const broken = planned.flatMap(({ block, plan }, i) =>
    plan.verdict === 'broken' ? [{ block, plan, nth: i + 1 }] : [],
  );
  const [first] = broken;
  if (first === undefined) return 0;
  const others = broken.length === 1 ? '' : phrase(' ({broken} more like it)', { broken: broken.length - 1 });
  remark(
    phrase('Block {nth} ‘{name}’{others}: {verdictSentence}', {
      nth: first.nth,
      name: oneLine(first.block.name),
      others,
      verdictSentence: verdictSentence(first.plan),
    }),
  );
  return 1;
}
