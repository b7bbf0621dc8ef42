import { useState } from 'react';
import { useStore } from 'zustand';
import { quiltOf } from '../../document/edit-quilt.ts';
import { DEFAULT_MARGIN_IN } from '../../document/pages.ts';
import { toSvg } from '../../foundations/files/svg.ts';
import { formatLength } from '../../geometry/length.ts';
import { pictureSheet, posterPages } from '../../quilt/papers/poster-pages.ts';
import type { QuiltPart } from '../../quilt/papers/quilt-sheets.ts';
import { clothLength } from '../../quilt/words.ts';
import { longDay } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import { goTo, say } from '../../workspace/actions.ts';
import { paperSettings, readChosenPage, readMargin } from '../../workspace/paper-settings.ts';
import { makeQuiltPdf, stopPdf } from '../../workspace/pdf-client.ts';
import { session } from '../../workspace/session.ts';
import { LengthField, readSize } from '../length-field.tsx';
import { handOver, useWriting } from '../use-writing.ts';
import { QuiltCopies } from './quilt-copies.tsx';
import { quiltPng } from './quilt-png.ts';
import { matchingShown } from './shown-matching.ts';
import { layoutOf } from './shown-quilt.ts';

const PARTS: readonly (readonly [QuiltPart, string, string])[] = [
  ['map', phrase('Quilt map'), phrase('where each block lies')],
  ['guide', phrase('Joining guide'), phrase('one page per row or unit')],
  ['finishing', phrase('Finishing list'), phrase('plain pieces, backing, binding')],
];

/** The quilt on paper and as a picture. */
export function PrintPanel() {
  const project = useStore(session, (state) => state.project);
  const settings = useStore(paperSettings);
  const [parts, setParts] = useState<ReadonlySet<QuiltPart>>(new Set(['map', 'guide', 'finishing']));
  const [poster, setPoster] = useState(clothLength(30, project.unit));
  const { doing, write } = useWriting();
  const page = readChosenPage(settings, project.unit);
  const margin = readMargin(settings, project.unit, page.ok ? page.value : null);
  const width = readSize(poster, project.unit);
  const { box } = layoutOf(project);
  const size = [box.maxX - box.minX, box.maxY - box.minY] as const;
  const pages =
    page.ok && width.ok && width.inches <= 200
      ? posterPages(size, width.inches, page.value, margin.ok ? margin.value : DEFAULT_MARGIN_IN)
      : 0;

  const print = (asked: readonly QuiltPart[], ending: string): void => {
    if (!page.ok || !margin.ok || asked.length === 0) return;
    const order = {
      project,
      parts: asked,
      posterWidth: width.ok ? width.inches : 30,
      pinned: matchingShown(project)?.pinned ?? [],
      page: page.value,
      margin: margin.value,
      printedOn: longDay(new Date()),
    };
    void write(project.name, ending, (onPage) => makeQuiltPdf(order, onPage));
  };
  const save = (file: Blob, ending: string): void => handOver(project.name, ending, file);

  return (
    <>
      <section className="quilt-card" aria-labelledby="quilt-print-title">
        <h2 id="quilt-print-title" className="quilt-title">
          {phrase('On paper')}
        </h2>
        {PARTS.map(([part, words, what]) => (
          <label key={part} className="quilt-tick">
            <input
              type="checkbox"
              checked={parts.has(part)}
              onChange={(event) => {
                const next = new Set(parts);
                if (event.target.checked) next.add(part);
                else next.delete(part);
                setParts(next);
              }}
            />
            <span>
              {words} <span className="soft">{what}</span>
            </span>
          </label>
        ))}
        <button
          type="button"
          className="button button-main"
          aria-disabled={doing !== null || parts.size === 0}
          onClick={() =>
            print(
              PARTS.map(([part]) => part).filter((part) => parts.has(part)),
              ', quilt.pdf',
            )
          }
        >
          {phrase('Download PDF')}
        </button>
        <p className="soft" role="status">
          {doing}
        </p>
        {doing !== null && (
          <button type="button" className="button" onClick={stopPdf}>
            {phrase('Stop')}
          </button>
        )}
      </section>
      <section className="quilt-card" aria-labelledby="quilt-picture-title">
        <h2 id="quilt-picture-title" className="quilt-title">
          {phrase('As a picture')}
        </h2>
        <div className="buttons">
          <button
            type="button"
            className="button"
            onClick={() =>
              void quiltPng(project).then(
                (png) => save(png, '.png'),
                () => say('trouble', phrase('This browser could not make a picture of that size.')),
              )
            }
          >
            {phrase('PNG')}
          </button>
          <button
            type="button"
            className="button"
            onClick={() =>
              save(new Blob([toSvg(pictureSheet(project, size[0]))], { type: 'image/svg+xml' }), '.svg')
            }
          >
            {phrase('SVG')}
          </button>
        </div>
        <LengthField
          label={phrase('Poster, this wide')}
          text={poster}
          unit={project.unit}
          onChange={setPoster}
        />
        <p className="soft">
          {pages > 0
            ? phrase('{pages, plural, one {# sheet} other {# sheets}}, to be trimmed and taped.', { pages })
            : phrase('Up to {most}.', { most: formatLength(200, project.unit) })}
        </p>
        <button
          type="button"
          className="button"
          aria-disabled={doing !== null || pages === 0}
          onClick={() => pages > 0 && print(['poster'], ', poster.pdf')}
        >
          {phrase('Download the poster')}
        </button>
      </section>
      <QuiltCopies quilt={quiltOf(project)} onPrint={() => goTo('paper')} />
    </>
  );
}
