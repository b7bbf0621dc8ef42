import { pasteText } from '../board/clipboard.ts';
import { session } from '../workspace/session.ts';
import { isPictureFile, takePicture } from '../workspace/under-picture.ts';
import { runByKey } from './command-list.ts';
import { walkInList } from './one-stop.ts';

const TYPING =
  'input:not([type="radio"], [type="checkbox"], [type="color"]), textarea, select, [contenteditable]';

const isTyping = (target: EventTarget | null): boolean => target instanceof Element && target.matches(TYPING);

/** Parts of a screen marked `data-drawing` are a drawing with its tools and fabrics. */
const isAtDrawing = (target: EventTarget | null): boolean =>
  target instanceof Element && target.closest('[data-drawing]') !== null;

/** Runs commands by their keys, wherever the keyboard is, unless a dialog has it. Returns a stop function. */
export function listenToKeys(): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.defaultPrevented) return;
    if (walkInList(event)) {
      event.preventDefault();
      return;
    }
    if (document.querySelector('dialog[open]') !== null) return;
    // A menu or a form laid over the drawing is what Esc closes.
    if (event.key === 'Escape' && document.querySelector(':popover-open, .pointer-menu') !== null) return;
    const { target } = event;
    if (runByKey(event, { isTyping: isTyping(target), isAtDrawing: isAtDrawing(target) }))
      event.preventDefault();
  };
  const onPaste = (event: ClipboardEvent): void => {
    // On a fabric a picture is taken as its own.
    if (event.defaultPrevented || isTyping(event.target) || document.querySelector('dialog[open]') !== null)
      return;
    if (session.getState().place !== 'block') return;
    const picture = [...(event.clipboardData?.files ?? [])].find(isPictureFile);
    if (picture !== undefined) void takePicture(picture);
    else pasteText(event.clipboardData?.getData('text/plain') ?? '');
  };
  window.addEventListener('keydown', onKey);
  window.addEventListener('paste', onPaste);
  return () => {
    window.removeEventListener('keydown', onKey);
    window.removeEventListener('paste', onPaste);
  };
}
