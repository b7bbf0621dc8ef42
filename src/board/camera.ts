import type { Point } from '../geometry/point.ts';
import type { Box } from '../geometry/ring.ts';

/** How the board is looked at: screen = inches × `scale` + `[x, y]`, in CSS pixels from the board's top left. */
export interface Camera {
  /** CSS pixels per inch. */
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

/** Size of the board on the screen, CSS pixels. */
export interface ViewSize {
  readonly width: number;
  readonly height: number;
}

/** Room kept free around the drawing when it is fitted, CSS pixels. */
export interface Inset {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A 1,000 in outline still fits a small window, and 1/64 in still spans 30 px. */
const MIN_SCALE = 0.25;
const MAX_SCALE = 2000;

export const toScreen = (camera: Camera, [x, y]: Point): Point => [
  x * camera.scale + camera.x,
  y * camera.scale + camera.y,
];

export const toBoard = (camera: Camera, [x, y]: Point): Point => [
  (x - camera.x) / camera.scale,
  (y - camera.y) / camera.scale,
];

/** The camera after scaling by `factor`, the place under `screen` staying where it is. */
export function zoomAbout(camera: Camera, screen: Point, factor: number): Camera {
  const scale = Math.min(MAX_SCALE, Math.max(MIN_SCALE, camera.scale * factor));
  const [x, y] = toBoard(camera, screen);
  return { scale, x: screen[0] - x * scale, y: screen[1] - y * scale };
}

export const panBy = (camera: Camera, dx: number, dy: number): Camera => ({
  ...camera,
  x: camera.x + dx,
  y: camera.y + dy,
});

/** The camera that shows the box (inches) whole and centred in the view, `inset` kept free. */
export function fittedCamera(box: Box, view: ViewSize, inset: Inset): Camera {
  const width = Math.max(box.maxX - box.minX, 1 / 64);
  const height = Math.max(box.maxY - box.minY, 1 / 64);
  const freeWidth = Math.max(view.width - inset.left - inset.right, 40);
  const freeHeight = Math.max(view.height - inset.top - inset.bottom, 40);
  const scale = Math.min(MAX_SCALE, Math.max(MIN_SCALE, Math.min(freeWidth / width, freeHeight / height)));
  return {
    scale,
    x: inset.left + (freeWidth - width * scale) / 2 - box.minX * scale,
    y: inset.top + (freeHeight - height * scale) / 2 - box.minY * scale,
  };
}

/** The camera moved, and if need be brought nearer, so that `at` lies in the middle of the view. */
export function lookAt(camera: Camera, at: Point, view: ViewSize, leastScale: number): Camera {
  const scale = Math.min(MAX_SCALE, Math.max(camera.scale, leastScale));
  return { scale, x: view.width / 2 - at[0] * scale, y: view.height / 2 - at[1] * scale };
}

/** The camera part of the way from one to another, `t` in 0 … 1; scale changes evenly by ratio. */
export function between(from: Camera, to: Camera, t: number): Camera {
  if (t >= 1) return to;
  const scale = from.scale * (to.scale / from.scale) ** t;
  // The place that keeps its spot on the screen during the whole move is found from both ends.
  const share = to.scale === from.scale ? t : (scale - from.scale) / (to.scale - from.scale);
  return { scale, x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}
