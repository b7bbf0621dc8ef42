import './order-list.css';
import { useId, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { light } from '../../board/board-acts.ts';
import { threadOf } from '../../board/draw/inks.ts';
import type { Block, Fabric } from '../../document/project.ts';
import type { PiecingPlan, Section } from '../../piecing/plan.ts';
import { unitWords } from '../../piecing/sentences.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { Icon } from '../icons.tsx';
import { oneStop } from '../one-stop.ts';
import { patchesOf } from './order-edits.ts';
import { OrderList } from './order-list.tsx';

interface FoundationListProps {
  readonly block: Block;
  readonly plan: PiecingPlan;
  /** The plan is that of the block as it is shown; nothing newer is on its way. */
  readonly isAtRest: boolean;
}

/** The foundations of a plan, each unfolding to its patches in their order. */
export function FoundationList({ block, plan, isAtRest }: FoundationListProps) {
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const byId = useMemo(() => new Map(fabrics.map((fabric) => [fabric.id, fabric])), [fabrics]);
  const isAlone = plan.sections.length === 1;
  return (
    <section aria-labelledby="sections-title">
      <h3 id="sections-title">{isAlone ? phrase('Its order') : phrase('Foundations and their order')}</h3>
      <ul ref={oneStop} className="sections">
        {plan.sections.map((section, index) => (
          <Foundation
            key={`${block.id} ${section.letter}`}
            block={block}
            plan={plan}
            isAtRest={isAtRest}
            section={section}
            index={index}
            isAlone={isAlone}
            fabrics={byId}
          />
        ))}
      </ul>
    </section>
  );
}

interface FoundationProps extends FoundationListProps {
  readonly section: Section;
  readonly index: number;
  readonly isAlone: boolean;
  readonly fabrics: ReadonlyMap<string, Fabric>;
}

function Foundation({ block, plan, isAtRest, section, index, isAlone, fabrics }: FoundationProps) {
  const [isOpen, setOpen] = useState(false);
  const id = useId();
  const { letter, order, startsFrom } = section;
  const { color, dash } = threadOf(index);
  const lit = isAlone ? null : ({ kind: 'section', letter } as const);
  return (
    <li>
      <button
        type="button"
        className="section-row"
        aria-expanded={isOpen}
        aria-controls={isOpen ? id : undefined}
        onPointerEnter={() => light(lit)}
        onPointerLeave={() => light(null)}
        onFocus={() => light(lit)}
        onBlur={() => light(null)}
        onClick={() => setOpen(!isOpen)}
      >
        <span className="section-chevron">
          <Icon name="chevron" size={16} />
        </span>
        <span className="section-letter">{letter}</span>
        <span className="section-words">
          {startsFrom.length > 0 && (
            <span>
              {letter}1 = {unitWords(startsFrom)}
            </span>
          )}
          <span>
            {order.length === 1 ? order[0] : `${order[0]} – ${order.at(-1)}`}
            <span className="soft">
              {' '}
              {phrase('{order, plural, one {# patch} other {# patches}}', { order: order.length })}
            </span>
          </span>
          <span className="order-strip" aria-hidden="true">
            {patchesOf(plan, section).map((patch) => (
              <span
                key={patch.id}
                style={{
                  backgroundColor:
                    (patch.fabric === null ? undefined : fabrics.get(patch.fabric)?.color) ?? 'var(--sheet)',
                }}
              />
            ))}
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
      {isOpen && (
        <div id={id} inert={!isAtRest}>
          <OrderList block={block} plan={plan} section={section} fabrics={fabrics} />
        </div>
      )}
    </li>
  );
}
