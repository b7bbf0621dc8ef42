import { useStore } from 'zustand';
import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import { partsOfPaper } from '../../rounds/papers.ts';
import { nextRoundOf, paperIn, papersIn, sewnOf } from '../../rounds/work.ts';
import { sewView } from './sew-state.ts';

/** So many papers are listed; a search narrows them. */
const MOST_LISTED = 60;

/** Where every paper is: what it waits for, found by block, section, fabric or code. */
export function WhereList({ project, work }: { readonly project: Project; readonly work: Work }) {
  const search = useStore(sewView, (state) => state.search);
  const nameOf = new Map(project.fabrics.map(({ id, name }) => [id, name]));
  const rows = papersIn(work).map((paper) => {
    const { block, section } = paperIn(work, paper)!;
    const { letter, copy } = partsOfPaper(paper);
    const round = nextRoundOf(work, paper);
    const fabric = round === null ? null : work.rounds[round]!.fabric;
    const waits =
      round === null
        ? 'finished'
        : `waits for ${(fabric && nameOf.get(fabric)) ?? 'a fabric'}, round ${round + 1}`;
    const name = `${block.name}, ${letter}${block.copies > 1 ? `, copy ${copy}` : ''}`;
    return {
      paper,
      name,
      stamp: section.stamp,
      waits,
      round,
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
        Where every paper is
      </h2>
      <input
        className="text-input"
        type="search"
        aria-label="Find papers by block, letter, fabric or code"
        placeholder="Block, letter, fabric or code"
        value={search}
        onChange={(event) => sewView.setState({ search: event.target.value })}
      />
      <p className="sew-soft" role="status">
        {found.length === rows.length ? `${rows.length} papers` : `${found.length} of ${rows.length} papers`}
      </p>
      <ul className="sew-where">
        {found.slice(0, MOST_LISTED).map(({ paper, name, stamp, waits, round, sewn, all }) => (
          <li key={paper}>
            <button
              type="button"
              className="sew-where-row"
              disabled={round === null}
              onClick={() => sewView.setState({ round })}
            >
              <span className="sew-where-name">
                {name} <span className="sew-soft">{stamp}</span>
              </span>
              <span className="sew-soft">
                {sewn} of {all} sewn, {waits}
              </span>
            </button>
          </li>
        ))}
      </ul>
      {found.length > MOST_LISTED && (
        <p className="sew-soft">And {found.length - MOST_LISTED} more: type to narrow.</p>
      )}
    </section>
  );
}
