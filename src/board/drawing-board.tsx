import type Konva from 'konva';
import { type KeyboardEvent, useEffect, useLayoutEffect, useRef } from 'react';
import { Layer, Shape, Stage } from 'react-konva/es/ReactKonvaCore.js';
import { useStore } from 'zustand';
import { landings } from '../workspace/plans.ts';
import { session } from '../workspace/session.ts';
import { boardKey } from './board-keys.ts';
import { board } from './board-state.ts';
import { drawMoving, drawStill } from './drawing.ts';
import { listenTo } from './gestures.ts';
import { setView } from './looking.ts';
import { proposals } from './proposal.ts';
import { followSession, typedNow } from './working.ts';

/** The plain canvas under Konva's wrapper: one shape draws everything of its layer. */
const plain = (context: Konva.Context): CanvasRenderingContext2D =>
  context._context as CanvasRenderingContext2D;
const sceneStill = (context: Konva.Context): void => drawStill(plain(context));
const sceneMoving = (context: Konva.Context): void => drawMoving(plain(context));

/** While numbers are typed, the space bar is a blank in them. */
const isWriting = (): boolean => typedNow() !== null && typedNow() !== 'ready';

interface DrawingBoardProps {
  /** What the board is called aloud: the block's name. */
  readonly name: string;
  /** Id of the element that says how it is used. */
  readonly describedBy: string;
}

/** The drawing board: two canvases, what lies still and what moves, redrawn at most once a frame. */
export function DrawingBoard({ name, describedBy }: DrawingBoardProps) {
  const frame = useRef<HTMLDivElement>(null);
  const still = useRef<Konva.Layer>(null);
  const moving = useRef<Konva.Layer>(null);
  const spaceHeld = useRef(false);
  const view = useStore(board, (state) => state.view);
  const tool = useStore(board, (state) => state.tool);

  useLayoutEffect(() => {
    const element = frame.current!;
    const measure = (): void => setView({ width: element.clientWidth, height: element.clientHeight });
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);

  useEffect(() => listenTo(frame.current!, () => spaceHeld.current), []);
  useEffect(followSession, []);

  useEffect(() => {
    const drawAll = (): void => {
      still.current?.batchDraw();
      moving.current?.batchDraw();
    };
    // Where an inch is on the screen, for whoever points at the board from outside, such as a journey's mouse.
    const tellCamera = (): void => {
      const { scale, x, y } = board.getState().camera;
      frame.current!.dataset.camera = `${scale} ${x} ${y}`;
    };
    tellCamera();
    drawAll();
    // Type drawn before its font has come would stay in the wrong one.
    void document.fonts.load("600 16px 'Source Sans 3 Variable'").then(drawAll, drawAll);
    const stopSession = session.subscribe(drawAll);
    const stopLandings = landings.subscribe(drawAll);
    const stopProposals = proposals.subscribe(drawAll);
    const stopBoard = board.subscribe((state, before) => {
      moving.current?.batchDraw();
      if (state.camera !== before.camera) tellCamera();
      const { marks: _m, said: _s, crosshair: _c, held: _h, chosen: _ch, ...rest } = state;
      const changed = (Object.keys(rest) as (keyof typeof rest)[]).some((key) => rest[key] !== before[key]);
      if (changed) still.current?.batchDraw();
    });
    return () => {
      stopSession();
      stopLandings();
      stopProposals();
      stopBoard();
    };
  }, []);

  const onKey = (event: KeyboardEvent): void => {
    if (event.key === ' ' && !isWriting()) {
      spaceHeld.current = event.type === 'keydown';
      frame.current!.dataset.space = String(spaceHeld.current);
      event.preventDefault();
      return;
    }
    if (event.type === 'keydown' && boardKey(event.nativeEvent)) {
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
      aria-roledescription="drawing board"
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
      <Stage width={view.width} height={view.height} listening={false}>
        <Layer ref={still} listening={false}>
          <Shape sceneFunc={sceneStill} listening={false} />
        </Layer>
        <Layer ref={moving} listening={false}>
          <Shape sceneFunc={sceneMoving} listening={false} />
        </Layer>
      </Stage>
    </div>
  );
}
