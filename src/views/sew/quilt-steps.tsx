import { useState } from 'react';
import { useStore } from 'zustand';
import type { Work } from '../../document/work.ts';
import { clothLength } from '../../quilt/words.ts';
import { quiltStepsOf, setQuiltStep } from '../../rounds/quilt-steps.ts';
import { unitWords } from '../../rounds/words.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { noteSewn } from '../../workspace/sewing.ts';
import { oneStop } from '../one-stop.ts';

/** Done steps that are still listed, the last ones, so that a wrong tick can be taken back. */
const DONE_LISTED = 3;

/** The quilt joined: every step whose units are there, for each quilt that is made. */
export function QuiltSteps({ work }: { readonly work: Work }) {
  const unit = useStore(session, (state) => state.project.unit);
  const [copy, setCopy] = useState(1);
  const { quilt } = work;
  if (!quilt) return null;
  const steps = quiltStepsOf(work, copy);
  const open = steps.filter(({ isDone }) => !isDone);
  const done = steps.filter(({ isDone }) => isDone);
  const listed = [...done.slice(-DONE_LISTED), ...open];
  return (
    <section className="sew-card" aria-labelledby="quilt-steps-title">
      <h2 id="quilt-steps-title" className="panel-title">
        {phrase('Join the quilt')}
      </h2>
      {quilt.copies > 1 && (
        <div className="sew-row">
          <label htmlFor="quilt-copy">{phrase('Quilt')}</label>
          <select
            id="quilt-copy"
            className="text-input"
            value={copy}
            onChange={(event) => setCopy(Number(event.target.value))}
          >
            {quilt.done.map((_, k) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: quilts are known by their number.
              <option key={k} value={k + 1}>
                {phrase('{k, number} of {all, number}', { k: k + 1, all: quilt.copies })}
              </option>
            ))}
          </select>
        </div>
      )}
      <p className="sew-soft" role="status">
        {phrase('{done, number} of {all, plural, one {# seam} other {# seams}} sewn.', {
          done: done.length,
          all: quilt.steps.length,
        })}{' '}
        {open.length === 0 && done.length < quilt.steps.length
          ? phrase('A step comes here when both its sides are trimmed or joined.')
          : ''}
      </p>
      <ul ref={oneStop} className="sew-steps">
        {listed.map(({ step, isDone }) => {
          const [left, right] = unitWords(work, step);
          const { length, pins, matches } = quilt.steps[step]!;
          return (
            <li key={step}>
              <label className="sew-check">
                <input
                  type="checkbox"
                  checked={isDone}
                  onChange={(event) =>
                    noteSewn((before) => setQuiltStep(before, copy, step, event.target.checked))
                  }
                />
                <span>
                  {phrase('{step, number}. {left} to {right}, {length}', {
                    step: step + 1,
                    left,
                    right,
                    length: clothLength(length, unit),
                  })}{' '}
                  {pins > 0 && (
                    <span className="sew-soft">
                      {phrase(
                        '{matches, plural, =0 {{pins, plural, one {# pin} other {# pins}}} other {{pins, plural, one {# pin} other {# pins}}, {matches, plural, one {# of them} other {# of them}} where seams must meet}}',
                        { pins, matches },
                      )}
                    </span>
                  )}
                </span>
              </label>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
