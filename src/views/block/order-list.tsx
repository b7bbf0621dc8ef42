import {
  Fragment,
  type KeyboardEvent,
  type PointerEvent,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { light } from '../../board/board-acts.ts';
import { announce } from '../../board/board-state.ts';
import type { Block, Fabric } from '../../document/project.ts';
import { firstOrder } from '../../piecing/first-in-order.ts';
import { moved, type OrderFault, orderFault } from '../../piecing/hand-order.ts';
import { orderCounts } from '../../piecing/order-counts.ts';
import type { PiecingPlan, Section } from '../../piecing/plan.ts';
import { unitWords } from '../../piecing/sentences.ts';
import { pieceOptions } from '../../workspace/present-options.ts';
import { Icon } from '../icons.tsx';
import { countOf } from './counts.ts';
import { ordersFor, patchesOf, setSectionOrder, sewFirst, suggestOrder } from './order-edits.ts';

interface OrderListProps {
  readonly block: Block;
  readonly plan: PiecingPlan;
  readonly section: Section;
  readonly fabrics: ReadonlyMap<string, Fabric>;
}

/** A patch that is taken up, and the place it is over: places are counted from 0, the patch itself left out. */
interface Hand {
  /** The section as it was: with the next plan the hand is empty. */
  readonly section: Section;
  readonly from: number;
  readonly over: number | null;
  readonly isDragged: boolean;
}

/** A move that was refused where it was dropped. */
interface Refusal {
  readonly section: Section;
  readonly to: number;
  readonly fault: OrderFault;
}

/** Height of a place between two patches. The style sheet has the same. */
const MARK_PX = 24;

/** Further than this with the pointer down, and a patch is dragged instead of taken up by a press. CSS pixels. */
const DRAG_PX = 4;

/** A section's patches in their order, each of which can be taken to another place by pointer or keyboard. */
export function OrderList({ block, plan, section, fabrics }: OrderListProps) {
  const { order } = section;
  const patches = patchesOf(plan, section);
  const [taken, setHand] = useState<Hand | null>(null);
  const [refused, setRefusal] = useState<Refusal | null>(null);
  const hand = taken?.section === section ? taken : null;
  const refusal = refused?.section === section ? refused : null;
  const list = useRef<HTMLOListElement>(null);
  const pressed = useRef<{ readonly from: number; readonly y: number } | null>(null);
  /** The press that ends a drag is no press of the button. */
  const hasDragged = useRef(false);
  const isByHand = ordersFor(block, plan, section).length > 0;

  /** For each place, why the patch in hand cannot be sewn there; null where it can. */
  const from = hand?.from ?? null;
  const faults = useMemo(() => (from === null ? [] : placesFor(plan, section, from)), [plan, section, from]);
  const over = hand?.over ?? null;
  const shown = refusal?.fault ?? (over === null || over === from ? null : (faults[over] ?? null));

  useEffect(() => {
    if (shown === null) return;
    light({ kind: 'stretches', patches: [shown.patch, ...shown.touches], stretches: shown.stretches });
    return () => light(null);
  }, [shown]);

  const put = (place: number, to: number): void => {
    setHand(null);
    if (to === place) return;
    const next = moved(order, place, to);
    const fault = orderFault(plan, section, next);
    if (fault !== null) {
      setRefusal({ section, to, fault });
      announce(`Not there. ${fault.message}`);
      return;
    }
    setRefusal(null);
    setSectionOrder(block, plan, section, next);
    announce(`${order[place]} is sewn ${ordinal(to + firstPosition(section))} now.`);
    following.current = { place: to, before: order };
  };

  // The grip is followed to its new place once that is drawn: a row that moves loses the focus it had.
  const following = useRef<{ readonly place: number; readonly before: readonly string[] } | null>(null);
  useEffect(() => {
    if (following.current === null || following.current.before === order) return;
    list.current?.querySelectorAll<HTMLElement>('.order-grip')[following.current.place]?.focus();
    following.current = null;
  });

  // The places that open above the patch taken up must not carry it away from under the pointer.
  const stood = useRef(0);
  useLayoutEffect(() => {
    const row = from === null ? null : list.current?.querySelectorAll('.order-row')[from];
    if (!row) return;
    const by = row.getBoundingClientRect().top - stood.current;
    row.closest('.check-scroll')?.scrollBy(0, by);
    row.closest('.block-place')?.scrollBy(0, row.getBoundingClientRect().top - stood.current);
  }, [from]);

  const focusGrip = (place: number): void => {
    requestAnimationFrame(() => list.current?.querySelectorAll<HTMLElement>('.order-grip')[place]?.focus());
  };

  const takeUp = (place: number, isDragged: boolean): void => {
    setRefusal(null);
    const row = list.current?.querySelectorAll('.order-row')[place];
    stood.current = row?.getBoundingClientRect().top ?? 0;
    setHand({ section, from: place, over: null, isDragged });
  };

  /** The place whose mark is nearest to a height on the screen. */
  const placeAt = (y: number): number => {
    const marks = [...(list.current?.querySelectorAll<HTMLElement>('[data-place]') ?? [])];
    const away = (mark: HTMLElement): number => {
      // Not its middle: a reason may be shown below it.
      return Math.abs(y - mark.getBoundingClientRect().top - MARK_PX / 2);
    };
    const nearest = marks.reduce((best, mark) => (away(mark) < away(best) ? mark : best), marks[0]!);
    return Number(nearest.dataset.place);
  };

  const onGripMove = (event: PointerEvent): void => {
    const start = pressed.current;
    if (start === null) return;
    if (hand === null && Math.abs(event.clientY - start.y) > DRAG_PX) {
      takeUp(start.from, true);
      hasDragged.current = true;
    }
    if (hand?.isDragged) {
      const place = placeAt(event.clientY);
      if (place === hand.over) return;
      setHand({ ...hand, over: place });
      list.current?.querySelector(`[data-place="${place}"]`)?.scrollIntoView({ block: 'nearest' });
    }
  };

  const onGripKey = (event: KeyboardEvent, place: number): void => {
    const step = event.key === 'ArrowUp' ? -1 : event.key === 'ArrowDown' ? 1 : 0;
    if (event.key === 'Escape' && (hand !== null || refusal !== null)) {
      pressed.current = null;
      setHand(null);
      setRefusal(null);
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    if (step === 0) return;
    event.preventDefault();
    event.stopPropagation();
    if (!event.altKey) {
      list.current?.querySelectorAll<HTMLElement>('.order-grip')[place + step]?.focus();
      return;
    }
    const beside = place + step;
    if (beside < 0 || beside >= order.length) return;
    const free = placesFor(plan, section, place);
    let to = beside;
    while (to >= 0 && to < order.length && free[to] !== null) to += step;
    put(place, free[to] === null ? to : beside);
  };

  const counted =
    hand !== null && over !== null && faults[over] === null ? moved(order, hand.from, over) : order;
  return (
    <div className="order">
      <ol
        ref={list}
        className="order-list"
        data-taken={hand !== null}
        aria-label={`Order of ${section.letter}`}
        onBlur={(event) => {
          if (!event.currentTarget.contains(event.relatedTarget)) setRefusal(null);
        }}
      >
        {section.startsFrom.length > 0 && (
          <li className="order-unit">
            {section.letter}1 = {unitWords(section.startsFrom)}
          </li>
        )}
        {patches.map((patch, place) => {
          const fabric = patch.fabric === null ? undefined : fabrics.get(patch.fabric);
          const isInHand = hand?.from === place;
          const canMark = hand !== null && !isInHand;
          const mark =
            canMark || refusal?.to === place ? (
              <PlaceMark
                key={`place ${patch.id}`}
                place={place}
                position={place + firstPosition(section)}
                inHand={order[hand?.from ?? 0]!}
                fault={faults[place] ?? null}
                isOver={over === place}
                refusal={refusal?.to === place ? refusal.fault : null}
                isOpen={canMark}
                onOver={() => {
                  if (hand !== null && !hand.isDragged) setHand({ ...hand, over: place });
                }}
                onPut={() => {
                  if (hand !== null) put(hand.from, place);
                }}
                onLeave={() => {
                  setHand(null);
                  focusGrip(from ?? place);
                }}
              />
            ) : null;
          const row = (
            <li
              key={patch.id}
              className="order-row"
              data-in-hand={isInHand}
              data-place={isInHand ? place : undefined}
              onPointerEnter={() => {
                if (shown === null) light({ kind: 'patches', ids: [patch.id] });
              }}
              onPointerLeave={() => {
                if (shown === null) light(null);
              }}
            >
              <span className="row-swatch" style={{ backgroundColor: fabric?.color ?? 'var(--sheet)' }} />
              <b>{patch.id}</b>
              <span className="order-fabric soft">{fabric?.name ?? 'no fabric yet'}</span>
              {place > 0 && <FirstButton block={block} plan={plan} section={section} id={patch.id} isIcon />}
              {order.length > 1 && (
                <button
                  type="button"
                  className="icon-button order-grip"
                  aria-label={`Move ${patch.id}`}
                  title={`Move ${patch.id} to another place (Alt + up or down)`}
                  aria-pressed={isInHand}
                  onClick={() => {
                    if (hasDragged.current) return;
                    if (isInHand) setHand(null);
                    else takeUp(place, false);
                  }}
                  onPointerDown={(event) => {
                    if (event.button !== 0) return;
                    event.currentTarget.setPointerCapture(event.pointerId);
                    pressed.current = { from: place, y: event.clientY };
                    hasDragged.current = false;
                  }}
                  onPointerMove={onGripMove}
                  onPointerUp={(event) => {
                    pressed.current = null;
                    if (!hand?.isDragged) return;
                    put(hand.from, placeAt(event.clientY));
                  }}
                  onPointerCancel={() => {
                    pressed.current = null;
                    setHand(null);
                  }}
                  onKeyDown={(event) => onGripKey(event, place)}
                >
                  <Icon name="grip" size={18} />
                </button>
              )}
            </li>
          );
          // The place of a patch below the one in hand lies under it, of one above it over it.
          const isBelow = from !== null && place > from;
          return <Fragment key={patch.id}>{isBelow ? [row, mark] : [mark, row]}</Fragment>;
        })}
      </ol>
      <p className="order-counts soft">{countWords(plan, section, counted)}</p>
      {isByHand && (
        <p className="order-hand">
          <span>Set by hand.</span>
          <button type="button" className="button" onClick={() => suggestOrder(block, plan, section)}>
            Back to the suggested order
          </button>
        </p>
      )}
    </div>
  );
}

const firstPosition = ({ startsFrom }: Section): number => (startsFrom.length > 0 ? 2 : 1);

/** For each place in a section's order, why the patch at `from` cannot be sewn there; null where it can. */
function placesFor(plan: PiecingPlan, section: Section, from: number): readonly (OrderFault | null)[] {
  return section.order.map((_, to) =>
    to === from ? null : orderFault(plan, section, moved(section.order, from, to)),
  );
}

interface PlaceMarkProps {
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
function PlaceMark({
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
}: PlaceMarkProps) {
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
              ? `Put ${inHand} ${ordinal(position)}`
              : `Not ${ordinal(position)}: ${fault.message}`
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
          <span>{fault === null ? ordinal(position) : 'cannot be sewn here'}</span>
        </button>
      )}
      {(refusal ?? (isOver ? fault : null)) !== null && (
        <p className="order-refusal" role={refusal === null ? undefined : 'alert'}>
          {refusal === null ? fault?.message : `Not there: ${refusal.message}`}
        </p>
      )}
    </li>
  );
}

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
    ? `${id} cannot be first: then the others do not all go on along straight seams`
    : `Sew ${id} first`;
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
      {isIcon ? <Icon name="first" size={18} /> : 'Sew this one first'}
    </button>
  );
}

function countWords(plan: PiecingPlan, section: Section, order: readonly string[]): string {
  const lightness = pieceOptions().lightness ?? new Map();
  const { fabricChanges, lightOverDark } = orderCounts(plan, section, order, lightness);
  const changes =
    fabricChanges === 0
      ? 'One fabric throughout'
      : countOf(fabricChanges, 'change of fabric', 'changes of fabric');
  return `${changes}, ${lightOverDark === 0 ? 'no light patch over a dark one' : `${lightOverDark} light over dark`}.`;
}

const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth'];

/** `third`, `12th`. */
function ordinal(position: number): string {
  const word = ORDINALS[position];
  if (word !== undefined) return word;
  const [tens, ones] = [Math.floor(position / 10) % 10, position % 10];
  const end = tens === 1 ? 'th' : (['th', 'st', 'nd', 'rd'][ones] ?? 'th');
  return `${position}${end}`;
}
