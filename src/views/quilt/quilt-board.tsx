import type Konva from 'konva';
import { type KeyboardEvent, useEffect, useLayoutEffect, useRef } from 'react';
import { Layer, Shape, Stage } from 'react-konva/es/ReactKonvaCore.js';
import { useStore } from 'zustand';
import { INKS } from '../../board/draw/inks.ts';
import { quiltOf } from '../../document/edit-quilt.ts';
import { sizeAsLaid } from '../../document/place-polygon.ts';
import type { Point } from '../../geometry/point.ts';
import { distance, middle } from '../../geometry/ring.ts';
import { clothLength, seamLength } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { pictures } from '../../workspace/fabric-pictures.ts';
import { plansCome } from '../../workspace/plans.ts';
import { session, shownProject } from '../../workspace/session.ts';
import {
  drawBlockAt,
  drawEdges,
  drawFaults,
  drawMark,
  drawNumbers,
  drawPieces,
  drawSeam,
  drawTag,
  outlinePieces,
  type QuiltPen,
  veilPieces,
} from './draw-quilt.ts';
import { choose, chooseBeside, chosenPlaces, fill, moduleOf, moveChosen } from './quilt-acts.ts';
import { carriedBy, listenOnQuilt, placeAt } from './quilt-gestures.ts';
import { fitQuilt, setQuiltView, zoomQuilt } from './quilt-looking.ts';
import { quiltView } from './quilt-state.ts';
import { matchingShown } from './shown-matching.ts';
import { joinedOf, layoutOf, placeNumbers } from './shown-quilt.ts';

const ZOOM_STEP = 1.25;

function penOn(context: Konva.Context): QuiltPen {
  const { camera, shows } = quiltView.getState();
  return {
    ctx: (context as unknown as { readonly _context: CanvasRenderingContext2D })._context,
    camera,
    shows,
    project: shownProject(session.getState()),
  };
}

/** Are places carried? They are left out of the resting picture then. */
function carriedIds(): ReadonlySet<string> {
  const { carried, selection } = quiltView.getState();
  return new Set(carried?.kind === 'places' && !carried.isCopy ? selection : []);
}

/** What rests: everything that is not carried. Painted anew only when the quilt or the way it is looked at changes. */
function drawResting(context: Konva.Context): void {
  const pen = penOn(context);
  const layout = layoutOf(pen.project);
  const away = carriedIds();
  const resting = layout.pieces.filter(({ place }) => !away.has(place.id));
  drawPieces(pen, resting);
  drawEdges(pen, resting);
  if (away.size === 0) drawFaults(pen, layout);
}

/** What is carried, over the rest. */
function drawCarried(context: Konva.Context): void {
  const pen = penOn(context);
  const { carried, selection } = quiltView.getState();
  if (carried === null) return;
  if (carried.kind === 'places') {
    const chosen = new Set(selection);
    const pieces = layoutOf(pen.project).pieces.filter(({ place }) => chosen.has(place.id));
    const by = carriedBy(carried.from, carried.to);
    pen.ctx.save();
    pen.ctx.globalAlpha = 0.92;
    drawPieces(pen, pieces, by);
    pen.ctx.restore();
    const moved: QuiltPen = {
      ...pen,
      camera: {
        ...pen.camera,
        x: pen.camera.x + by[0] * pen.camera.scale,
        y: pen.camera.y + by[1] * pen.camera.scale,
      },
    };
    outlinePieces(moved, pieces, INKS.indigo, 2.4);
    return;
  }
  const { filling, to } = carried;
  if (!('block' in filling)) return;
  const block = pen.project.blocks.find(({ id }) => id === filling.block);
  if (!block) return;
  const [w, h] = sizeAsLaid(block.outline, filling.turn, filling.mirrored);
  drawBlockAt(pen, block, filling.turn, filling.mirrored, [to[0] - w / 2, to[1] - h / 2]);
}

