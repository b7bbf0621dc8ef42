import type { OrderFault } from '../../piecing/hand-order.ts';
import { phrase } from '../../words/phrase.ts';
import { ordinal } from './ordinal.ts';

interface OrderPlaceProps {
  readonly place: number;
  readonly position: number;
  readonly inHand: string;
  readonly fault: OrderFault | null;
  readonly isOver: boolean;
  readonly refusal: OrderFault | null;
  /** A patch is in hand and may be put here. */
  readonly isOpen: boolean;
  readonly onOver: () => void;
  readonly onPut: () => void;
  readonly onLeave: () => void;
}

/** A place between two patches where the one in hand may go, or why it may not. */
export function OrderPlace({
  place,
  position,
  inHand,
  fault,
  isOver,
  refusal,
  isOpen,
  onOver,
  onPut,
  onLeave,
}: OrderPlaceProps) {
  return (
    <li
      className="order-place"
      data-free={fault === null}
      data-over={isOver}
      data-place={isOpen ? place : undefined}
    >
      {isOpen && (
        <button
          type="button"
          aria-label={
            fault === null
              ? phrase('Put {inHand} {ordinal}', { inHand, ordinal: ordinal(position) })
              : phrase('Not {ordinal}: {message}', { ordinal: ordinal(position), message: fault.message })
          }
          aria-disabled={fault !== null}
          title={fault?.message}
          onFocus={onOver}
          onPointerEnter={onOver}
          onClick={onPut}
          onKeyDown={(event) => {
            const step = event.key === 'ArrowUp' ? -1 : event.key === 'ArrowDown' ? 1 : 0;
            if (event.key === 'Escape') onLeave();
            else if (step !== 0) {
              const marks = [
                ...(event.currentTarget.closest('ol')?.querySelectorAll<HTMLElement>('.order-place button') ??
                  []),
              ];
              marks[marks.indexOf(event.currentTarget) + step]?.focus();
            } else return;
            event.preventDefault();
            event.stopPropagation();
          }}
        >
          <span>{fault === null ? ordinal(position) : phrase('cannot be sewn here')}</span>
        </button>
      )}
      {(refusal ?? (isOver ? fault : null)) !== null && (
        <p className="order-refusal" role={refusal === null ? undefined : 'alert'}>
          {refusal === null ? fault?.message : phrase('Not there: {message}', { message: refusal.message })}
        </p>
      )}
    </li>
  );
}
