import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react';
import type { Quad } from '../../geometry/homography.ts';
import type { Point } from '../../geometry/point.ts';
import type { Box } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';

export const CORNER_NAMES = [
  phrase('Top left'),
  phrase('Top right'),
  phrase('Bottom right'),
  phrase('Bottom left'),
] as const;

interface CornersProps {
  /** Address of the picture, and its size in pixels. */
  readonly address: string;
  readonly width: number;
  readonly height: number;
  /** What is shown, pixels of the picture: all of it, and corners that lie beyond. */
  readonly frame: Box;
  readonly corners: Quad;
  readonly isSound: boolean;
  readonly onMove: (corner: number, to: Point) => void;
}

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

const LONG_STEP_PX = 10;

/** The picture with a handle at each corner; the handle in use is seen enlarged beside it. */
export function UnderPictureCorners(props: CornersProps) {
  const { address, width, height, frame, corners, isSound, onMove } = props;
  const sheet = useRef<HTMLDivElement>(null);
  const [active, setActive] = useState<number | null>(null);
  const [said, setSaid] = useState('');
  /** From the pointer to the corner it holds, CSS pixels: a handle does not jump when it is taken hold of. */
  const hold = useRef<Point>([0, 0]);
  const across = frame.maxX - frame.minX;
  const down = frame.maxY - frame.minY;

  const within = ([x, y]: Point): Point => [
    Math.min(frame.maxX, Math.max(frame.minX, x)),
    Math.min(frame.maxY, Math.max(frame.minY, y)),
  ];

  const take = (corner: number, event: PointerEvent<HTMLButtonElement>): void => {
    if (event.button !== 0) return;
    const box = event.currentTarget.getBoundingClientRect();
    hold.current = [box.x + box.width / 2 - event.clientX, box.y + box.height / 2 - event.clientY];
    event.currentTarget.setPointerCapture(event.pointerId);
    event.currentTarget.focus();
    setActive(corner);
  };

  const drag = (corner: number, event: PointerEvent<HTMLButtonElement>): void => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const box = sheet.current!.getBoundingClientRect();
    const [dx, dy] = hold.current;
    onMove(
      corner,
      within([
        frame.minX + ((event.clientX + dx - box.x) / box.width) * across,
        frame.minY + ((event.clientY + dy - box.y) / box.height) * down,
      ]),
    );
  };

  const press = (corner: number, event: KeyboardEvent): void => {
    const arrow = ARROWS[event.key];
    if (arrow === undefined) return;
    event.preventDefault();
    const step = event.shiftKey ? LONG_STEP_PX : 1;
    const [x, y] = corners[corner]!;
    const to = within([x + arrow[0] * step, y + arrow[1] * step]);
    onMove(corner, to);
    setSaid(placeOf(to));
  };

  const left = (x: number): string => `${((x - frame.minX) / across) * 100}%`;
  const top = (y: number): string => `${((y - frame.minY) / down) * 100}%`;

  return (
    <div className="corner-stage">
      <div
        ref={sheet}
        className="corner-sheet"
        style={{ aspectRatio: `${across} / ${down}`, maxWidth: `calc(min(58dvh, 560px) * ${across / down})` }}
      >
        <img
          src={address}
          alt=""
          draggable={false}
          style={{
            left: left(0),
            top: top(0),
            width: `${(width / across) * 100}%`,
            height: `${(height / down) * 100}%`,
          }}
        />
        <svg
          viewBox={`${frame.minX} ${frame.minY} ${across} ${down}`}
          aria-hidden="true"
          data-sound={isSound}
        >
          <path className="corner-halo" d={pathOf(corners)} />
          <path d={pathOf(corners)} />
        </svg>
        {CORNER_NAMES.map((name, corner) => {
          const [x, y] = corners[corner]!;
          return (
            <button
              key={name}
              type="button"
              className="corner-handle"
              aria-label={phrase('{name} corner', { name })}
              aria-description={phrase('{placeOf}. Arrow keys move it by a pixel, with Shift by ten.', {
                placeOf: placeOf([x, y]),
              })}
              data-first-focus={corner === 0 ? '' : undefined}
              style={{ left: left(x), top: top(y) }}
              onPointerDown={(event) => take(corner, event)}
              onPointerMove={(event) => drag(corner, event)}
              onKeyDown={(event) => press(corner, event)}
              onFocus={() => setActive(corner)}
              onBlur={() => setActive(null)}
            />
          );
        })}
        {active !== null && <Loupe {...props} corner={active} />}
      </div>
      <p className="only-heard" role="status">
        {said}
      </p>
    </div>
  );
}

const placeOf = ([x, y]: Point): string =>
  phrase('{round} across, {round2} down', { round: Math.round(x), round2: Math.round(y) });

const pathOf = (corners: Quad): string => `M${corners.map((corner) => corner.join(' ')).join('L')}Z`;

/** Width of the loupe, and how many of its pixels show one of the picture's. CSS pixels. */
const LOUPE_PX = 132;
const ENLARGED = 3;

/** The surroundings of a corner, enlarged, with the sides that meet there. */
function Loupe({
  address,
  width,
  height,
  frame,
  corners,
  corner,
}: CornersProps & { readonly corner: number }) {
  const [x, y] = corners[corner]!;
  const middle = LOUPE_PX / 2;
  const sides = [(corner + 1) % 4, (corner + 3) % 4].map((other) => {
    const [ox, oy] = corners[other]!;
    return `M${middle} ${middle}L${middle + (ox - x) * ENLARGED} ${middle + (oy - y) * ENLARGED}`;
  });
  const isLeft = x < (frame.minX + frame.maxX) / 2;
  const isHigh = y < (frame.minY + frame.maxY) / 2;
  return (
    <div
      className="corner-loupe"
      aria-hidden="true"
      style={{
        left: `${((x - frame.minX) / (frame.maxX - frame.minX)) * 100}%`,
        top: `${((y - frame.minY) / (frame.maxY - frame.minY)) * 100}%`,
        translate: `${isLeft ? '28px' : 'calc(-100% - 28px)'} ${isHigh ? '28px' : 'calc(-100% - 28px)'}`,
        backgroundImage: `url(${address})`,
        backgroundSize: `${width * ENLARGED}px ${height * ENLARGED}px`,
        backgroundPosition: `${middle - x * ENLARGED}px ${middle - y * ENLARGED}px`,
      }}
    >
      <svg viewBox={`0 0 ${LOUPE_PX} ${LOUPE_PX}`} aria-hidden="true">
        <path className="corner-halo" d={sides.join('')} />
        <path d={sides.join('')} />
        <circle cx={middle} cy={middle} r="3" />
      </svg>
    </div>
  );
}
