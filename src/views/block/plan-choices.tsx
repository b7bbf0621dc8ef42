import { useEffect } from 'react';
import { useStore } from 'zustand';
import { setPlan } from '../../document/edit-plan.ts';
import { findBlock } from '../../document/find.ts';
import type { Block, Unit } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import { PLAN_CHOICES, type PlanChoice } from '../../piecing/block.ts';
import { costWords, isSamePlan, PLAN_NAMES } from '../../piecing/compare-plans.ts';
import { measurePlan } from '../../piecing/measure.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { unitWords } from '../../piecing/sentences.ts';
import { midSentence, phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { lookForOtherPlans, otherPlans } from '../../workspace/other-plans.ts';
import { pieceOptions } from '../../workspace/present-options.ts';
import { session } from '../../workspace/session.ts';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';
import { oneStop } from '../one-stop.ts';
import { PlanPicture } from './plan-picture.tsx';

/** The other ways a block can be parted into foundations, folded away until they are wanted. */
export function PlanChoices({ blockId }: { readonly blockId: string }) {
  const block = useStore(session, ({ project }) => findBlock(project, blockId));
  if (block === null) return null;
  return (
    <Folded title={phrase('Other plans')}>
      <Plans block={block} />
    </Folded>
  );
}

/** Plans that really differ, each with all the names it answers to. */
function differing(
  plans: ReadonlyMap<PlanChoice, PiecingPlan>,
): readonly { readonly choices: readonly PlanChoice[]; readonly plan: PiecingPlan }[] {
  const cards: { choices: PlanChoice[]; plan: PiecingPlan }[] = [];
  for (const choice of PLAN_CHOICES) {
    const plan = plans.get(choice);
    if (plan === undefined) continue;
    // Only where a ring can be sewn so is it a plan of its own.
    if (choice === 'partial-seams' && plan.verdict !== 'partial-seams') continue;
    const same = cards.find((card) => isSamePlan(card.plan, plan));
    if (same === undefined) cards.push({ choices: [choice], plan });
    else same.choices.push(choice);
  }
  return cards;
}

function Plans({ block }: { readonly block: Block }) {
  const unit = useStore(session, ({ project }) => project.unit);
  useStore(session, ({ project }) => project.fabrics);
  const found = useStore(otherPlans);
  const options = pieceOptions();
  useEffect(() => lookForOtherPlans(block, options), [block, options]);
  const fewest = found.of === block.cuts ? found.plans.get('fewest') : undefined;
  const present = block.plan ?? 'fewest';
  if (fewest === undefined)
    return <p className="soft plans-note">{phrase('Working out the other plans …')}</p>;
  const cards = differing(found.plans);
  return (
    <>
      <ul ref={oneStop} className="plans">
        {cards.map(({ choices, plan }) => (
          <li key={choices[0]}>
            <PlanCard
              choices={choices}
              plan={plan}
              fewest={fewest}
              unit={unit}
              isPresent={choices.includes(present)}
              onChoose={(choice) =>
                edit(phrase('Choose a plan'), (project) => setPlan(project, block.id, choice))
              }
            />
          </li>
        ))}
      </ul>
      {found.isLooking ? (
        <p className="soft plans-note">{phrase('Working out the rest …')}</p>
      ) : (
        cards.length === 1 && (
          <p className="soft plans-note">
            {phrase('In rows, in columns or with a finished unit first: every way leads to this plan.')}
          </p>
        )
      )}
    </>
  );
}

interface PlanCardProps {
  readonly choices: readonly PlanChoice[];
  readonly plan: PiecingPlan;
  readonly fewest: PiecingPlan;
  readonly unit: Unit;
  readonly isPresent: boolean;
  readonly onChoose: (choice: PlanChoice) => void;
}

function PlanCard({ choices, plan, fewest, unit, isPresent, onChoose }: PlanCardProps) {
  const [first, ...rest] = choices.map((choice) => PLAN_NAMES[choice]);
  return (
    <button
      type="button"
      className="plan-card"
      aria-pressed={isPresent}
      onClick={() => {
        if (!isPresent) onChoose(choices[0]!);
      }}
    >
      <PlanPicture plan={plan} size={112} />
      <span className="plan-name">{first}</span>
      {rest.length > 0 && (
        <span className="soft plan-also">
          {phrase('also {rest}', { rest: rest.map(midSentence).join(', ') })}
        </span>
      )}
      <span className="plan-cost">{costWords(plan, fewest)}</span>
      <span className="soft plan-numbers">
        {planNumbers(plan, unit).map((line) => (
          <span key={line}>{line}</span>
        ))}
      </span>
      {isPresent && (
        <span className="plan-present">
          <Icon name="good" size={16} /> {phrase('The present plan')}
        </span>
      )}
    </button>
  );
}

function planNumbers(plan: PiecingPlan, unit: Unit): readonly string[] {
  const { foundations, joins, setInCorners, matchPoints, meetings, longestJoin, biasJoins } =
    measurePlan(plan);
  const longest = formatLength(unit === 'in' ? Math.round(longestJoin * 16) / 16 : longestJoin, unit);
  return [
    phrase(
      '{foundations, plural, one {# foundation} other {# foundations}}, {joins, plural, one {# join} other {# joins}}',
      { foundations, joins },
    ),
    ...(setInCorners > 0
      ? [phrase('{setInCorners, plural, one {# set-in corner} other {# set-in corners}}', { setInCorners })]
      : []),
    ...(joins > 0
      ? [
          phrase('{matchPoints} to match, {meetings} to pin', { matchPoints, meetings }),
          phrase('longest join {longest}', { longest }),
          biasJoins === 0 ? phrase('none on the bias') : phrase('{biasJoins} on the bias', { biasJoins }),
        ]
      : []),
    ...plan.sections
      .filter(({ startsFrom }) => startsFrom.length > 0)
      .map(({ letter, startsFrom }) => `${letter}1 = ${unitWords(startsFrom)}`),
  ];
}
