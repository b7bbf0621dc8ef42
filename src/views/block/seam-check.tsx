import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { board } from '../../board/board-state.ts';
import { threadOf } from '../../board/draw/inks.ts';
import { zoomTo } from '../../board/looking.ts';
import { light } from '../../board/working.ts';
import type { Block } from '../../document/project.ts';
import type { Finding, Join, PiecingPlan, Section, Severity } from '../../piecing/plan.ts';
import { joinedUnits, verdictSentence } from '../../piecing/sentences.ts';
import { planOf } from '../../workspace/plans.ts';
import { session } from '../../workspace/session.ts';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';
import { countOf } from './counts.ts';
import { lengthOf } from './lengths.ts';

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
  const plan = planOf(block);
  const sentence = verdictSentence(plan);
  const grade = GRADES[plan.verdict];
  return (
    <section className="seam-check" aria-labelledby="check-title">
      <h2 id="check-title" className="panel-title">
        Seam check
      </h2>
      <p className={`verdict verdict-${grade}`}>
        <Icon name={grade} size={24} />
        <span>{sentence}</span>
      </p>
      {plan.verdict !== 'broken' && <p className="numbers">{numbers(plan)}</p>}
      <SpokenVerdict text={`${sentence} ${findingCounts(plan.findings)}`} />
      {plan.verdict !== 'broken' && <Findings findings={plan.findings} severity="trouble" />}
      {plan.patches.length > 1 && <Sections plan={plan} />}
      {plan.joins.length > 0 && <Joins joins={plan.joins} />}
      <Findings findings={plan.findings} severity="caution" />
      <Findings findings={plan.findings} severity="note" />
    </section>
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

const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  trouble: 'Trouble',
  caution: 'Awkward',
  note: 'Note',
};

const GROUP_TITLES: Readonly<Record<Severity, string>> = {
  trouble: 'In the way',
  caution: 'Worth a look',
  note: 'Good to know',
};

function findingCounts(findings: readonly Finding[]): string {
  const trouble = findings.filter(({ severity }) => severity === 'trouble').length;
  const other = findings.length - trouble;
  return [
    ...(trouble > 0 ? [`${countOf(trouble, 'place')} in the way.`] : []),
    ...(other > 0 ? [`${countOf(other, 'place')} worth a look.`] : []),
  ].join(' ');
}

/** More than this are not listed one by one: whoever has so many starts with the first. */
const MOST_SHOWN = 60;

interface FindingsProps {
  readonly findings: readonly Finding[];
  readonly severity: Severity;
}

/** The findings of one severity; their numbers are those of the markers on the board. Notes are folded away. */
function Findings({ findings, severity }: FindingsProps) {
  const numbered = findings
    .map((finding, index) => ({ finding, index }))
    .filter((one) => one.finding.severity === severity);
  if (numbered.length === 0) return null;
  const title = `${GROUP_TITLES[severity]} (${numbered.length})`;
  const list = (
    <ol className="findings">
      {numbered.slice(0, MOST_SHOWN).map(({ finding, index }) => (
        <li key={index}>
          <FindingButton finding={finding} index={index} />
        </li>
      ))}
      {numbered.length > MOST_SHOWN && (
        <li className="soft">And {numbered.length - MOST_SHOWN} more, which show when these are mended.</li>
      )}
    </ol>
  );
  if (severity === 'note') return <Folded title={title}>{list}</Folded>;
  return (
    <section aria-labelledby={`findings-${severity}`}>
      <h3 id={`findings-${severity}`}>{title}</h3>
      {list}
    </section>
  );
}

function FindingButton({ finding, index }: { readonly finding: Finding; readonly index: number }) {
  const isLit = useStore(board, ({ lit }) => lit?.kind === 'finding' && lit.index === index);
  const { severity, message, at } = finding;
  return (
    <button
      type="button"
      className={`finding finding-${severity}`}
      data-lit={isLit}
      onClick={() => zoomTo(at)}
      onPointerEnter={() => light({ kind: 'finding', index })}
      onPointerLeave={() => light(null)}
      onFocus={() => light({ kind: 'finding', index })}
      onBlur={() => light(null)}
    >
      <span className="finding-mark">
        <Icon name={severity} size={18} />
        {index + 1}
      </span>
      <span>
        <b>{SEVERITY_WORDS[severity]}.</b> {message}
      </span>
    </button>
  );
}

function Sections({ plan }: { readonly plan: PiecingPlan }) {
  return (
    <section aria-labelledby="sections-title">
      <h3 id="sections-title">{plan.sections.length === 1 ? 'Its order' : 'Foundations and their order'}</h3>
      <ul className="sections">
        {plan.sections.map((section, index) => (
          <li key={section.letter}>
            <SectionRow section={section} index={index} plan={plan} isAlone={plan.sections.length === 1} />
          </li>
        ))}
      </ul>
    </section>
  );
}

interface SectionRowProps {
  readonly section: Section;
  readonly index: number;
  readonly plan: PiecingPlan;
  readonly isAlone: boolean;
}

function SectionRow({ section, index, plan, isAlone }: SectionRowProps) {
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const byId = useMemo(() => new Map(fabrics.map((fabric) => [fabric.id, fabric])), [fabrics]);
  const patches = useMemo(() => new Map(plan.patches.map((patch) => [patch.id, patch])), [plan]);
  const { letter, order } = section;
  const { color, dash } = threadOf(index);
  const lit = isAlone ? null : ({ kind: 'section', letter } as const);
  return (
    <button
      type="button"
      className="section-row"
      onPointerEnter={() => light(lit)}
      onPointerLeave={() => light(null)}
      onFocus={() => light(lit)}
      onBlur={() => light(null)}
      onClick={() => light(lit)}
    >
      <span className="section-letter">{letter}</span>
      <span className="section-words">
        <span>
          {order.length === 1 ? order[0] : `${order[0]} – ${order.at(-1)}`}
          <span className="soft"> {countOf(order.length, 'patch', 'patches')}</span>
        </span>
        <span className="order-strip" aria-hidden="true">
          {order.map((id) => {
            const fabric = patches.get(id)?.fabric ?? null;
            const paint = fabric === null ? undefined : byId.get(fabric)?.color;
            return <span key={id} style={{ backgroundColor: paint ?? 'var(--sheet)' }} />;
          })}
        </span>
      </span>
      {!isAlone && (
        <svg className="section-thread" width={34} height={6} aria-hidden="true">
          <line
            x1={0}
            y1={3}
            x2={34}
            y2={3}
            stroke={color}
            strokeWidth={3}
            strokeDasharray={dash.join(' ')}
          />
        </svg>
      )}
    </button>
  );
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
