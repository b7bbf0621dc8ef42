import { fittedCamera, panBy, type ViewSize, zoomAbout } from '../../board/camera.ts';
import type { Point } from '../../geometry/point.ts';
import { session, shownProject } from '../../workspace/session.ts';
import { quiltView } from './quilt-state.ts';
import { layoutOf } from './shown-quilt.ts';

/** Room round the quilt on the board, pixels. */
const INSET = { left: 36, top: 56, right: 36, bottom: 36 } as const;

/** Shows the whole quilt; of an empty one, a stretch of 60 in. */
export function fitQuilt(): void {
  const { view } = quiltView.getState();
  if (view.width === 0) return;
  const { box, pieces } = layoutOf(shownProject(session.getState()));
  const shown = pieces.length === 0 ? { minX: 0, minY: 0, maxX: 60, maxY: 60 } : box;
  quiltView.setState({ camera: fittedCamera(shown, view, INSET), isFitted: true });
}

export function setQuiltView(view: ViewSize): void {
  quiltView.setState({ view });
  if (quiltView.getState().isFitted) fitQuilt();
}

export function zoomQuilt(factor: number, about?: Point): void {
  const { camera, view } = quiltView.getState();
  quiltView.setState({
    camera: zoomAbout(camera, about ?? [view.width / 2, view.height / 2], factor),
    isFitted: false,
  });
}

export const panQuilt = (dx: number, dy: number): void =>
  quiltView.setState(({ camera }) => ({ camera: panBy(camera, dx, dy), isFitted: false }));
