import { oneLine } from '../document/file-place.ts';
import type { Project } from '../document/project.ts';
import { makingOf } from '../making/making.ts';
import { papersOf } from '../rounds/papers.ts';
import { planRounds, type RoundsPlan } from '../rounds/plan-rounds.ts';
import { phrase } from '../words/phrase.ts';
import { type Command, type ExitStatus, type Output, readArgs } from './command.ts';
import { MOST_COPIES, readInHand } from './in-hand.ts';
import { readProject } from './read-project.ts';
import { Refusal } from './trouble.ts';

/** Nobody waits at a screen: more moves are tried than there. */
const STEPS = 12_000;

export const rounds: Command = {
  name: 'rounds',
  summary: phrase('plan the sewing fabric by fabric, every paper that waits for one in one go'),
  help: `Usage: npm run --silent underpaper -- rounds FILE [options]

Plans the assembly line: one fabric comes out at a time, and every paper that waits for it takes
all the patches it can. The order of each paper is chosen, within what can be sewn, so that the
rounds are few.

Options
  --json           print the plan as JSON: {"papers":[{"id","order"}],"rounds":[{"fabric","work":
                   [{"paper","patches"}]}],"bound","byPosition","byLeafing"}; a paper is
                   block/section/copy; bound: no plan has fewer rounds; byPosition, byLeafing:
                   rounds when sewing position by position, or leafing through the fabrics in order
  --blocks a,b     only these blocks, by id or name; all if not given
  --copies N       copies of each foundation, 1 to ${MOST_COPIES}; 1 if not given
  --quilt          all that the quilt of the file takes, and the quilts beside it: every block as
                   often as it lies there, turned over where it is mirrored
  --pair-first     the pieces for positions 1 and 2 are cut together: a paper is begun in the round
                   of the fabric at its second position
  --help           print this help

Exit status
  0    planned
  1    the file could not be opened, a block is not in it, or there is nothing to sew
  2    wrong usage
`,
  run: (args, output): ExitStatus => {
    const { file, values } = readArgs('rounds', args, {
      json: { type: 'boolean' },
      blocks: { type: 'string' },
      copies: { type: 'string' },
      'pair-first': { type: 'boolean' },
      quilt: { type: 'boolean' },
    });
    const choose = readInHand(values);
    const project = readProject(file);
    const made = makingOf(project, choose(project, file));
    for (const { block, plan } of made)
      if (plan.verdict === 'broken')
        output.remark(phrase('‘{block}’ is left out: it cannot be pieced.', { block: oneLine(block.name) }));
    const papers = papersOf(made);
    if (papers.length === 0) throw new Refusal(phrase('{file}: There is nothing to sew.', { file }));
    const plan = planRounds(papers, {
      fabricOrder: project.fabrics.map(({ id }) => id),
      isFirstPairCut: values['pair-first'] ?? false,
      steps: STEPS,
    });
    print(plan, project, values.json ?? false, output);
    return 0;
  },
};

function print(plan: RoundsPlan, project: Project, isJson: boolean, { out }: Output): void {
  if (isJson) {
    out(`${JSON.stringify(plan)}\n`);
    return;
  }
  const nameOf = new Map<string | null, string>(project.fabrics.map(({ id, name }) => [id, oneLine(name)]));
  nameOf.set(null, phrase('without a fabric yet'));
  const { length } = plan.rounds;
  const lines = [
    phrase(
      '{project}: {papers, plural, one {# paper} other {# papers}} in {length, plural, one {# round} other {# rounds}}',
      { project: oneLine(project.name), papers: plan.papers.length, length },
    ),
    length === plan.bound
      ? phrase('  No plan has fewer.')
      : phrase('  At least {bound, number} are needed; perhaps not the fewest.', { bound: plan.bound }),
    phrase(
      '  Position by position it would be {byPosition, plural, one {# round} other {# rounds}}; leafing through the fabrics, {byLeafing, number}.',
      { byPosition: plan.byPosition, byLeafing: plan.byLeafing },
    ),
    '',
  ];
  plan.rounds.forEach(({ fabric, work }, k) => {
    const pieces = work.reduce((sum, { patches }) => sum + patches.length, 0);
    lines.push(
      phrase(
        '{k}. {nameOf}: {pieces, plural, one {# piece} other {# pieces}} on {work, plural, one {# paper} other {# papers}}',
        { k: k + 1, nameOf: nameOf.get(fabric) ?? fabric, pieces, work: work.length },
      ),
    );
    for (const { paper, patches } of work) lines.push(`   ${paper}: ${patches.join(', ')}`);
  });
  out(`${lines.join('\n')}\n`);
}
