import { useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { changeQuilt, quiltOf, withPlaces } from '../../document/edit-quilt.ts';
import type { Joining } from '../../document/quilt.ts';
import { listed } from '../../piecing/sentences.ts';
import { curesOf } from '../../quilt/cures.ts';
import { JOINING_WORDS, joiningSentence, noPlanSentence, stepWords } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { cancelPreview, edit, preview } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { ActButton } from '../act-button.tsx';
import { Choice } from '../choice.tsx';
import { Icon } from '../icons.tsx';
import { MatchingCard } from './matching-card.tsx';
import { changePart, chosenPlaces } from './quilt-acts.ts';
import { quiltView } from './quilt-state.ts';
import { joinedOf, layoutOf, placeNumbers } from './shown-quilt.ts';

const WAYS = Object.entries(JOINING_WORDS) as [Joining, string][];

/** So long each step is shown while the plan plays, milliseconds. */
const STEP_MS = 1400;

/** How the places are joined: which way, in which order, by hand, and what stands in the way. */
export function JoiningPanel() {
  // The recorded quilt: while a cure is shown on the board its button must not move away from under the hand.
  const project = useStore(session, (state) => state.project);
  const step = useStore(quiltView, (state) => state.step);
  const isPlaying = useStore(quiltView, (state) => state.isPlaying);
  const selection = useStore(quiltView, (state) => state.selection);
  const { unit } = project;
  const quilt = quiltOf(project);
  const layout = layoutOf(project);
  const joined = joinedOf(project);
  const numbers = placeNumbers(project);
  const steps = joined.ok ? joined.plan.steps : [];
  const last = steps.length;

  useEffect(() => {
    if (!isPlaying) return;
    const timer = window.setInterval(() => {
      const next = quiltView.getState().step + 1;
      if (next > last) quiltView.setState({ isPlaying: false });
      else quiltView.setState({ step: next });
    }, STEP_MS);
    return () => window.clearInterval(timer);
  }, [isPlaying, last]);

  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    list.current?.querySelector('[aria-current="step"]')?.scrollIntoView({ block: 'nearest' });
  });

  const goTo = (next: number): void =>
    quiltView.setState({ step: Math.max(0, Math.min(last, next)), isPlaying: false });
  const chosen = chosenPlaces(project, { ...quiltView.getState(), selection });
  const refused = joined.ok ? joined.plan.refused : [];
  return (
    <>
      <section className="quilt-card" aria-labelledby="joining-title">
        <h2 id="joining-title" className="quilt-title">
          {phrase('Joining')}
        </h2>
        <Choice
          label={phrase('How the places are joined')}
          isLabelShown={false}
          options={WAYS.map(([way, words]) => [
            way,
            words.split(' ')[0] === 'Blocks'
              ? phrase('Blocks')
              : way === 'rows'
                ? phrase('Rows')
                : phrase('Columns'),
          ])}
          value={quilt.joining ?? 'balanced'}
          onChoose={(way) => {
            changePart(phrase('Change way of joining'), (old) => ({ ...old, joining: way }));
            quiltView.setState({ step: 0, isPlaying: false });
          }}
        />
        <p className="quilt-sentence" role="status">
          <Icon name={!joined.ok ? 'trouble' : joined.plan.rings.length > 0 ? 'caution' : 'good'} size={18} />
          {joined.ok
            ? joiningSentence(joined.plan, layout.pieces.length)
            : noPlanSentence(joined.why, layout, numbers)}
        </p>
        {layout.gaps.length > 0 && (
          <p className="quilt-sentence">
            <Icon name="caution" size={18} />
            {phrase(
              '{gaps, plural, one {One stretch is} other {# stretches are}} covered by no place: edges of unequal length meet there.',
              { gaps: layout.gaps.length },
            )}
          </p>
        )}
        <Cures />
      </section>
      {last > 0 && (
        <section className="quilt-card quilt-steps" aria-label={phrase('Steps')}>
          <div className="quilt-play">
            <ActButton icon="first" label={phrase('All places')} act={() => goTo(0)} isOff={step === 0} />
            <ActButton
              icon="previous"
              label={phrase('Step before')}
              act={() => goTo(step - 1)}
              isOff={step === 0}
            />
            <ActButton
              icon={isPlaying ? 'pause' : 'play'}
              label={isPlaying ? phrase('Pause') : phrase('Play the steps')}
              act={() => quiltView.setState({ isPlaying: !isPlaying, step: step >= last ? 0 : step })}
            />
            <ActButton
              icon="next"
              label={phrase('Next step')}
              act={() => goTo(step + 1)}
              isOff={step === last}
            />
            <input
              type="range"
              aria-label={phrase('Step')}
              min={0}
              max={last}
              value={step}
              aria-valuetext={
                step === 0 ? phrase('before the first step') : phrase('step {step} of {last}', { step, last })
              }
              onChange={(event) => goTo(Number(event.target.value))}
            />
            <span className="quilt-of">{phrase('{step} of {last}', { step, last })}</span>
          </div>
          <p className="soft">
            {phrase('Numbers are those of the places; a unit has the number of the step that made it.')}
          </p>
          <ol className="quilt-step-list" ref={list}>
            {steps.map((one) => (
              <li key={one.step} aria-current={one.step === step ? 'step' : undefined}>
                <button type="button" onClick={() => goTo(one.step)}>
                  <span className="quilt-step-number">{one.step}</span>
                  {stepWords(one, steps, numbers, unit)}
                </button>
              </li>
            ))}
          </ol>
        </section>
      )}
      <section className="quilt-card" aria-labelledby="units-title">
        <h2 id="units-title" className="quilt-title">
          {phrase('Units by hand')}
        </h2>
        <p className="soft">
          {phrase('Choose places that lie together, and they are joined into one unit first.')}
        </p>
        <ul className="quilt-units">
          {(quilt.units ?? []).map((ids, k) => (
            <li
              key={ids.join(' ')}
              onPointerEnter={() => quiltView.setState({ lit: ids })}
              onPointerLeave={() => quiltView.setState({ lit: [] })}
            >
              <span>
                {listed(ids.map((id) => numbers.get(id) ?? '?'))}
                {refused.includes(k) && (
                  <em className="quilt-refused"> {phrase('– no straight seams keep it whole')}</em>
                )}
              </span>
              <ActButton
                icon="close"
                size={16}
                label={phrase('Let unit {k} go', { k: k + 1 })}
                act={() => {
                  quiltView.setState({ lit: [] });
                  changePart(phrase('Let a unit go'), ({ units = [], ...rest }) => {
                    const left = units.filter((_, i) => i !== k);
                    return left.length > 0 ? { ...rest, units: left } : rest;
                  });
                }}
              />
            </li>
          ))}
        </ul>
        <button
          type="button"
          className="button"
          aria-disabled={chosen.length < 2}
          onClick={() => {
            if (chosen.length < 2) return;
            changePart(phrase('Make a unit'), (old) => ({
              ...old,
              units: [...(old.units ?? []), chosen.map(({ id }) => id)],
            }));
          }}
        >
          {phrase('Make a unit of {isChosen, select, true {the chosen places} other {{chosen} places}}', {
            isChosen: chosen.length < 2,
            chosen: chosen.length,
          })}
        </button>
      </section>
      <MatchingCard />
    </>
  );
}

