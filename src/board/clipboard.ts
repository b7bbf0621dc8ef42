import { addCuts, type NewCut, removeCuts } from '../document/edit-cuts.ts';
import { freeCutIds } from '../document/ids.ts';
import type { Block } from '../document/project.ts';
import { cutsFromText, cutsToText } from '../editing/cuts-text.ts';
import { samePlace } from '../geometry/segments.ts';
import { edit, say } from '../workspace/actions.ts';
import { announce } from './board-state.ts';
import { targetNow } from './target.ts';

/** Cuts copied last in this window, and whether the system's clipboard has them too. */
let kept: { readonly text: string; readonly isOutside: boolean } | null = null;

/** Keeps the chosen cuts for pasting, here and as text in the system's clipboard. */
export function copyChosen(): void {
  const cuts = targetNow()?.cuts ?? [];
  if (cuts.length === 0) return;
  const text = cutsToText(cuts);
  kept = { text, isOutside: false };
  // The browser may refuse; then what is kept here is pasted.
  navigator.clipboard?.writeText(text).then(
    () => {
      if (kept?.text === text) kept = { text, isOutside: true };
    },
    () => undefined,
  );
  announce(cuts.length === 1 ? 'Cut copied.' : `${cuts.length} cuts copied.`);
}

export function cutOutChosen(): void {
  const target = targetNow();
  if (target === null || target.cuts.length === 0) return;
  copyChosen();
  const ids = target.cuts.map(({ id }) => id);
  edit(ids.length === 1 ? 'Cut out cut' : 'Cut out cuts', (project) =>
    removeCuts(project, target.block.id, ids),
  );
}

/** Pastes from a text of the system's clipboard, or what was copied in this window where the text has no cuts. */
export function pasteText(text: string): void {
  const cuts = cutsFromText(text) ?? (kept === null || kept.isOutside ? null : cutsFromText(kept.text));
  if (cuts === null)
    say('trouble', 'The clipboard holds no cuts. Choose cuts on the board and copy them first.');
  else paste(cuts);
}

/** Pastes what was copied in this window. */
export function pasteKept(): void {
  const cuts = kept === null ? null : cutsFromText(kept.text);
  if (cuts !== null) paste(cuts);
}

export const hasKept = (): boolean => kept !== null;

/** How far a copy is moved from cuts that lie where it would, inches. */
const ASIDE_IN = 1 / 2;

function paste(cuts: readonly NewCut[]): void {
  const target = targetNow();
  if (target === null) {
    say('trouble', 'Open a block to paste the cuts into.');
    return;
  }
  const { block } = target;
  let placed = cuts;
  while (placed.some((cut) => isThere(block, cut)))
    placed = placed.map(({ from, to, ...rest }) => ({
      ...rest,
      from: [from[0] + ASIDE_IN, from[1] + ASIDE_IN],
      to: [to[0] + ASIDE_IN, to[1] + ASIDE_IN],
    }));
  const ids = freeCutIds(block);
  edit(cuts.length === 1 ? 'Paste cut' : 'Paste cuts', (project) => addCuts(project, block.id, placed), {
    select: placed.map(() => ids.next().value),
  });
  announce(cuts.length === 1 ? 'Cut pasted.' : `${cuts.length} cuts pasted.`);
}

const isThere = ({ cuts }: Block, { from, to }: NewCut): boolean =>
  cuts.some(
    (cut) =>
      (samePlace(cut.from, from) && samePlace(cut.to, to)) ||
      (samePlace(cut.from, to) && samePlace(cut.to, from)),
  );
