import type { KeyboardEvent } from 'react';

/** What the lists beside the drawing share. */

/** Moves the keyboard to a neighbouring row's button with the arrow keys. True when it did. */
export function walk(event: KeyboardEvent, rows: HTMLElement | null): boolean {
  const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  if (step === 0 || rows === null) return false;
  const buttons = [...rows.querySelectorAll<HTMLElement>('.row-choose')];
  const index = buttons.indexOf(event.currentTarget as HTMLElement);
  buttons[index + step]?.focus();
  event.preventDefault();
  return true;
}
