import { paperSettings } from '../../workspace/paper-settings.ts';
import { prepare, stopPreparing } from '../../workspace/pdf-client.ts';
import { plansCome } from '../../workspace/plans.ts';
import { printers } from '../../workspace/printers.ts';
import { session, shownProject } from '../../workspace/session.ts';
import { printOrder } from './print-order.ts';

/** After so long without a change the sheets are got ready. */
const QUIET_MS = 1_200;

let isKept = false;
let wait = 0;

/**
 * Gets the sheets ready that the Paper place would show now, so that they are there at once, and from then on
 * whenever the drawing rests. Nothing is pieced for it.
 */
export function warmPaper(): void {
  window.clearTimeout(wait);
  if (!isKept) {
    isKept = true;
    session.subscribe((now, before) => {
      if (
        shownProject(now) !== shownProject(before) ||
        now.blockId !== before.blockId ||
        now.place !== before.place
      )
        warmLater();
    });
    plansCome.subscribe(warmLater);
  }
  const { project, draft, blockId, place } = session.getState();
  if (place === 'paper' || draft !== null) return;
  const settings = paperSettings.getState();
  const { order, toCome } = printOrder(project, blockId, settings, printers.getState());
  if (order && toCome === 0) prepare(order);
}

/** Once the hand has rested and the machine has nothing better to do. */
function warmLater(): void {
  window.clearTimeout(wait);
  // The place itself asks for what it shows, and may have use for what is being prepared.
  if (session.getState().place === 'paper') return;
  stopPreparing();
  wait = window.setTimeout(() => (window.requestIdleCallback ?? window.setTimeout)(warmPaper), QUIET_MS);
}
