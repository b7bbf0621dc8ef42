import './check.css';
import './cures.css';
import {
  memo,
  type RefObject,
  useCallback,
  useDeferredValue,
  useEffect,
  useReducer,
  useRef,
  useState,
} from 'react';
import { useStore } from 'zustand';
import { light } from '../../board/board-acts.ts';
import { board } from '../../board/board-state.ts';
import { cutsInHand, isFigureBegun } from '../../board/still-drawing.ts';
import type { Block } from '../../document/project.ts';
import type { Finding, Join, PiecingPlan } from '../../piecing/plan.ts';
import { joinedUnits, verdictSentence } from '../../piecing/sentences.ts';
import { phrase } from '../../words/phrase.ts';
import type { PlannedBlock } from '../../workspace/plans.ts';
import { session } from '../../workspace/session.ts';
import { Icon } from '../icons.tsx';
import { oneStop } from '../one-stop.ts';
import { usePlan } from '../use-plan.ts';
import { CheckSettings } from './check-settings.tsx';
import { FindingButton, Findings } from './findings.tsx';
import { FoundationList } from './foundation-list.tsx';
import { lengthOf } from './lengths.ts';
import { PlanChoices } from './plan-choices.tsx';
import { Chances, Repairs, useRepairs } from './repairs.tsx';

/** The check of more patches than these is written bit by bit, so that the drawing need not wait for it. */
const MOST_AT_ONCE = 100;

/** How long the hand must rest in a gesture before the lists are written anew, ms. */
const LISTS_REST_MS = 120;

/** How long the drawing must rest before the verdict is told aloud, ms. */
const QUIET_MS = 700;

type Grade = 'good' | 'trouble' | 'note';

const GRADES: Readonly<Record<PiecingPlan['verdict'], Grade>> = {
  undivided: 'note',
  'one-foundation': 'good',
  'several-foundations': 'good',
  'partial-seams': 'good',
  'set-in-seams': 'trouble',
  broken: 'trouble',
};

/** What the check says of the block as it is shown: the verdict, the foundations and their order, joins, findings. */
export function SeamCheck({ block }: { readonly block: Block }) {
  const { planned, isUpdating } = usePlan(block);
  const later = useDeferredValue(planned);
  const isLarge = (planned?.plan.patches.length ?? 0) > MOST_AT_ONCE;
  const isUnderHand = useStore(session, ({ draft }) => draft !== null);
  const isFigure = useStore(board, isFigureBegun);
  const isLineInHand = useStore(
    session,
    ({ draft, project, blockId }) => cutsInHand(draft, project, blockId) !== null,
  );
  const listed = useRested(
    isLarge && later?.block.id === block.id ? later : planned,
    block,
    isUnderHand,
    isLineInHand,
  );
  const verdict = useRef<HTMLParagraphElement>(null);
  // The pressed button goes away with what it mended; the keyboard goes on from the new verdict.
  const onApply = useCallback(() => verdict.current?.focus({ preventScroll: true }), []);
  const isListOld = isUpdating || listed !== planned;
  const isOld = isUpdating || (isListOld && !isUnderHand);
  return (
    <section className="seam-check" aria-labelledby="check-title" aria-busy={isOld}>
      <div className="check-head">
        <h2 id="check-title" className="panel-title">
          {phrase('Seam check')}
        </h2>
        <span className="updating" data-on={isOld} data-still={isUnderHand}>
          <Icon name="updating" size={14} /> {phrase('being updated')}
        </span>
        <CheckSettings />
      </div>
      {planned === null || listed === null ? (
        <p className="verdict verdict-note">
          <Icon name="note" size={24} />
          <span>{phrase('Working out how it is sewn …')}</span>
        </p>
      ) : (
        <>
          <Verdict plan={planned.plan} at={verdict} isStillDrawn={isFigure || isLineInHand} />
          <Lists
            block={isListOld ? listed.block : block}
            plan={listed.plan}
            isUpdating={isListOld}
            isFigure={isFigure}
            onApply={onApply}
          />
        </>
      )}
    </section>
  );
}

/**
 * The plan that the lists are of: while a gesture runs that of when the hand last rested, since nobody reads a list
 * that changes with every move and writing it would hold the drawing up. Of a line being drawn nothing is listed before
 * it is there.
 */
