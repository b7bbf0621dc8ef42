import { readFileSync } from 'node:fs';
import { applyRepair } from '../document/edit-plan.ts';
import { oneLine } from '../document/file-place.ts';
import { findBlock } from '../document/find.ts';
import type { Block } from '../document/project.ts';
import { toText } from '../document/to-text.ts';
import type { Segment } from '../geometry/point.ts';
import { pieceOptionsOf } from '../making/piece-options.ts';
import { MEND_BUDGET, mend as mendBlock } from '../piecing/mending/mend.ts';
import { piece } from '../piecing/piece.ts';
import type { PiecingPlan, Verdict } from '../piecing/plan.ts';
import { phrase } from '../words/phrase.ts';
import { type Command, type ExitStatus, readArgs } from './command.ts';
import { readProject, STANDARD } from './read-project.ts';
import { WrongUsage } from './trouble.ts';
import { namedBy, refuseOverwriting, writeWhole } from './write-file.ts';

/** Nobody waits at a screen: some seconds for what is hardest to prove. */
const BUDGET = 5 * MEND_BUDGET;

export const mend: Command = {
  name: 'mend',
  summary: phrase('make each block sewable by straight seams, its picture as it was'),
  help: `Usage: npm run --silent underpaper -- mend FILE --out FILE2 [--json]

Adds seams inside patches, both sides of the same fabric, so that straight seams sew every block: the
fewest patches added, then the fewest foundations. The picture stays as it is. Blocks that sew already
are left as they are.

Options
  --out FILE2    write the project with its blocks mended to this file; a file of that name is replaced
  --json         print what was done as JSON: {"blocks":[{"id","before","after","added","proven",
                 "cuts"}]}; before and after: {"verdict","foundations","patches"}; added: patches
                 added; proven: true where no way along drawn lines or through two corners adds
                 fewer; cuts: the lines added, each {"from","to"}, in inches as [x, y], front view, y down
  --help         print this help

Exit status
  0    written
  1    the file could not be opened or written, or a block cannot be mended; all others are
  2    wrong usage
`,
  run: (args, output): ExitStatus => {
    const { file, values } = readArgs('mend', args, { out: { type: 'string' }, json: { type: 'boolean' } });
    const out = namedBy('out', values.out);
    if (out === undefined) throw new WrongUsage('mend needs --out FILE2 to write to.');
    let project = readProject(file);
    refuseOverwriting(file, out);
    const options = { ...pieceOptionsOf(project), mendBudget: BUDGET };
    const reports: Report[] = [];
    const failed: Report[] = [];
    for (const block of project.blocks) {
      const before = piece(block, options);
      const found = before.verdict === 'set-in-seams' ? mendBlock(block, options) : null;
      if (found) project = applyRepair(project, block.id, { kind: 'cuts', cuts: found.cuts });
      const after = found ? piece(findBlock(project, block.id)!, options) : before;
      const report: Report = {
        block,
        before: countsOf(before),
        after: countsOf(after),
        added: after.patches.length - before.patches.length,
        proven: found ? found.isProven : before.verdict !== 'set-in-seams' && before.verdict !== 'broken',
        lines: found?.lines ?? [],
      };
      reports.push(report);
      if (report.after.verdict === 'set-in-seams' || report.after.verdict === 'broken') failed.push(report);
    }
    const isChanged = reports.some(({ lines, added }) => lines.length > 0 || added > 0);
    const isNew = isChanged || file === STANDARD;
    writeWhole(out, isNew ? toText(project) : readFileSync(file), output);
    // Where the project itself goes to standard output nothing else may.
    if (out !== STANDARD) output.out(values.json ? jsonReport(reports) : readableReport(reports));
    const [first] = failed;
    if (first === undefined) return 0;
    const others =
      failed.length === 1 ? '' : phrase(' ({failed} more like it)', { failed: failed.length - 1 });
    const why =
      first.after.verdict === 'broken'
        ? phrase('it has no usable outline or its lines cannot be told apart')
        : phrase('its lines lie too close together');
    output.remark(
      phrase('Block ‘{name}’{others} cannot be mended: {why}.', {
        name: oneLine(first.block.name),
        others,
        why,
      }),
    );
    return 1;
  },
};

interface Counts {
  readonly verdict: Verdict;
  readonly foundations: number;
  readonly patches: number;
}

interface Report {
  readonly block: Block;
  readonly before: Counts;
  readonly after: Counts;
  readonly added: number;
  readonly proven: boolean;
  readonly lines: readonly Segment[];
}

const countsOf = ({ verdict, sections, patches }: PiecingPlan): Counts => ({
  verdict,
  foundations: sections.length,
  patches: patches.length,
});

/** One block a line, so that a large report can be read and compared. */
function jsonReport(reports: readonly Report[]): string {
  const blocks = reports.map(({ block: { id }, before, after, added, proven, lines }) =>
    JSON.stringify({ id, before, after, added, proven, cuts: lines.map(([from, to]) => ({ from, to })) }),
  );
  return blocks.length === 0 ? '{"blocks":[]}\n' : `{"blocks":[\n${blocks.join(',\n')}\n]}\n`;
}

function readableReport(reports: readonly Report[]): string {
  return reports.map((report) => `${oneLine(report.block.name)}: ${outcome(report)}\n`).join('');
}

function outcome({ before, after, added, proven, lines }: Report): string {
  if (after.verdict === 'broken') return phrase('cannot be divided into patches; left as it is.');
  if (after.verdict === 'set-in-seams') return phrase('not mended.');
  if (before.verdict !== 'set-in-seams') return phrase('sews already; left as it is.');
  const doubt = proven ? '' : phrase(' Perhaps not the fewest.');
  return phrase(
    '{lines, plural, one {# line} other {# lines}} on, {added, plural, one {# patch} other {# patches}} more: {patches} patches on {foundations, plural, one {# foundation} other {# foundations}}.{doubt}',
    { lines: lines.length, added, patches: after.patches, foundations: after.foundations, doubt },
  );
}
