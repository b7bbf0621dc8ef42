import './check.css';
import { useEffect, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { light } from '../../board/working.ts';
import type { Block } from '../../document/project.ts';
import type { Finding, Join, PiecingPlan } from '../../piecing/plan.ts';
import { joinedUnits, verdictSentence } from '../../piecing/sentences.ts';
import { session } from '../../workspace/session.ts';
import { Icon } from '../icons.tsx';
import { usePlan } from '../use-plan.ts';
import { CheckSettings } from './check-settings.tsx';
import { countOf } from './counts.ts';
import { Findings } from './findings.tsx';
import { FoundationList } from './foundation-list.tsx';
import { lengthOf } from './lengths.ts';
import { PlanChoices } from './plan-choices.tsx';
import { Repairs, useRepairs } from './repairs.tsx';

/** How long the drawing must rest before the verdict is told aloud, ms. */
const QUIET_MS = 700;

type Grade = 'good' | 'trouble' | 'note';

const GRADES: Readonly<Record<PiecingPlan['verdict'], Grade>> = {
  undivided: 'note',
  'one-foundation': 'good',
  'several-foundations': 'good',
  'set-in-seams': 'trouble',
  broken: 'trouble',
};

/** What the check says of the block as it is shown: the verdict, the foundations and their order, joins, findings. */
export function SeamCheck({ block }: { readonly block: Block }) {
  const { plan, isUpdating } = usePlan(block);
  return (
    <section className="seam-check" aria-labelledby="check-title" aria-busy={isUpdating}>
      <div className="check-head">
        <h2 id="check-title" className="panel-title">
          Seam check
        </h2>
        {isUpdating && (
          <span className="updating">
            <Icon name="updating" size={14} /> being updated
          </span>
        )}
        <CheckSettings />
      </div>
      {plan === null ? (
        <p className="verdict verdict-note">
          <Icon name="note" size={24} />
          <span>Working out how it is sewn …</span>
        </p>
      ) : (
        <Checked block={block} plan={plan} isUpdating={isUpdating} />
      )}
    </section>
  );
}

interface CheckedProps {
  readonly block: Block;
  readonly plan: PiecingPlan;
  readonly isUpdating: boolean;
}

function Checked({ block, plan, isUpdating }: CheckedProps) {
  const verdict = useRef<HTMLParagraphElement>(null);
  const found = useRepairs(block, !isUpdating);
  const sentence = verdictSentence(plan);
  const grade = GRADES[plan.verdict];
  const gravest = plan.verdict === 'broken' ? undefined : plan.findings[0]?.severity;
  const repairs = (
    <Repairs
      block={block}
      {...found}
      isNeeded={gravest === 'trouble' || gravest === 'caution'}
      // The pressed button goes away with what it mended; the keyboard goes on from the new verdict.
      onApply={() => verdict.current?.focus()}
    />
  );
  return (
    <>
      <p ref={verdict} className={`verdict verdict-${grade}`} tabIndex={-1}>
        <Icon name={grade} size={24} />
        <span>{sentence}</span>
      </p>
      {plan.verdict !== 'broken' && <p className="numbers">{numbers(plan)}</p>}
      <SpokenVerdict text={`${sentence} ${findingCounts(plan.findings)}`} />
      {plan.verdict !== 'broken' && <Findings findings={plan.findings} severity="trouble" />}
      {gravest === 'trouble' && repairs}
      {plan.patches.length > 1 && <FoundationList block={block} plan={plan} isAtRest={!isUpdating} />}
      {plan.joins.length > 0 && <Joins joins={plan.joins} />}
      {plan.verdict !== 'broken' && plan.patches.length > 1 && <PlanChoices blockId={block.id} />}
      <Findings findings={plan.findings} severity="caution" />
      {gravest === 'caution' && repairs}
      <Findings findings={plan.findings} severity="note" />
      {gravest !== 'trouble' && gravest !== 'caution' && plan.verdict !== 'broken' && repairs}
    </>
  );
}

function SpokenVerdict({ text }: { readonly text: string }) {
  const [spoken, setSpoken] = useState('');
  useEffect(() => {
    const timer = setTimeout(() => setSpoken(text), QUIET_MS);
    return () => clearTimeout(timer);
  }, [text]);
  return (
    <p className="only-heard" role="status" data-testid="spoken-verdict">
      {spoken}
    </p>
  );
}

function numbers({ verdict, patches, joins }: PiecingPlan): string {
  if (verdict === 'undivided') return 'Draw a cut from edge to edge to divide it.';
  const inPatches = countOf(patches.length, 'patch', 'patches');
  if (joins.length === 0) return `${inPatches}, no joins.`;
  const matches = joins.reduce(
    (sum, join) => sum + join.points.filter(({ kind }) => kind === 'match').length,
    0,
  );
  const inMatches = matches === 0 ? 'no seams to match' : `${countOf(matches, 'spot')} where seams must meet`;
  return `${inPatches}, ${countOf(joins.length, 'join')}, ${inMatches}.`;
}

function findingCounts(findings: readonly Finding[]): string {
  const trouble = findings.filter(({ severity }) => severity === 'trouble').length;
  const other = findings.length - trouble;
  return [
    ...(trouble > 0 ? [`${countOf(trouble, 'place')} in the way.`] : []),
    ...(other > 0 ? [`${countOf(other, 'place')} worth a look.`] : []),
  ].join(' ');
}

function Joins({ joins }: { readonly joins: readonly Join[] }) {
  const unit = useStore(session, (state) => state.project.unit);
  return (
    <section aria-labelledby="joins-title">
      <h3 id="joins-title">Then join</h3>
      <ol className="joins">
        {joins.map((join) => (
          <li key={join.step}>
            <button
              type="button"
              className="join-row"
              onPointerEnter={() => light({ kind: 'join', step: join.step })}
              onPointerLeave={() => light(null)}
              onFocus={() => light({ kind: 'join', step: join.step })}
              onBlur={() => light(null)}
            >
              <span className="join-step">{join.step}</span>
              <span>{joinedUnits(join)}</span>
              <span className={join.kind === 'straight' ? 'soft' : 'set-in'}>
                {join.kind === 'straight'
                  ? lengthOf(join.stretches, unit)
                  : `set in, ${lengthOf(join.stretches, unit)}`}
              </span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
