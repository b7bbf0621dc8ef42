import {
  type KeyboardEvent,
  type PointerEvent,
  type RefObject,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { light } from '../../board/board-acts.ts';
import { announce } from '../../board/board-state.ts';
import type { Block } from '../../document/project.ts';
import { moved, type OrderFault, orderFault } from '../../piecing/hand-order.ts';
import type { PiecingPlan, Section } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import { setSectionOrder } from './order-edits.ts';
import { ordinal } from './ordinal.ts';

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

/** A section's list of patches, one of which may be in hand, and what pointer and keys do in it. */
export interface OrderHand {
  readonly list: RefObject<HTMLOListElement | null>;
  readonly hand: Hand | null;
  /** For each place, why the patch in hand cannot be sewn there; null where it can. */
  readonly faults: readonly (OrderFault | null)[];
  readonly refusal: Refusal | null;
  /** The fault that is shown on the board. */
  readonly shown: OrderFault | null;
  readonly goOver: (place: number) => void;
  readonly putAt: (place: number) => void;
  /** Nothing in hand, the keyboard back where it was. */
  readonly leave: (place: number) => void;
  readonly forgetRefusal: () => void;
  /** What the grip of the patch at a place listens to. */
  readonly grip: (place: number) => GripProps;
}

interface GripProps {
  readonly onClick: () => void;
  readonly onPointerDown: (event: PointerEvent) => void;
  readonly onPointerMove: (event: PointerEvent) => void;
  readonly onPointerUp: (event: PointerEvent) => void;
  readonly onPointerCancel: () => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
}

export function useOrderHand(block: Block, plan: PiecingPlan, section: Section): OrderHand {
  const { order } = section;
  const [taken, setHand] = useState<Hand | null>(null);
  const [refused, setRefusal] = useState<Refusal | null>(null);
  const hand = taken?.section === section ? taken : null;
  const refusal = refused?.section === section ? refused : null;
  const list = useRef<HTMLOListElement>(null);
  const pressed = useRef<{ readonly from: number; readonly y: number } | null>(null);
  /** The press that ends a drag is no press of the button. */
  const hasDragged = useRef(false);

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
      announce(phrase('Not there. {message}', { message: fault.message }));
      return;
    }
    setRefusal(null);
    setSectionOrder(block, plan, section, next);
    announce(
      phrase('{order} is sewn {ordinal} now.', {
        order: order[place],
        ordinal: ordinal(to + firstPosition(section)),
      }),
    );
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

  return {
    list,
    hand,
    faults,
    refusal,
    shown,
    goOver: (place) => {
      if (hand !== null && !hand.isDragged) setHand({ ...hand, over: place });
    },
    putAt: (place) => {
      if (hand !== null) put(hand.from, place);
    },
    leave: (place) => {
      setHand(null);
      focusGrip(from ?? place);
    },
    forgetRefusal: () => setRefusal(null),
    grip: (place) => ({
      onClick: () => {
        if (hasDragged.current) return;
        if (from === place) setHand(null);
        else takeUp(place, false);
      },
      onPointerDown: (event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        pressed.current = { from: place, y: event.clientY };
        hasDragged.current = false;
      },
      onPointerMove: onGripMove,
      onPointerUp: (event) => {
        pressed.current = null;
        if (hand?.isDragged) put(hand.from, placeAt(event.clientY));
      },
      onPointerCancel: () => {
        pressed.current = null;
        setHand(null);
      },
      onKeyDown: (event) => onGripKey(event, place),
    }),
  };
}

export const firstPosition = ({ startsFrom }: Section): number => (startsFrom.length > 0 ? 2 : 1);

/** For each place in a section's order, why the patch at `from` cannot be sewn there; null where it can. */
function placesFor(plan: PiecingPlan, section: Section, from: number): readonly (OrderFault | null)[] {
  return section.order.map((_, to) =>
    to === from ? null : orderFault(plan, section, moved(section.order, from, to)),
  );
}
