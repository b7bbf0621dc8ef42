import { removeCuts } from '../document/edit-cuts.ts';
import type { Block } from '../document/project.ts';
import {
  movedPart,
  type Part,
  partFromText,
  partOfCuts,
  partOfPatch,
  partToText,
  placePart,
} from '../editing/part.ts';
import { samePlace } from '../geometry/segments.ts';
import { phrase } from '../words/phrase.ts';
import { edit, say, select } from '../workspace/actions.ts';
import { session } from '../workspace/session.ts';
import { announce } from './board-state.ts';
import { targetNow } from './target.ts';

/** What was copied last in this window, and whether the system's clipboard has it too. */
let kept: { readonly text: string; readonly isOutside: boolean } | null = null;

/** What is chosen as a part of the drawing: cuts with the fabrics they enclose, or a patch; null where neither is. */
export function chosenPart(): Part | null {
  const target = targetNow();
  if (target === null) return null;
  const { block, cuts, chosen } = target;
  const { fabrics } = session.getState().project;
  if (cuts.length > 0)
    return partOfCuts(
      block,
      fabrics,
      cuts.map(({ id }) => id),
    );
  return chosen?.kind === 'patch' ? partOfPatch(block, fabrics, chosen.at) : null;
}

/** Keeps what is chosen for pasting, here and as text in the system's clipboard. */
export function copyChosen(): void {
  const part = chosenPart();
  if (part === null) return;
  const text = partToText(part);
  kept = { text, isOutside: false };
  // The browser may refuse; then what is kept here is pasted.
  navigator.clipboard?.writeText(text).then(
    () => {
      if (kept?.text === text) kept = { text, isOutside: true };
    },
    () => undefined,
  );
  announce(
    targetNow()?.cuts.length === 0
      ? phrase('Patch copied with its fabric.')
      : phrase('{n, plural, one {Line} other {# lines}} copied.', { n: part.cuts.length }),
  );
}

export function cutOutChosen(): void {
  const target = targetNow();
  if (target === null || target.cuts.length === 0) return;
  copyChosen();
  const ids = target.cuts.map(({ id }) => id);
  edit(phrase('{n, plural, one {Cut line} other {Cut lines}}', { n: ids.length }), (project) =>
    removeCuts(project, target.block.id, ids),
  );
}

/** Pastes from a text of the system's clipboard, or what was copied in this window where the text has no cuts. */
export function pasteText(text: string): void {
  const part = partFromText(text) ?? (kept === null || kept.isOutside ? null : partFromText(kept.text));
  if (part === null)
    say(
      'trouble',
      phrase('The clipboard holds no lines. Choose lines or a patch on the board and copy them first.'),
    );
  else paste(part);
}

/** Pastes what was copied in this window. */
export function pasteKept(): void {
  const part = kept === null ? null : partFromText(kept.text);
  if (part !== null) paste(part);
}

export const hasKept = (): boolean => kept !== null;

/** A copy of what is chosen beside it, with its fabrics; chosen afterwards. */
export function duplicateChosen(): void {
  const part = chosenPart();
  if (part === null) return;
  const label = phrase('Duplicate');
  if (drawPart(label, aside(part)))
    announce(phrase('Duplicated. The copy is chosen: drag it where you want it.'));
}

/** How far a copy is moved from cuts that lie where it would, inches. */
const ASIDE_IN = 1 / 2;

const aside = (part: Part): Part => movedPart(part, ([x, y]) => [x + ASIDE_IN, y + ASIDE_IN]);

function paste(part: Part): void {
  const target = targetNow();
  if (target === null) {
    say('trouble', phrase('Open a block to paste the lines into.'));
    return;
  }
  let placed = part;
  while (placed.cuts.some((cut) => isThere(target.block, cut))) placed = aside(placed);
  const n = part.cuts.length;
  if (drawPart(phrase('{n, plural, one {Paste line} other {Paste lines}}', { n }), placed))
    announce(phrase('{n, plural, one {Line} other {# lines}} pasted.', { n }));
}

/** Draws a part into the open block as one step, its cuts chosen afterwards. False where the block cannot take it. */
export function drawPart(label: string, part: Part): boolean {
  const target = targetNow();
  if (target === null) return false;
  const { id, cuts } = target.block;
  const before = new Set(cuts.map((cut) => cut.id));
  edit(label, (project) => placePart(project, id, part));
  const fresh = (targetNow()?.block.cuts ?? []).filter((cut) => !before.has(cut.id));
  if (fresh.length === 0) {
    say(
      'trouble',
      phrase('The block has no room for it: it would reach beyond what a block may, or is full.'),
    );
    return false;
  }
  select(fresh.map((cut) => cut.id));
  return true;
}

const isThere = ({ cuts }: Block, { from, to }: Part['cuts'][number]): boolean =>
  cuts.some(
    (cut) =>
      (samePlace(cut.from, from) && samePlace(cut.to, to)) ||
      (samePlace(cut.from, to) && samePlace(cut.to, from)),
  );
