import { threadOf } from '../../board/draw/inks.ts';
import { labelSpot } from '../../board/draw/label-spot.ts';
import type { Segment } from '../../geometry/point.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { patchPath, planBox, ringsPath, stretchesPath, viewOf } from '../rehearsal/view.ts';

interface PlanPictureProps {
  readonly plan: PiecingPlan;
  /** CSS pixels, both ways. */
  readonly size: number;
  /** Lines that are not drawn yet. */
  readonly added?: readonly Segment[];
}

/** Letters of more sections than these would cover the picture. */
const MOST_LETTERS = 10;

/** A plan small: its sections with their letters, its joins as they are on the board, and what would be drawn. */
export function PlanPicture({ plan, size, added = [] }: PlanPictureProps) {
  const view = viewOf(planBox(plan), size - 6, size - 6, 0, 'front');
  return (
    <svg
      className="plan-picture"
      width={size}
      height={size}
      viewBox={`-3 -3 ${size} ${size}`}
      aria-hidden="true"
      focusable="false"
    >
      {plan.sections.map(({ letter, order }, index) => (
        <g key={letter}>
          {plan.patches
            .filter(({ id }) => order.includes(id))
            .map((patch) => (
              <path
                key={patch.id}
                d={patchPath(view, patch)}
                fill={threadOf(index).color}
                fillOpacity={0.16}
                stroke="var(--sheet-ink)"
                strokeOpacity={0.25}
                strokeWidth={0.6}
              />
            ))}
        </g>
      ))}
      {plan.sections.map(({ letter, outline }) => (
        <path
          key={letter}
          d={ringsPath(view, [outline])}
          fill="none"
          stroke="var(--sheet-ink)"
          strokeWidth={1.2}
          strokeLinejoin="round"
        />
      ))}
      {plan.joins.map(({ step, stretches }) => (
        <path key={step} className="plan-join" d={stretchesPath(view, stretches)} />
      ))}
      {added.length > 0 && <path className="plan-added" d={stretchesPath(view, added)} />}
      {(plan.sections.length > MOST_LETTERS ? [] : plan.sections).map(({ letter, order }) => {
        // In the roomiest patch: the outline may take in a unit that has letters of its own.
        const [widest] = plan.patches
          .filter(({ id }) => order.includes(id))
          .map(labelSpot)
          .sort((one, other) => other.room - one.room);
        const [x, y] = view.toPx(widest!.at);
        return (
          <text key={letter} className="plan-letter" x={x} y={y} dy="0.35em">
            {letter}
          </text>
        );
      })}
    </svg>
  );
}
