import { type ReactNode, useEffect, useId, useRef } from 'react';
import { phrase } from '../words/phrase.ts';
import { Icon } from './icons.tsx';
import { giveKeyboard } from './keyboard-home.ts';

interface DialogProps {
  readonly title: string;
  readonly className?: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A sheet laid over the table. What is marked `data-first-focus`, or else a choice it begins with, has the keyboard first. Esc, the cross and a press beside it close it; the keyboard goes back where it was. */
export function Dialog({ title, className, onClose, children }: DialogProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    const element = dialog.current!;
    const opener = document.activeElement;
    if (!element.open) element.showModal();
    element.querySelector<HTMLElement>('[data-first-focus], input[type="radio"]:checked')?.focus();
    return () => {
      // Taken away while open, a dialog gives the keyboard back to nobody.
      if (document.activeElement !== document.body) return;
      if (opener instanceof HTMLElement && opener.isConnected) opener.focus({ preventScroll: true });
      giveKeyboard();
    };
  }, []);
  return (
    <dialog
      ref={dialog}
      className={`dialog ${className ?? ''}`}
      aria-labelledby={titleId}
      onClose={onClose}
      onCancel={(event) => {
        // A file chooser left without a choice tells of it as well.
        if (event.target !== dialog.current) return;
        // Gone at once: a key pressed before the browser tells of its closing would be answered by what is closing.
        event.preventDefault();
        dialog.current?.close();
        onClose();
      }}
      onMouseDown={(event) => {
        if (event.target === dialog.current) onClose();
      }}
      onKeyDown={(event) => {
        if (event.key === 'Escape') event.stopPropagation();
      }}
    >
      <div className="dialog-sheet">
        <div className="dialog-head">
          <h2 id={titleId}>{title}</h2>
          <button type="button" className="icon-button" aria-label={phrase('Close')} onClick={onClose}>
            <Icon name="close" />
          </button>
        </div>
        {children}
      </div>
    </dialog>
  );
}