/** What is said about the quilt, over its pictures: what is chosen, numbers, seams, marks. */
function drawWords(context: Konva.Context): void {
  const pen = penOn(context);
  const { task, step, showsNumbers, selection, carried, lit } = quiltView.getState();
  const layout = layoutOf(pen.project);
  const numbers = placeNumbers(pen.project);
  if (task === 'join') {
    const joined = joinedOf(pen.project);
    const shown = joined.ok ? joined.plan.steps[step - 1] : undefined;
    if (joined.ok && shown) {
      const left = new Set(shown.left);
      const right = new Set(shown.right);
      veilPieces(
        pen,
        layout.pieces.filter(({ place }) => !left.has(place.id) && !right.has(place.id)),
      );
      outlinePieces(
        pen,
        layout.pieces.filter(({ place }) => left.has(place.id)),
        INKS.indigo,
        2.2,
      );
      outlinePieces(
        pen,
        layout.pieces.filter(({ place }) => right.has(place.id)),
        INKS.moss,
        2.2,
        [7, 4],
      );
      drawNumbers(
        pen,
        layout.pieces.filter(({ place }) => left.has(place.id) || right.has(place.id)),
        numbers,
      );
      drawSeam(pen, shown.stretches);
      const matching = matchingShown(pen.project);
      for (const point of matching?.pinned[step - 1]?.points ?? [])
        if (point.kind === 'match' || point.kind === 'junction') drawMark(pen, point.at, point.kind);
      const longest = shown.stretches.reduce((a, b) => (distance(b[0], b[1]) > distance(a[0], a[1]) ? b : a));
      drawTag(pen, clothLength(seamLength(shown), pen.project.unit), middle(...longest), 13, INKS.madder);
    } else {
      drawNumbers(pen, layout.pieces, numbers);
      if (joined.ok)
        for (const ring of joined.plan.rings)
          outlinePieces(
            pen,
            ring.map((k) => layout.pieces[k]!),
            INKS.madder,
            3,
            [3, 4],
          );
    }
    const matching = matchingShown(pen.project);
    if (matching && step === 0) {
      for (const { a, b } of matching.nearMisses) drawMark(pen, middle(a.at, b.at), 'miss');
      for (const { at } of matching.bulk) drawMark(pen, at, 'bulk');
    }
  } else if (showsNumbers) drawNumbers(pen, layout.pieces, numbers);
  if (lit.length > 0)
    outlinePieces(
      pen,
      layout.pieces.filter(({ place }) => lit.includes(place.id)),
      INKS.madder,
      3,
    );
  if (carried !== null) {
    const under = placeAt(carried.to);
    if (
      under !== null &&
      (carried.kind === 'new' || quiltOf(pen.project).setting !== undefined || carried.isCopy)
    )
      outlinePieces(
        pen,
        layout.pieces.filter(({ place }) => place.id === under),
        INKS.indigo,
        3,
        [6, 4],
      );
    return;
  }
  const chosen = layout.pieces.filter(({ place }) => selection.includes(place.id));
  outlinePieces(pen, chosen, INKS.indigo, 3);
}

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

function onKey(event: KeyboardEvent): void {
  const arrow = ARROWS[event.key];
  const mod = event.ctrlKey || event.metaKey;
  const used = (): void => {
    event.preventDefault();
    event.stopPropagation();
  };
  if (arrow) {
    used();
    if (!mod) {
      chooseBeside(arrow, event.shiftKey);
      return;
    }
    const step = moduleOf(session.getState().project);
    moveChosen([arrow[0] * step, arrow[1] * step]);
    return;
  }
  if (mod || event.altKey) return;
  const { selection, inHand } = quiltView.getState();
  if (event.key === 'Enter' && inHand !== null) {
    used();
    fill(selection, inHand);
  } else if (/^[1-9]$/.test(event.key)) {
    used();
    const block = session.getState().project.blocks[Number(event.key) - 1];
    if (!block) return;
    const filling = { block: block.id, turn: 0, mirrored: false };
    quiltView.setState({ inHand: filling });
    if (selection.length > 0) fill(selection, filling);
  } else if (event.key === '0') {
    used();
    fitQuilt();
  } else if (event.key === '+' || event.key === '=') {
    used();
    zoomQuilt(ZOOM_STEP);
  } else if (event.key === '-') {
    used();
    zoomQuilt(1 / ZOOM_STEP);
  } else if (event.key === 'Escape') {
    used();
    if (inHand !== null) quiltView.setState({ inHand: null });
    else choose([]);
  }
}

