import { useMemo, useState } from 'react';
import { announce } from '../../board/board-state.ts';
import type { Block } from '../../document/project.ts';
import { firstOrder } from '../../piecing/first-in-order.ts';
import type { PiecingPlan, Section } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import { Icon } from '../icons.tsx';
import { sewFirst } from './order-edits.ts';

interface FirstButtonProps {
  readonly block: Block;
  readonly plan: PiecingPlan;
  readonly section: Section;
  readonly id: string;
  readonly isIcon?: boolean;
}

/** Sews a patch before all others of its section, where that can be. Whether it can is found when one comes near. */
export function FirstButton({ block, plan, section, id, isIcon = false }: FirstButtonProps) {
  const [isNear, setNear] = useState(!isIcon);
  const isRefused = useMemo(
    () => isNear && firstOrder(plan, section, id) === null,
    [isNear, plan, section, id],
  );
  const words = isRefused
    ? phrase('{id} cannot be first: then the others do not all go on along straight seams', { id })
    : phrase('Sew {id} first', { id });
  return (
    <button
      type="button"
      className={isIcon ? 'icon-button order-first' : 'button'}
      aria-label={isIcon || isRefused ? words : undefined}
      title={words}
      aria-disabled={isRefused}
      onPointerEnter={() => setNear(true)}
      onFocus={() => setNear(true)}
      onClick={() => {
        if (firstOrder(plan, section, id) === null) announce(`${words}.`);
        else sewFirst(block, plan, section, id);
      }}
    >
      {isIcon ? <Icon name="first" size={18} /> : phrase('Sew this one first')}
    </button>
  );
}
