import type { Cut } from '../document/project.ts';
import { phrase } from '../words/phrase.ts';
import { select } from '../workspace/actions.ts';
import { announce, board } from './board-state.ts';
import { targetNow } from './target.ts';

/** Choosing many cuts at once. */

export const chooseAll = (): void => choose(() => true);

/** All that run the way one of the chosen does, within a tenth of a degree. */
export function chooseSameDirection(): void {
  const chosen = targetNow()?.cuts ?? [];
  choose((cut) => chosen.some((one) => isParallel(one, cut)));
}

/** All that are sewn as one of the chosen is. */
export function chooseSameRole(): void {
  const chosen = targetNow()?.cuts ?? [];
  choose((cut) => chosen.some(({ role }) => role === cut.role));
}

const TENTH_OF_A_DEGREE = Math.PI / 1800;

function isParallel(a: Cut, b: Cut): boolean {
  const [ax, ay] = [a.to[0] - a.from[0], a.to[1] - a.from[1]];
  const [bx, by] = [b.to[0] - b.from[0], b.to[1] - b.from[1]];
  return Math.abs(ax * by - ay * bx) <= Math.hypot(ax, ay) * Math.hypot(bx, by) * Math.sin(TENTH_OF_A_DEGREE);
}

function choose(fits: (cut: Cut) => boolean): void {
  const target = targetNow();
  if (target === null) return;
  const ids = target.block.cuts.filter(fits).map(({ id }) => id);
  board.setState({ chosen: null });
  select(ids);
  announce(ids.length === 1 ? phrase('1 line chosen.') : phrase('{ids} lines chosen.', { ids: ids.length }));
}
