import { Fragment, type KeyboardEvent, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { board } from '../../board/board-state.ts';
import { closeMenu, menuCommands } from '../../board/pointer-menu.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { keyText } from '../../workspace/command.ts';
import { session } from '../../workspace/session.ts';
import { isMac } from '../platform.ts';

/** The menu at the pointer, at the finger held down, or at what the keyboard has chosen. */
export function PointerMenu() {
  const menu = useStore(board, (state) => state.menu);
  return menu === null ? null : <OpenMenu key={menu.join()} at={menu} />;
}

/** Kept free between the menu and the edge of the window, CSS pixels. */
const EDGE_PX = 8;

const toBoardAgain = (): void => {
  closeMenu();
  document.querySelector<HTMLElement>('.drawing-board')?.focus({ preventScroll: true });
};

function OpenMenu({ at }: { readonly at: Point }) {
  const sheet = useRef<HTMLDivElement>(null);
  const [place, setPlace] = useState<{ readonly left: number; readonly top: number } | null>(null);
  const [groups] = useState(menuCommands);
  // The finger that asked for the menu is lifted over it: only a press begun here presses anything.
  const isPressed = useRef(false);
  const state = session.getState();

  useLayoutEffect(() => {
    const element = sheet.current!;
    const under = document.querySelector('.drawing-board')!.getBoundingClientRect();
    const { offsetWidth, offsetHeight } = element;
    const kept = (wanted: number, size: number, room: number): number =>
      Math.max(EDGE_PX, Math.min(wanted, room - size - EDGE_PX));
    setPlace({
      left: kept(under.left + at[0] + 2, offsetWidth, innerWidth),
      top: kept(under.top + at[1] + 2, offsetHeight, innerHeight),
    });
  }, [at]);

  const isPlaced = place !== null;
  useEffect(() => {
    if (!isPlaced) return;
    sheet.current?.querySelector<HTMLElement>('[role="menuitem"]')?.focus({ preventScroll: true });
    const away = (event: Event): void => {
      if (!sheet.current?.contains(event.target as Node)) closeMenu();
    };
    const listening = new AbortController();
    document.addEventListener('pointerdown', away, { capture: true, signal: listening.signal });
    document.addEventListener('wheel', away, { capture: true, passive: true, signal: listening.signal });
    window.addEventListener('resize', closeMenu, { signal: listening.signal });
    return () => listening.abort();
  }, [isPlaced]);

  const onKey = (event: KeyboardEvent): void => {
    const items = [...sheet.current!.querySelectorAll<HTMLElement>('[role="menuitem"]')];
    const now = items.indexOf(document.activeElement as HTMLElement);
    const to = { ArrowDown: now + 1, ArrowUp: now - 1, Home: 0, End: -1 }[event.key];
    if (to !== undefined) items.at(to % items.length)?.focus();
    else if (event.key === 'Escape' || event.key === 'Tab') toBoardAgain();
    // Enter and the space bar press the item; every other key would act on the drawing beneath.
    if (event.key !== 'Enter' && event.key !== ' ') event.preventDefault();
    event.stopPropagation();
  };

  return (
    <div
      ref={sheet}
      className="pointer-menu"
      role="menu"
      tabIndex={-1}
      aria-label={phrase('What to do here')}
      style={place ?? { visibility: 'hidden' }}
      onKeyDown={onKey}
      onPointerDown={() => {
        isPressed.current = true;
      }}
      onContextMenu={(event) => event.preventDefault()}
    >
      {groups.map((group, k) => (
        <Fragment key={group[0]!.name}>
          {k > 0 && <hr />}
          {group.map(({ name, label, keys, run }) => (
            <button
              key={name}
              type="button"
              role="menuitem"
              tabIndex={0}
              className="menu-item"
              onClick={(event) => {
                // A key presses without a pointer.
                if (!isPressed.current && event.detail > 0) return;
                toBoardAgain();
                void run();
              }}
            >
              {label(state)}
              {keys[0] !== undefined && <kbd>{keyText(keys[0], isMac())}</kbd>}
            </button>
          ))}
        </Fragment>
      ))}
    </div>
  );
}
