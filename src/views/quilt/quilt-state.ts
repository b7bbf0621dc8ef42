import { createStore } from 'zustand/vanilla';
import type { Camera, ViewSize } from '../../board/camera.ts';
import type { Filling } from '../../document/edit-quilt.ts';
import type { Point } from '../../geometry/point.ts';

/** What the panel beside the quilt is about. */
export type QuiltTask = 'set' | 'join' | 'finish' | 'print';

/** What is carried over the board: places already in the quilt, or something from the tray. */
export type Carried =
  | { readonly kind: 'places'; readonly from: Point; readonly to: Point; readonly isCopy: boolean }
  | { readonly kind: 'new'; readonly filling: Exclude<Filling, null>; readonly to: Point };

export interface QuiltView {
  /** Ids of chosen places, the one chosen last at the end. */
  readonly selection: readonly string[];
  /** What a press of Enter, or of a place, lays there; null for nothing. */
  readonly inHand: Exclude<Filling, null> | null;
  readonly shows: 'fabric' | 'value';
  readonly task: QuiltTask;
  /** The step of the joining plan in sight; 0 for none. */
  readonly step: number;
  readonly isPlaying: boolean;
  readonly showsNumbers: boolean;
  readonly camera: Camera;
  readonly view: ViewSize;
  /** Does the quilt fill the board, whatever its size? Until someone zooms. */
  readonly isFitted: boolean;
  readonly carried: Carried | null;
  /** Places lit up because something beside the board is about them. */
  readonly lit: readonly string[];
}

/** How the quilt is looked at, and what is chosen in it: none of it is saved. */
export const quiltView = createStore<QuiltView>(() => ({
  selection: [],
  inHand: null,
  shows: 'fabric',
  task: 'set',
  step: 0,
  isPlaying: false,
  showsNumbers: false,
  camera: { scale: 8, x: 0, y: 0 },
  view: { width: 0, height: 0 },
  isFitted: true,
  carried: null,
  lit: [],
}));
