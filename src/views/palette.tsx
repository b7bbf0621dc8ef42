import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import { phrase } from '../words/phrase.ts';
import { commandsNow, type Listed, matching } from './command-list.ts';
import { Dialog } from './dialog.tsx';

/** Every command by its name: a few letters, Enter. */
export function Palette({ onClose }: { readonly onClose: () => void }) {
  const id = useId();
  // What can be done is asked once: nothing changes while the palette is open.
  const [commands] = useState(commandsNow);
  const [typed, setTyped] = useState('');
  const [index, setIndex] = useState(0);
  const list = useRef<HTMLDivElement>(null);
  const found = matching(commands, typed);
  const at = Math.min(index, found.length - 1);

  useEffect(() => {
    list.current?.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: 'nearest' });
  });

  /** Runs it once the dialog is gone and the keyboard is back where it was. */
  const choose = (command: Listed | undefined): void => {
    if (command === undefined) return;
    onClose();
    setTimeout(command.run);
  };

  const onKey = (event: KeyboardEvent): void => {
    const step = { ArrowDown: 1, ArrowUp: -1, PageDown: 8, PageUp: -8 }[event.key];
    if (event.key === 'Enter') choose(found[at]);
    else if (step !== undefined) setIndex(Math.max(0, Math.min(found.length - 1, at + step)));
    else return;
    event.preventDefault();
  };

  return (
    <Dialog title={phrase('Find a command')} className="palette" onClose={onClose}>
      <input
        data-first-focus=""
        className="text-input"
        role="combobox"
        aria-label={phrase('Command')}
        aria-expanded="true"
        aria-controls={`${id}-list`}
        aria-activedescendant={at >= 0 ? `${id}-${found[at]!.id}` : undefined}
        aria-autocomplete="list"
        placeholder={phrase('Part of its name')}
        autoComplete="off"
        spellCheck={false}
        value={typed}
        onChange={(event) => {
          setTyped(event.target.value);
          setIndex(0);
        }}
        onKeyDown={onKey}
      />
      <div
        ref={list}
        id={`${id}-list`}
        className="palette-list"
        role="listbox"
        aria-label={phrase('Commands')}
      >
        {found.map((command, place) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: the field above has the keys, as a combobox does.
          <div
            key={command.id}
            id={`${id}-${command.id}`}
            role="option"
            tabIndex={-1}
            aria-selected={place === at}
            className="palette-option"
            onClick={() => choose(command)}
            onPointerMove={() => setIndex(place)}
          >
            <span>{command.label}</span>
            {command.key !== '' && <kbd>{command.key}</kbd>}
          </div>
        ))}
      </div>
      <p className="soft" role="status">
        {found.length === 0 ? phrase('No matching command.') : ''}
      </p>
    </Dialog>
  );
}
