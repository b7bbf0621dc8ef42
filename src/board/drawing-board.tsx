import type Konva from 'konva';
import { type KeyboardEvent, useEffect, useLayoutEffect, useRef } from 'react';
import { Layer, Shape, Stage } from 'react-konva/es/ReactKonvaCore.js';
import { useStore } from 'zustand';
import { takeKey } from '../workspace/command.ts';
import { pictures } from '../workspace/fabric-pictures.ts';
import { landings } from '../workspace/plans.ts';
import { session } from '../workspace/session.ts';
import { BOARD_KEYS } from './board-keys.ts';
import { board } from './board-state.ts';
import { setView } from './camera-acts.ts';
import { type BoardCanvas, CANVASES } from './canvases.ts';
import { type Figure, FigureTiles, TILE_PX } from './draw/figures.ts';
import type { Pen } from './draw/pen.ts';
import { squaredPictures } from './draw/under-picture.ts';
import { dropPaint, paintInFrame } from './frame.ts';
import { listenTo } from './gestures.ts';
import { proposals } from './proposal.ts';
import { busy, followSession, isWriting } from './working.ts';

/** A pen on the plain canvas of a layer: what is drawn is mostly text and many short strokes, with nothing to wrap. */
const penOn = (layer: Konva.Layer): Pen => ({
  ctx: layer.getNativeCanvasElement().getContext('2d')!,
  camera: board.getState().camera,
});

/** One shape draws everything of its layer. */
const SCENES = CANVASES.map(
  ({ draw }) =>
    (_: Konva.Context, shape: Konva.Shape): void =>
      draw(penOn(shape.getLayer()!)),
);

const isSame = (before: readonly unknown[] | undefined, now: readonly unknown[]): boolean =>
  before?.length === now.length && now.every((part, k) => part === before[k]);

/** What a canvas is to show, and how far it does. */
interface Showing {
  readonly parts: readonly unknown[];
  readonly whole: readonly unknown[];
  /** Null where it is drawn whole without a look at its figures. */
  readonly figures: FigureTiles | null;
  /** Squares that still show what was there before, those that have waited longest first. */
  readonly owed: readonly number[] | 'all';
}

/** The squares of a canvas end on whole pixels, so that none shows an edge. */
const hasWholeTiles = (): boolean => Number.isInteger(TILE_PX * globalThis.devicePixelRatio);

/** What a canvas is to show now; where it can be, it is painted only in the squares in which something has changed. */
function lookAt({ parts: partsNow, inFigures }: BoardCanvas, layer: Konva.Layer, last?: Showing): Showing {
  const parts = partsNow();
  if (last !== undefined && isSame(last.parts, parts)) return last;
  const whole = inFigures?.whole() ?? [];
  const figures =
    last === undefined || inFigures === undefined || !isSame(last.whole, whole) || !hasWholeTiles()
      ? null
      : figuresNow(inFigures.figures(penOn(layer)), last.figures);
  if (last === undefined || figures === null || last.owed === 'all')
    return { parts, whole, figures: null, owed: 'all' };
  const owed = new Set([...last.owed, ...figures.changedSince(last.figures)]);
  return { parts, whole, figures, owed: [...owed] };
}

/** Paints what is owed, or as much of it as one frame has time for. */
function paintOn(canvas: BoardCanvas, layer: Konva.Layer, showing: Showing): Showing {
  const { figures, owed } = showing;
  if (owed.length === 0) return showing;
  if (owed === 'all' || figures === null || canvas.inFigures === undefined) {
    layer.drawScene();
    return { ...showing, owed: [] };
  }
  const { paint, mostAtOnce } = canvas.inFigures;
  return { ...showing, owed: figures.paintIn(penOn(layer), owed, paint, mostAtOnce) };
}

const figuresNow = (figures: readonly Figure[] | null, before: FigureTiles | null): FigureTiles | null =>
  figures === null ? null : new FigureTiles(board.getState().view, figures, before);

interface DrawingBoardProps {
  /** What the board is called aloud: the block's name. */
  readonly name: string;
  /** Id of the element that says how it is used. */
  readonly describedBy: string;
}

/** The drawing board: canvases over each other, each redrawn when what it shows has changed, at most once a frame. */
export function DrawingBoard({ name, describedBy }: DrawingBoardProps) {
  const frame = useRef<HTMLDivElement>(null);
  const layers = useRef<(Konva.Layer | null)[]>([]);
  const spaceHeld = useRef(false);
  const view = useStore(board, (state) => state.view);
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

  useEffect(() => {
    const shown: Showing[] = [];
    const look = (): void => {
      for (const [k, canvas] of CANVASES.entries()) {
        const layer = layers.current[k];
        if (layer) shown[k] = lookAt(canvas, layer, shown[k]);
      }
    };
    const paint = (): void => {
      look();
      for (const [k, canvas] of CANVASES.entries()) {
        const layer = layers.current[k];
        if (!layer) continue;
        shown[k] = paintOn(canvas, layer, shown[k]!);
        if (shown[k].owed.length > 0) paintSoon();
      }
    };
    const paintSoon = (): void => paintInFrame(paint);
    const paintAll = (): void => {
      shown.length = 0;
      paintSoon();
    };
    // A plan that has come between two frames is looked at there, not in the frame that a move waits for.
    const takeUp = (): void => {
      look();
      paintSoon();
    };
    // Where an inch is on the screen, for whoever points at the board from outside, such as a journey's mouse.
    const tellCamera = (): void => {
      const { scale, x, y } = board.getState().camera;
      frame.current!.dataset.camera = `${scale} ${x} ${y}`;
    };
    tellCamera();
    paintSoon();
    // Type drawn before its font has come would stay in the wrong one.
    void document.fonts.load("600 16px 'Source Sans 3 Variable'").then(paintAll, paintAll);
    const stopSession = session.subscribe(paintSoon);
    const stopLandings = landings.subscribe(takeUp);
    const stopProposals = proposals.subscribe(paintSoon);
    const stopPictures = pictures.subscribe(paintSoon);
    const stopSquared = squaredPictures.subscribe(paintSoon);
    const stopBoard = board.subscribe((state, before) => {
      paintSoon();
      if (state.camera !== before.camera) tellCamera();
    });
    return () => {
      stopSession();
      stopLandings();
      stopProposals();
      stopPictures();
      stopSquared();
      stopBoard();
      dropPaint(paint);
    };
  }, []);

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
        {CANVASES.map(({ name }, k) => (
          <Layer
            key={name}
            ref={(layer) => {
              layers.current[k] = layer;
            }}
            listening={false}
          >
            <Shape sceneFunc={SCENES[k]!} listening={false} />
          </Layer>
        ))}
      </Stage>
    </div>
  );
}
