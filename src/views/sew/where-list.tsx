import { useStore } from 'zustand';
import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import { fabricName, paperCount, paperName } from '../../rounds/words.ts';
import { paperIn, papersIn, sewnOf, whereIs } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { Icon } from '../icons.tsx';
import { oneStop } from '../one-stop.ts';
import { sewView } from './sew-state.ts';

/** So many papers are listed; a search narrows them. */
const MOST_LISTED = 60;

/** Where every paper is: what it waits for, found by block, section, fabric or code. */
export function WhereList({ project, work }: { readonly project: Project; readonly work: Work }) {
  const search = useStore(sewView, (state) => state.search);
  const rows = papersIn(work).map((paper) => {
    const { section } = paperIn(work, paper)!;
    return {
      paper,
      name: paperName(work, paper),
      stamp: section.stamp,
      waits: waitingWords(project, work, paper),
      sewn: sewnOf(work, paper),
      all: section.order.length,
    };
  });
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  const found = rows.filter(({ name, stamp, waits }) =>
    words.every((word) => `${name} ${stamp} ${waits}`.toLowerCase().includes(word)),
  );
  return (
    <section className="sew-card" aria-labelledby="where-title">
      <h2 id="where-title" className="panel-title">
        {phrase('Where every paper is')}
      </h2>
      <div className="sew-row">
        <input
          className="text-input"
          type="search"
          aria-label={phrase('Find papers by block, letter, fabric or code')}
          placeholder={phrase('Block, letter, fabric or code')}
          value={search}
          onChange={(event) => sewView.setState({ search: event.target.value })}
        />
        <button
          type="button"
          className="button sew-scan"
          onClick={() => sewView.setState({ isScanning: true })}
        >
          <Icon name="eye" size={16} /> {phrase('[[verb: a code]] Scan')}
        </button>
      </div>
      <p className="sew-soft" role="status">
        {found.length === rows.length
          ? paperCount(rows.length)
          : phrase('{found, number} of {all, plural, one {# paper} other {# papers}}', {
              found: found.length,
              all: rows.length,
            })}
      </p>
      <ul ref={oneStop} className="sew-where">
        {found.slice(0, MOST_LISTED).map(({ paper, name, stamp, waits, sewn, all }) => (
          <li key={paper}>
            <button type="button" className="sew-where-row" onClick={() => sewView.setState({ paper })}>
              <span className="sew-where-name">
                {name} <span className="sew-soft">{stamp}</span>
              </span>
              <span className="sew-soft">
                {phrase('{sewn, number} of {all, number} sewn, {waits}', { sewn, all, waits })}
              </span>
            </button>
          </li>
        ))}
      </ul>
      {found.length > MOST_LISTED && (
        <p className="sew-soft">
          {phrase('And {n, number} more: type to narrow.', { n: found.length - MOST_LISTED })}
        </p>
      )}
    </section>
  );
}

/** What a paper waits for: the fabric of its next round, the other papers of its block, a join, or nothing more. */
export function waitingWords(project: Project, work: Work, paper: string): string {
  const at = whereIs(work, paper);
  switch (at.kind) {
    case 'round':
      return phrase('waits for {fabric}, round {round, number}', {
        fabric: fabricName(project, work.rounds[at.round]!.fabric),
        round: at.round + 1,
      });
    case 'others':
      return phrase('waits for the other papers of its block');
    case 'join':
      return phrase('waits for join {step, number} of its block', { step: at.step + 1 });
    case 'trim':
      return phrase('joined, its block is to be trimmed');
    case 'trimmed':
      return phrase('in a block that is finished');
  }
}
