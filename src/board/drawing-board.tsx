import { type KeyboardEvent, useEffect, useLayoutEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { phrase } from '../words/phrase.ts';
import { takeKey } from '../workspace/command.ts';
import { BOARD_KEYS } from './board-keys.ts';
import { board } from './board-state.ts';
import { setView } from './camera-acts.ts';
import { CANVASES } from './canvases.ts';
import { followSession } from './follow-session.ts';
import { listenTo } from './gestures.ts';
import { keepPainted } from './painting.ts';
import { busy, isWriting } from './tool-in-hand.ts';

interface DrawingBoardProps {
  /** What the board is called aloud: the block's name. */
  readonly name: string;
  /** Id of the element that says how it is used. */
  readonly describedBy: string;
}

/** The drawing board: canvases over each other, each redrawn when what it shows has changed, at most once a frame. */
export function DrawingBoard({ name, describedBy }: DrawingBoardProps) {
  const frame = useRef<HTMLDivElement>(null);
  const spaceHeld = useRef(false);
  const tool = useStore(board, (state) => state.tool);

  useLayoutEffect(() => {
    const element = frame.current!;
    const measure = (): void => setView({ width: element.clientWidth, height: element.clientHeight }, busy());
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);

  useEffect(() => listenTo(frame.current!, () => spaceHeld.current), []);
  useEffect(followSession, []);

  useEffect(() => keepPainted(frame.current!, [...frame.current!.querySelectorAll('canvas')]), []);

  const onKey = (event: KeyboardEvent): void => {
    // While numbers are typed, the space bar is a blank in them.
    if (event.key === ' ' && !isWriting()) {
      spaceHeld.current = event.type === 'keydown';
      frame.current!.dataset.space = String(spaceHeld.current);
      event.preventDefault();
      return;
    }
    if (event.type === 'keydown' && takeKey(BOARD_KEYS, event.nativeEvent, undefined)) {
      event.preventDefault();
      event.stopPropagation();
    }
  };

  return (
    <div
      ref={frame}
      className="drawing-board"
      data-tool={tool}
      role="application"
      aria-roledescription={phrase('drawing board')}
      aria-label={name}
      aria-describedby={describedBy}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: an application takes the keyboard.
      tabIndex={0}
      onKeyDown={onKey}
      onKeyUp={onKey}
      onBlur={() => {
        spaceHeld.current = false;
        delete frame.current!.dataset.space;
      }}
    >
      {CANVASES.map(({ name }) => (
        <canvas key={name} />
      ))}
    </div>
  );
}
