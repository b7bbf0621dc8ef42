import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import { partsOfPaper } from '../../rounds/papers.ts';
import { paperIn, readyIn, sewnOf, standingIn, takeBack, tick } from '../../rounds/work.ts';
import { noteSewn } from '../../workspace/sewing.ts';
import { Icon } from '../icons.tsx';
import { PaperPicture } from './paper-picture.tsx';
import { sewView } from './sew-state.ts';

interface RoundPileProps {
  readonly project: Project;
  readonly work: Work;
  readonly round: number;
  readonly colors: ReadonlyMap<string, string>;
}

/** One round: the fabric that is out, and the papers that take it. */
export function RoundPile({ project, work, round, colors }: RoundPileProps) {
  const { fabric: fabricId, takes } = work.rounds[round]!;
  const fabric = project.fabrics.find(({ id }) => id === fabricId);
  const ready = readyIn(work, round);
  const isDone = takes.every(({ paper }) => standingIn(work, round, paper) === 'done');
  const pieces = takes.reduce((sum, { patches }) => sum + patches.length, 0);
  const go = (to: number): void => sewView.setState({ round: to });
  const tickAll = (papers: readonly string[]): void => {
    noteSewn((before) => tick(before, round, papers));
    sewView.setState({ round, lastTick: { round, papers } });
  };
  return (
    <section className="sew-round" aria-labelledby="round-title">
      <header className="sew-round-head">
        <span className="sew-swatch" style={{ background: fabric?.color ?? 'var(--sheet)' }} />
        <div>
          <h1 id="round-title">{fabric?.name ?? 'Without a fabric yet'}</h1>
          <p>
            Round {round + 1} of {work.rounds.length}: {count(pieces, 'piece')} on{' '}
            {count(takes.length, 'paper')}
            {isDone && (
              <span className="sew-done-word">
                {' '}
                <Icon name="good" size={16} /> done
              </span>
            )}
          </p>
        </div>
      </header>
      <ul className="sew-pile">
        {takes.map(({ paper, patches }) => {
          const { block, section } = paperIn(work, paper)!;
          const { letter, copy } = partsOfPaper(paper);
          const standing = standingIn(work, round, paper);
          const name = `${block.name}, ${letter}${block.copies > 1 ? `, copy ${copy}` : ''}`;
          return (
            <li key={paper}>
              <button
                type="button"
                className={`sew-paper is-${standing}`}
                aria-pressed={standing === 'done'}
                aria-label={`${name}: ${patches.join(', ')}, ${WORDS[standing]}`}
                disabled={standing === 'waiting'}
                onClick={() => {
                  if (standing === 'done') {
                    noteSewn((before) => takeBack(before, round, paper));
                    sewView.setState({ round, lastTick: null });
                  } else tickAll([paper]);
                }}
              >
                <PaperPicture
                  block={block}
                  section={section}
                  lit={patches}
                  sewn={sewnOf(work, paper)}
                  colors={colors}
                />
                <span className="sew-paper-name">{name}</span>
                <span className="sew-paper-patches">{patches.join('  ')}</span>
                <span className="sew-paper-state">
                  {standing === 'done' && <Icon name="good" size={16} />}
                  {WORDS[standing]}
                </span>
              </button>
            </li>
          );
        })}
      </ul>
      <footer className="sew-acts">
        <button type="button" className="button sew-big" disabled={round === 0} onClick={() => go(round - 1)}>
          Previous round
        </button>
        <button
          type="button"
          className="button button-main sew-big"
          disabled={ready.length === 0}
          onClick={() => tickAll(ready)}
        >
          <Icon name="good" /> {pileWords(ready.length, takes.length, isDone)}
        </button>
        <button
          type="button"
          className="button sew-big"
          disabled={round === work.rounds.length - 1}
          onClick={() => go(round + 1)}
        >
          Next round
        </button>
      </footer>
    </section>
  );
}

/** What a press of the great button says. */
function pileWords(ready: number, all: number, isDone: boolean): string {
  if (isDone) return 'All sewn';
  if (ready === 0) return 'None can be sewn yet';
  return ready === all ? 'The whole pile is sewn' : `${count(ready, 'paper')} sewn`;
}

const WORDS = { done: 'sewn', ready: 'to sew', waiting: 'waits for an earlier step' } as const;

export const count = (n: number, what: string): string =>
  `${n.toLocaleString()} ${what}${n === 1 ? '' : 's'}`;
