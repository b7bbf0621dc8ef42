import { useState } from 'react';
import { useStore } from 'zustand';
import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import { SEW_PARTS, type SewPart } from '../../rounds/pages/sew-print.ts';
import { longDay } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import { goTo } from '../../workspace/actions.ts';
import { appAddress } from '../../workspace/app-address.ts';
import { paperSettings, readChosenPage, readMargin } from '../../workspace/paper-settings.ts';
import { makeSewPdf, stopPdf } from '../../workspace/pdf-client.ts';
import { useWriting } from '../use-writing.ts';

const WORDS: Readonly<Record<SewPart, string>> = {
  cards: phrase('Round cards'),
  dividers: phrase('Dividers, a page a fabric'),
  checklist: phrase('Checklist'),
  map: phrase('Progress map to colour'),
};

/** What is in work on paper: the papers themselves, and pages to have beside the machine. */
export function SewPages({ project, work }: { readonly project: Project; readonly work: Work }) {
  const settings = useStore(paperSettings);
  const [parts, setParts] = useState<ReadonlySet<SewPart>>(new Set(SEW_PARTS));
  const { doing, write } = useWriting();
  const page = readChosenPage(settings, project.unit);
  const margin = readMargin(settings, project.unit, page.ok ? page.value : null);
  const print = (): void => {
    if (!page.ok || !margin.ok || parts.size === 0) return;
    const order = {
      project,
      work,
      parts: SEW_PARTS.filter((part) => parts.has(part)),
      address: appAddress(),
      page: page.value,
      margin: margin.value,
      printedOn: longDay(new Date()),
    };
    void write(project.name, phrase(', at the machine.pdf'), (onPage) => makeSewPdf(order, onPage));
  };
  return (
    <section className="sew-card" aria-labelledby="sew-pages-title">
      <h2 id="sew-pages-title" className="panel-title">
        {phrase('On paper')}
      </h2>
      <p className="sew-soft">
        {phrase('The papers themselves are printed in the Paper place, numbered as they are sewn here.')}
      </p>
      <button type="button" className="button" onClick={() => goTo('paper')}>
        {phrase('Go to Paper')}
      </button>
      {SEW_PARTS.map((part) => (
        <label key={part} className="sew-check">
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
          {WORDS[part]}
        </label>
      ))}
      <button
        type="button"
        className="button"
        aria-disabled={doing !== null || parts.size === 0 || !page.ok || !margin.ok}
        onClick={print}
      >
        {phrase('Download PDF')}
      </button>
      <p className="sew-soft" role="status">
        {page.ok ? doing : page.error}
      </p>
      {doing !== null && (
        <button type="button" className="button" onClick={stopPdf}>
          {phrase('Stop')}
        </button>
      )}
    </section>
  );
}
