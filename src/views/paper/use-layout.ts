import { useEffect, useState } from 'react';
import { phrase } from '../../words/phrase.ts';
import type { LaidOut, PrintOrder } from '../../workspace/pdf-client.ts';
import { layOut, layoutAtHand } from '../../workspace/pdf-client.ts';

export interface LayoutState {
  /** The last layout that came; stays on show while a newer one is made. */
  readonly layout: LaidOut | null;
  readonly isBusy: boolean;
  /** One sentence, where laying out failed. */
  readonly failure: string | null;
}

const NOTHING: LayoutState = { layout: null, isBusy: false, failure: null };

/** An order that was laid out before is there at once. */
function stateOf(order: PrintOrder): LayoutState {
  const layout = layoutAtHand(order);
  return { layout, isBusy: layout === null, failure: null };
}

/** Lays out an order in the worker whenever it changes; null orders nothing. The order must keep its identity. */
export function useLayout(order: PrintOrder | null): LayoutState {
  const [state, setState] = useState(() => (order ? stateOf(order) : NOTHING));
  useEffect(() => {
    if (order === null) {
      setState(NOTHING);
      return;
    }
    let isCurrent = true;
    if (!layoutAtHand(order)) setState((before) => ({ ...before, isBusy: true }));
    // A first look is worth more than nothing, and less than the sheets before.
    const showFirst = (first: LaidOut): void => {
      if (isCurrent)
        setState(({ layout }) => ({
          layout: first.stage === 'look' ? (layout ?? first) : first,
          isBusy: true,
          failure: null,
        }));
    };
    layOut(order, showFirst).then(
      (layout) => {
        if (isCurrent && layout) setState({ layout, isBusy: false, failure: null });
      },
      (thrown: unknown) => {
        const reason = thrown instanceof Error ? thrown.message : String(thrown);
        if (isCurrent)
          setState({
            layout: null,
            isBusy: false,
            failure: phrase('The sheets could not be laid out. {reason}', { reason }),
          });
      },
    );
    return () => {
      isCurrent = false;
    };
  }, [order]);
  return state;
}
