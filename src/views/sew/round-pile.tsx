import { useEffect } from 'react';
import { useStore } from 'zustand';
import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import {
  fabricName,
  paperCount,
  paperName,
  pieceCount,
  pileWords,
  STANDING_WORDS,
} from '../../rounds/words.ts';
import {
  isRoundDone,
  nextActOf,
  paperIn,
  pilesOf,
  sewnOf,
  standingIn,
  takeBack,
  tick,
} from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { sewWishes } from '../../workspace/sew-wishes.ts';
import { noteSewn } from '../../workspace/sewing.ts';
import { Icon } from '../icons.tsx';
import { oneStop } from '../one-stop.ts';
import { CutList } from './cut-list.tsx';
import { PaperPicture } from './paper-picture.tsx';
import { sewView } from './sew-state.ts';
import { speak } from './spoken.ts';

interface RoundPileProps {
  readonly project: Project;
  readonly work: Work;
  readonly round: number;
  /** The round whose turn it is; the number of rounds when all is sewn. */
  readonly turn: number;
  readonly colors: ReadonlyMap<string, string>;
}

/** One round: the fabric that is out, what is cut from it, and the papers that take it, pile by pile. */
export function RoundPile({ project, work, round, turn, colors }: RoundPileProps) {
  const { fabric: fabricId, takes, batch } = work.rounds[round]!;
  const fabric = project.fabrics.find(({ id }) => id === fabricId);
  const name = fabricName(project, fabricId);
  const isDone = isRoundDone(work, round);
  const pieces = takes.reduce((sum, { patches }) => sum + patches.length, 0);
  const piles = pilesOf(work, round);
  // The pile in hand: the first with something to do, else the first.
  const inHand = Math.max(
    0,
    piles.findIndex((pile) => nextActOf(work, round, pile) !== null),
  );
  const pile = piles[inHand]!;
  const next = nextActOf(work, round, pile);
  const isSpoken = useStore(sewWishes, (state) => state.isSpoken);
  useEffect(() => {
    if (isSpoken) speak(`${name}. ${pieceCount(pieces)}, ${paperCount(takes.length)}.`);
  }, [isSpoken, name, pieces, takes.length]);

  const go = (to: number): void => sewView.setState({ round: to });
  const tickAll = (papers: readonly string[]): void => {
    noteSewn((before) => tick(before, round, papers));
    sewView.setState({ round, lastTick: { round, papers, before: work } });
  };
  return (
    <section className="sew-round" aria-labelledby="round-title">
      <header className="sew-round-head">
        <span className="sew-swatch" style={{ background: fabric?.color ?? 'var(--sheet)' }} />
        <div>
          <h1 id="round-title">{name}</h1>
          <p>
            {phrase(
              'Round {round, number} of {all, number}: {pieces, plural, one {# piece} other {# pieces}} on {papers, plural, one {# paper} other {# papers}}',
              { round: round + 1, all: work.rounds.length, pieces, papers: takes.length },
            )}
            {batch !== undefined && <span>{phrase('Batch {batch, number}', { batch })}</span>}
            {isDone && (
              <span className="sew-done-word">
                {' '}
                <Icon name="good" size={16} /> {phrase('done')}
              </span>
            )}
          </p>
        </div>
      </header>
      <CutList key={round} project={project} work={work} round={round} />
      {piles.map((papers, k) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: piles are known by their order.
        <div key={k}>
          {piles.length > 1 && (
            <h2 className="sew-pile-title" aria-current={k === inHand ? 'step' : undefined}>
              {phrase('Pile {pile, number} of {all, number}', { pile: k + 1, all: piles.length })}
            </h2>
          )}
          <ul ref={oneStop} className="sew-pile">
            {papers.map((paper) => (
              <PaperCard
                key={paper}
                work={work}
                round={round}
                paper={paper}
                colors={colors}
                onTick={tickAll}
              />
            ))}
          </ul>
        </div>
      ))}
      <footer className="sew-acts">
        <button type="button" className="button sew-big" disabled={round === 0} onClick={() => go(round - 1)}>
          {phrase('Previous round')}
        </button>
        {next === null && isDone && turn < work.rounds.length ? (
          <button type="button" className="button button-main sew-big" onClick={() => go(turn)}>
            {phrase('On to round {round, number}: {fabric}', {
              round: turn + 1,
              fabric: fabricName(project, work.rounds[turn]!.fabric),
            })}
          </button>
        ) : (
          <button
            type="button"
            className="button button-main sew-big"
            disabled={next === null}
            onClick={() => next && tickAll(next.papers)}
          >
            <Icon name="good" />{' '}
            {next === null
              ? isDone
                ? phrase('All sewn')
                : phrase('None can be sewn yet')
              : pileWords(next.act, next.papers.length, next.papers.length === pile.length)}
          </button>
        )}
        <button
          type="button"
          className="button sew-big"
          disabled={round === work.rounds.length - 1}
          onClick={() => go(round + 1)}
        >
          {phrase('Next round')}
        </button>
      </footer>
    </section>
  );
}

interface PaperCardProps {
  readonly work: Work;
  readonly round: number;
  readonly paper: string;
  readonly colors: ReadonlyMap<string, string>;
  readonly onTick: (papers: readonly string[]) => void;
}

/** A paper of the pile: one press does the next act to it; a smaller one shows how it is sewn. */
function PaperCard({ work, round, paper, colors, onTick }: PaperCardProps) {
  const { block, section } = paperIn(work, paper)!;
  const { patches } = work.rounds[round]!.takes.find((take) => take.paper === paper)!;
  const standing = standingIn(work, round, paper);
  const name = paperName(work, paper);
  return (
    <li className="sew-pile-item">
      <button
        type="button"
        className={`sew-paper is-${standing}`}
        aria-pressed={standing === 'done'}
        aria-label={phrase('{paper}: {patches}, {standing}', {
          paper: name,
          patches: patches.join(', '),
          standing: STANDING_WORDS[standing],
        })}
        disabled={standing === 'waiting'}
        onClick={() => {
          if (standing === 'done') {
            noteSewn((before) => takeBack(before, round, paper));
            sewView.setState({ round, lastTick: null });
          } else onTick([paper]);
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
          {STANDING_WORDS[standing]}
        </span>
      </button>
      <button
        type="button"
        className="button sew-paper-how"
        aria-label={phrase('How {paper} is sewn', { paper: name })}
        onClick={() => sewView.setState({ rehearsed: { paper, patch: patches[0]! } })}
      >
        <Icon name="play" size={16} /> {phrase('Show how')}
      </button>
    </li>
  );
}
