import {
  type CSSProperties,
  type ReactNode,
  type RefCallback,
  useCallback,
  useEffect,
  useRef,
  useState,
} from 'react';
import { oneStop } from './one-stop.ts';

/** So many rows come and go together; a list with fewer is always whole. */
const STRETCH = 50;

/** Stretches this near to what is in sight are there as well, CSS pixels. */
const NEAR_PX = 800;

interface LongListProps<Item> {
  readonly items: readonly Item[];
  readonly className: string;
  /** A row that is there wherever the list is scrolled to, such as the chosen one; -1 for none. */
  readonly kept?: number;
  readonly onList?: (list: HTMLUListElement | null) => void;
  /** A row: an `li` with a key, and with the place given to it, so that it is heard where in the list it stands. */
  readonly children: (item: Item, index: number, place: RowPlace) => ReactNode;
}

/** What a row says of its place where not all rows are there. */
export interface RowPlace {
  readonly 'aria-setsize'?: number;
  readonly 'aria-posinset'?: number;
  readonly 'data-stretch'?: '';
}

/**
 * A list that may be very long, one stop for the Tab key. Only stretches of it in sight, or near that, are made; the
 * style sheet says how much room a row takes (`--rows` of `.list-gap` counts those that are not there).
 */
export function LongList<Item>({ items, className, kept = -1, onList, children }: LongListProps<Item>) {
  const list = useRef<HTMLUListElement | null>(null);
  const stretches = Math.ceil(items.length / STRETCH);
  const isLong = stretches > 2;
  const [near, setNear] = useState<readonly number[]>([0]);

  const look = useCallback((): void => {
    const element = list.current;
    if (element === null) return;
    const seen = element.getBoundingClientRect();
    const begins = [...element.querySelectorAll(':scope > [data-stretch]')].map((begin) =>
      begin.getBoundingClientRect(),
    );
    const found = begins.flatMap((begin, k) => {
      const end = begins[k + 1];
      const isBefore =
        end !== undefined && (end.bottom < seen.top - NEAR_PX || end.right < seen.left - NEAR_PX);
      const isAfter = begin.top > seen.bottom + NEAR_PX || begin.left > seen.right + NEAR_PX;
      return isBefore || isAfter ? [] : [k];
    });
    setNear((before) => (before.join() === found.join() ? before : found));
  }, []);

  // biome-ignore lint/correctness/useExhaustiveDependencies: rows that came or went are looked at anew.
  useEffect(() => {
    if (!isLong) return;
    look();
    let frame = 0;
    const soon = (): void => {
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(look);
    };
    const element = list.current!;
    element.addEventListener('scroll', soon, { passive: true });
    addEventListener('resize', soon);
    return () => {
      cancelAnimationFrame(frame);
      element.removeEventListener('scroll', soon);
      removeEventListener('resize', soon);
    };
  }, [isLong, look, items.length, near]);

  const ref: RefCallback<HTMLUListElement> = useCallback(
    (element) => {
      list.current = element;
      onList?.(element);
      return oneStop(element);
    },
    [onList],
  );

  // The row that has the keyboard is there too, wherever the list is scrolled to meanwhile.
  const [held, setHeld] = useState(-1);
  const [wanted, setWanted] = useState<number | null>(null);
  useEffect(() => {
    if (wanted === null) return;
    list.current?.querySelector<HTMLElement>(`[aria-posinset="${wanted + 1}"] button`)?.focus();
    setWanted(null);
  }, [wanted]);

  const rows = (from: number, to: number): ReactNode[] =>
    items.slice(from, to).map((item, k) => {
      const index = from + k;
      const place = isLong ? { 'aria-setsize': items.length, 'aria-posinset': index + 1 } : {};
      return children(item, index, k === 0 ? { ...place, 'data-stretch': '' } : place);
    });
  if (!isLong)
    return (
      <ul ref={ref} className={className}>
        {rows(0, items.length)}
      </ul>
    );

  const there = new Set([...near, ...[kept, held, wanted ?? -1].map((row) => Math.floor(row / STRETCH))]);
  const stretchAt = (from: number): ReactNode => {
    const to = Math.min(items.length, from + STRETCH);
    return there.has(from / STRETCH) ? (
      rows(from, to)
    ) : (
      <li
        key={`gap ${from}`}
        className="list-gap"
        data-stretch=""
        role="presentation"
        style={{ '--rows': to - from } as CSSProperties}
      />
    );
  };
  return (
    <ul
      ref={ref}
      className={className}
      onFocus={({ target }) =>
        setHeld(Number(target.closest('[aria-posinset]')?.getAttribute('aria-posinset') ?? 0) - 1)
      }
      onBlur={({ currentTarget, relatedTarget }) => {
        if (relatedTarget !== null && !currentTarget.contains(relatedTarget)) setHeld(-1);
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Home' && event.key !== 'End') return;
        event.preventDefault();
        event.stopPropagation();
        setWanted(event.key === 'End' ? items.length - 1 : 0);
      }}
    >
      {Array.from({ length: stretches }, (_, k) => stretchAt(k * STRETCH))}
    </ul>
  );
}
