/** What takes the keyboard in a list. */
const STOPS =
  'button:not(:disabled), a[href], input:not(:disabled), select:not(:disabled), textarea, summary';

/** The row that what has the keyboard stands in, lists within lists included. */
const rowOf = (stop: Element): Element => stop.closest('li, tr') ?? stop;

/** The stops of a list row by row, as they stand. */
function rowsOf(list: Element): readonly HTMLElement[][] {
  const rows = new Map<Element, HTMLElement[]>();
  for (const stop of list.querySelectorAll<HTMLElement>(STOPS))
    rows.set(rowOf(stop), [...(rows.get(rowOf(stop)) ?? []), stop]);
  return [...rows.values()];
}

const CHOSEN = '[aria-current]:not([aria-current="false"]), [aria-pressed="true"], :checked';

const isChosen = (stop: Element): boolean => stop.matches(CHOSEN) || rowOf(stop).matches(CHOSEN);

/**
 * Makes a list one stop for the Tab key, as the ref of its element: within it the arrow keys go from row to row, Home and
 * End to the first and the last. What else a row holds comes after its first by Tab, or by the arrows across. Where the
 * row that has the keyboard goes, as when it is deleted, the one that takes its place has it next.
 */
export function oneStop(list: HTMLElement | null): (() => void) | undefined {
  if (list === null) return undefined;
  /** The row where the keyboard was last, and its place. */
  let last: { readonly row: Element; readonly at: number } | null = null;
  let hasKeyboard = false;
  /** The Tab key stops where the keyboard was last, else at the chosen row, else at the first. */
  const arrange = (): void => {
    const rows = rowsOf(list);
    let at = rows.findIndex(([stop]) => rowOf(stop!) === last?.row);
    if (at < 0 && last !== null && hasKeyboard && !last.row.isConnected) {
      at = Math.min(last.at, rows.length - 1);
      if (document.activeElement === document.body) rows[at]?.[0]?.focus();
    }
    if (at < 0)
      at = Math.max(
        0,
        rows.findIndex((stops) => stops.some(isChosen)),
      );
    else last = { row: rowOf(rows[at]![0]!), at };
    for (const [k, stops] of rows.entries()) for (const stop of stops) stop.tabIndex = k === at ? 0 : -1;
  };
  const onFocus = ({ target }: FocusEvent): void => {
    if (!(target instanceof Element)) return;
    hasKeyboard = true;
    last = { row: rowOf(target), at: 0 };
    arrange();
  };
  // A row that is taken away loses the keyboard too, but not to anything else.
  const onBlur = ({ target }: FocusEvent): void => {
    setTimeout(() => {
      if (target instanceof Element && target.isConnected && !list.contains(document.activeElement))
        hasKeyboard = false;
    });
  };
  list.dataset.oneStop = '';
  arrange();
  const observer = new MutationObserver(arrange);
  observer.observe(list, {
    childList: true,
    subtree: true,
    attributeFilter: ['aria-current', 'aria-pressed', 'disabled'],
  });
  list.addEventListener('focusin', onFocus);
  list.addEventListener('focusout', onBlur);
  return () => {
    observer.disconnect();
    list.removeEventListener('focusin', onFocus);
    list.removeEventListener('focusout', onBlur);
  };
}

const DOWN: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowUp: -1 };
const ACROSS: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowLeft: -1 };

/** Takes the keyboard on through a list that is one stop; false where the key means nothing there. */
export function walkInList({ target, key, altKey, ctrlKey, metaKey, shiftKey }: KeyboardEvent): boolean {
  if (!(target instanceof HTMLElement) || altKey || ctrlKey || metaKey || shiftKey) return false;
  // In a field, and among radio buttons, the arrows are its own.
  if (target.matches('input:not([type="checkbox"]), select, textarea')) return false;
  const list = target.closest('[data-one-stop]');
  if (list === null) return false;
  const rows = rowsOf(list);
  const at = rows.findIndex((stops) => stops.includes(target));
  if (at < 0) return false;
  const within = rows[at]!;
  const place = within.indexOf(target);
  const across = ACROSS[key];
  const beside = across === undefined ? undefined : within[place + across];
  const by = DOWN[key] ?? (within.length === 1 ? across : undefined);
  const next =
    beside ??
    (key === 'Home'
      ? rows[0]![0]
      : key === 'End'
        ? rows.at(-1)![0]
        : by === undefined
          ? undefined
          : stopIn(rows[at + by], place));
  if (next === undefined) return by !== undefined || across !== undefined;
  next.focus();
  return true;
}

/** The stop of a row that stands like the one the keyboard comes from, else its first. */
const stopIn = (row: readonly HTMLElement[] | undefined, place: number): HTMLElement | undefined =>
  row?.[place] ?? row?.[0];