/** What would let straight seams alone join the quilt; shown while the pointer or the keyboard is on it. */
function Cures() {
  const project = useStore(session, (state) => state.project);
  const joined = joinedOf(project);
  const numbers = placeNumbers(project);
  if (!joined.ok || joined.plan.rings.length === 0) return null;
  const cures = curesOf(layoutOf(project), joined.plan, project.blocks);
  const inRing = joined.plan.rings[0]!.map(
    (k) => numbers.get(layoutOf(project).pieces[k]!.place.id) ?? 0,
  ).sort((a, b) => a - b);
  return (
    <div className="quilt-cures">
      <p>
        {phrase(
          '{inRing} lie in a ring: none of them can be sewn on first along a straight seam. {isCures, select, true {Take one of them out, lay two of the same size side by side, or sew round the corner.} other {}}',
          { inRing: listed(inRing), isCures: cures.length === 0 },
        )}
      </p>
      {cures.map((cure) => {
        const apply = (base: typeof project): typeof project =>
          changeQuilt(base, (quilt) => {
            const { setting: _setting, ...rest } = withPlaces(quilt, cure.places);
            return rest;
          });
        return (
          <button
            key={`${cure.kind} ${cure.changed.join(' ')}`}
            type="button"
            className="button"
            onPointerEnter={() => preview(apply)}
            onPointerLeave={cancelPreview}
            onFocus={() => preview(apply)}
            onBlur={cancelPreview}
            onClick={() =>
              edit(cure.kind === 'split' ? phrase('Part a place') : phrase('Set the ring otherwise'), apply)
            }
          >
            <Icon name="repair" size={18} />
            {cure.kind === 'split'
              ? phrase('Part {numbers} in two: the picture stays', { numbers: numbers.get(cure.changed[0]!) })
              : phrase('Set these {changed} otherwise', { changed: cure.changed.length })}
          </button>
        );
      })}
    </div>
  );
}