/** What each canvas hangs on; it is painted again, at most once a frame, when one of them is another. */
const CANVASES: readonly {
  readonly draw: (context: Konva.Context) => void;
  readonly parts: () => readonly unknown[];
}[] = [
  {
    draw: drawResting,
    parts: () => {
      const { camera, shows, view, carried, selection } = quiltView.getState();
      const project = shownProject(session.getState());
      const away = carried?.kind === 'places' && !carried.isCopy ? selection : null;
      return [
        camera,
        shows,
        view,
        away,
        project.quilt,
        project.blocks,
        project.fabrics,
        pictures.getState().ready,
      ];
    },
  },
  { draw: drawCarried, parts: () => [quiltView.getState().carried, quiltView.getState().camera] },
  {
    draw: drawWords,
    parts: () => {
      const { carried, ...view } = quiltView.getState();
      const under = carried === null ? null : placeAt(carried.to);
      return [
        ...Object.values(view),
        carried === null,
        under,
        shownProject(session.getState()),
        plansCome.getState(),
      ];
    },
  },
];

/** The quilt as it lies: three canvases over each other, so that only what moves is painted while it does. */
export function QuiltBoard({ describedBy }: { readonly describedBy: string }) {
  const frame = useRef<HTMLDivElement>(null);
  const layers = useRef<(Konva.Layer | null)[]>([]);
  const view = useStore(quiltView, (state) => state.view);
  const selection = useStore(quiltView, (state) => state.selection);
  const project = useStore(session, shownProject);
  const hand = useStore(quiltView, (state) => state.inHand !== null);

  useLayoutEffect(() => {
    const element = frame.current!;
    const measure = (): void => setQuiltView({ width: element.clientWidth, height: element.clientHeight });
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  useEffect(() => listenOnQuilt(frame.current!), []);
  useEffect(() => {
    let frameId = 0;
    let shown: (readonly unknown[])[] = [];
    const paint = (): void => {
      frameId = 0;
      CANVASES.forEach(({ parts }, k) => {
        const now = parts();
        const before = shown[k];
        if (before?.length === now.length && now.every((part, i) => part === before[i])) return;
        shown[k] = now;
        layers.current[k]?.drawScene();
      });
      const { scale, x, y } = quiltView.getState().camera;
      frame.current!.dataset.camera = `${scale} ${x} ${y}`;
    };
    const soon = (): void => {
      if (frameId === 0) frameId = requestAnimationFrame(paint);
    };
    const all = (): void => {
      shown = [];
      soon();
    };
    soon();
    void document.fonts.load("600 12px 'Source Sans 3 Variable'").then(all, all);
    const stops = [quiltView, session, pictures, plansCome].map((store) =>
      store.subscribe(soon as () => void),
    );
    let size = '';
    const refit = session.subscribe((state) => {
      const { box } = layoutOf(shownProject(state));
      const next = `${box.minX} ${box.minY} ${box.maxX} ${box.maxY}`;
      if (next !== size && quiltView.getState().isFitted && quiltView.getState().carried === null) fitQuilt();
      size = next;
    });
    return () => {
      cancelAnimationFrame(frameId);
      for (const stop of stops) stop();
      refit();
    };
  }, []);

  const chosen = chosenPlaces(project, { ...quiltView.getState(), selection });
  const numbers = placeNumbers(project);
  return (
    <div
      ref={frame}
      className="quilt-board"
      data-hand={hand}
      role="application"
      aria-roledescription={phrase('quilt board')}
      aria-label={phrase('Quilt')}
      aria-describedby={describedBy}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: an application takes the keyboard.
      tabIndex={0}
      onKeyDown={onKey}
    >
      <Stage width={view.width} height={view.height} listening={false}>
        {CANVASES.map(({ draw }, k) => (
          <Layer
            // biome-ignore lint/suspicious/noArrayIndexKey: the canvases are always the same three.
            key={k}
            ref={(layer) => {
              layers.current[k] = layer;
            }}
            listening={false}
          >
            <Shape sceneFunc={draw} listening={false} />
          </Layer>
        ))}
      </Stage>
      <p className="only-heard" role="status">
        {chosen.length === 0
          ? ''
          : chosen.length === 1
            ? phrase('Place {numbers}, {isValue, select, true {{name}} other {plain}}', {
                numbers: numbers.get(chosen[0]!.id),
                isValue: 'block' in chosen[0]!,
                name:
                  project.blocks.find(({ id }) => 'block' in chosen[0]! && id === chosen[0]!.block)?.name ??
                  '',
              })
            : phrase('{chosen} places chosen', { chosen: chosen.length })}
      </p>
    </div>
  );
}