function useRested(
  planned: PlannedBlock | null,
  block: Block,
  isUnderHand: boolean,
  isLineInHand: boolean,
): PlannedBlock | null {
  const last = useRef(planned);
  const [, drawAgain] = useReducer((count: number) => count + 1, 0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: every move of the block begins the rest anew.
  useEffect(() => {
    if (!isUnderHand) {
      last.current = planned;
      return;
    }
    if (last.current === planned || isLineInHand) return;
    const timer = setTimeout(() => {
      last.current = planned;
      drawAgain();
    }, LISTS_REST_MS);
    return () => clearTimeout(timer);
  }, [planned, block, isUnderHand, isLineInHand]);
  return isUnderHand && last.current?.block.id === block.id ? last.current : planned;
}

interface VerdictProps {
  readonly plan: PiecingPlan;
  readonly at: RefObject<HTMLParagraphElement | null>;
  /** A line or a figure is only begun: it is told how it stands, without alarm. */
  readonly isStillDrawn: boolean;
}

/** The verdict and its numbers, which follow the pointer. */
const Verdict = memo(function Verdict({ plan, at, isStillDrawn }: VerdictProps) {
  const sentence = verdictSentence(plan);
  const own = GRADES[plan.verdict];
  const grade = isStillDrawn && own === 'trouble' ? 'note' : own;
  return (
    <>
      <p ref={at} className={`verdict verdict-${grade}`} tabIndex={-1}>
        <Icon name={grade} size={24} />
        <span>{sentence}</span>
      </p>
      {plan.verdict !== 'broken' && <p className="numbers">{numbers(plan)}</p>}
      <SpokenVerdict text={`${sentence} ${findingCounts(plan.findings)}`} />
    </>
  );
});

interface ListsProps {
  readonly block: Block;
  readonly plan: PiecingPlan;
  readonly isUpdating: boolean;
  /** A figure is begun that is drawn at several places at once. */
  readonly isFigure: boolean;
  readonly onApply: () => void;
}

/** What a plan says one by one; nothing of it is made again while the drawing goes on. */
const Lists = memo(function Lists({ block, plan, isUpdating, isFigure, onApply }: ListsProps) {
  const [isAsked, setAsked] = useState(false);
  useEffect(() => {
    if (!isFigure) setAsked(false);
  }, [isFigure]);
  const isQuiet = isFigure && !isAsked;
  const found = useRepairs(block, !isUpdating && !isQuiet);
  const gravest = plan.verdict === 'broken' ? undefined : plan.findings[0]?.severity;
  const hurts = gravest === 'trouble' || gravest === 'caution';
  // Why one foundation won't do belongs to the verdict, unless the project takes it graver than a note.
  const knot = plan.findings.findIndex(({ code, severity }) => code === 'knot' && severity === 'note');
  const chances = <Chances block={block} found={found} onApply={onApply} isAwaited={knot >= 0} />;
  return (
    <>
      {isQuiet && hurts && <WhileDrawn findings={plan.findings} onAsk={() => setAsked(true)} />}
      {!isQuiet && hurts && (
        <>
          <Findings findings={plan.findings} severity={gravest} />
          <Repairs block={block} plan={plan} found={found} onApply={onApply} />
          {gravest === 'trouble' && <Findings findings={plan.findings} severity="caution" />}
        </>
      )}
      {!isQuiet && knot >= 0 && (
        <section className="why-not-one" aria-labelledby="knot-title">
          <h3 id="knot-title">{phrase('Why not one foundation')}</h3>
          <FindingButton finding={plan.findings[knot]!} index={knot} />
          {!hurts && chances}
        </section>
      )}
      {plan.patches.length > 1 && <FoundationList block={block} plan={plan} isAtRest={!isUpdating} />}
      {plan.joins.length > 0 && <Joins joins={plan.joins} />}
      {plan.verdict !== 'broken' && plan.patches.length > 1 && <PlanChoices blockId={block.id} />}
      <Findings findings={plan.findings} severity="note" without={plan.findings[knot]} />
      {!isQuiet && !hurts && knot < 0 && plan.verdict !== 'broken' && chances}
    </>
  );
});

interface WhileDrawnProps {
  readonly findings: readonly Finding[];
  readonly onAsk: () => void;
}

/** The first lines of a figure are no drawing yet: what is amiss waits, and can be asked for. */
function WhileDrawn({ findings, onAsk }: WhileDrawnProps) {
  const places = findings.filter(({ severity }) => severity !== 'note').length;
  return (
    <div className="while-drawn">
      <p className="soft">
        {phrase(
          '{places, plural, one {# place} other {# places}} to look at once the figure is drawn, or when the tool is laid down.',
          { places },
        )}
      </p>
      <button type="button" className="button" onClick={onAsk}>
        {phrase('Look now')}
      </button>
    </div>
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
  if (verdict === 'undivided') return phrase('Draw a line from edge to edge to divide it.');
  const inPatches = phrase('{patches, plural, one {# patch} other {# patches}}', { patches: patches.length });
  if (joins.length === 0) return phrase('{inPatches}, no joins.', { inPatches });
  const matches = joins.reduce(
    (sum, join) => sum + join.points.filter(({ kind }) => kind === 'match').length,
    0,
  );
  const inMatches =
    matches === 0
      ? phrase('no match points')
      : phrase('{matches, plural, one {# match point} other {# match points}}', { matches });
  return phrase('{inPatches}, {joins, plural, one {# join} other {# joins}}, {inMatches}.', {
    inPatches,
    joins: joins.length,
    inMatches,
  });
}

function findingCounts(findings: readonly Finding[]): string {
  const trouble = findings.filter(({ severity }) => severity === 'trouble').length;
  const other = findings.length - trouble;
  return [
    ...(trouble > 0 ? [phrase('{trouble, plural, one {# problem} other {# problems}}.', { trouble })] : []),
    ...(other > 0
      ? [phrase('{other, plural, one {# awkward place} other {# awkward places}}.', { other })]
      : []),
  ].join(' ');
}

/** `6 in`, and what is particular about the seam. */
function joinWords({ kind, finishes, leftOpen }: Join, length: string): string {
  if (kind === 'set-in') return phrase('set in, {length}', { length });
  if (finishes) return phrase('closes join {step}, {length}', { step: finishes.step, length });
  return leftOpen ? phrase('begun, {length}', { length }) : length;
}

function Joins({ joins }: { readonly joins: readonly Join[] }) {
  const unit = useStore(session, (state) => state.project.unit);
  return (
    <section aria-labelledby="joins-title">
      <h3 id="joins-title">{phrase('Then join')}</h3>
      <ol ref={oneStop} className="joins">
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
              <span className={join.kind === 'set-in' ? 'set-in' : 'soft'}>
                {joinWords(join, lengthOf(join.stretches, unit))}
              </span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
