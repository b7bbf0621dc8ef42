import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { phrase } from '../../words/phrase.ts';
import type { Frame } from '../../workspace/fabric-pictures.ts';

interface PictureFrameProps {
  /** Address of the picture the frame lies on. */
  readonly address: string;
  readonly frame: Frame;
  readonly onFrame: (frame: Frame) => void;
}

type Side = keyof Frame;

const SIDES: readonly Side[] = ['left', 'top', 'right', 'bottom'];

/** The frame keeps at least this share of the picture each way. */
const LEAST = 0.04;

const STEP = 0.01;
const LONG_STEP = 0.1;

/** The frame with one side moved to a share of the picture, as far as the side across from it allows. */
export function withSide(frame: Frame, side: Side, share: number): Frame {
  const { left, top, right, bottom } = frame;
  const reach: Record<Side, readonly [number, number]> = {
    left: [0, right - LEAST],
    top: [0, bottom - LEAST],
    right: [left + LEAST, 1],
    bottom: [top + LEAST, 1],
  };
  const [least, most] = reach[side];
  return { ...frame, [side]: Math.min(most, Math.max(least, share)) };
}

const KEYS: Readonly<Record<string, number>> = {
  ArrowLeft: -STEP,
  ArrowUp: -STEP,
  ArrowRight: STEP,
  ArrowDown: STEP,
  PageUp: -LONG_STEP,
  PageDown: LONG_STEP,
};

/** A picture with a frame over the part of it that is used; each side is dragged, or moved with arrow keys. */
export function PictureFrame({ address, frame, onFrame }: PictureFrameProps) {
  const whole = useRef<HTMLDivElement>(null);

  const drag = (side: Side, event: PointerEvent): void => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const box = whole.current!.getBoundingClientRect();
    const isAcross = side === 'left' || side === 'right';
    const share = isAcross ? (event.clientX - box.left) / box.width : (event.clientY - box.top) / box.height;
    onFrame(withSide(frame, side, share));
  };

  const press = (side: Side, event: KeyboardEvent): void => {
    const step = KEYS[event.key];
    const share =
      event.key === 'Home' ? 0 : event.key === 'End' ? 1 : step === undefined ? null : frame[side] + step;
    if (share === null) return;
    event.preventDefault();
    onFrame(withSide(frame, side, share));
  };

  const percent = (share: number): string => `${100 * share}%`;
  const place = {
    left: percent(frame.left),
    top: percent(frame.top),
    right: percent(1 - frame.right),
    bottom: percent(1 - frame.bottom),
  };
  return (
    <div className="picture-frame" ref={whole}>
      <img src={address} alt="" draggable={false} />
      <div className="picture-frame-veil">
        <span style={place} />
      </div>
      <div className="picture-frame-window" style={place}>
        {SIDES.map((side) => (
          <span
            key={side}
            className="picture-frame-side"
            data-side={side}
            role="slider"
            tabIndex={0}
            aria-label={phrase('{charAt}{side} side of the frame', {
              charAt: side.charAt(0).toUpperCase(),
              side: side.slice(1),
            })}
            aria-orientation={side === 'left' || side === 'right' ? 'horizontal' : 'vertical'}
            aria-valuemin={0}
            aria-valuemax={100}
            aria-valuenow={Math.round(100 * frame[side])}
            aria-valuetext={phrase('{round}% from the {isSide, select, true {left} other {top}}', {
              round: Math.round(100 * frame[side]),
              isSide: side === 'left' || side === 'right',
            })}
            onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
            onPointerMove={(event) => drag(side, event)}
            onKeyDown={(event) => press(side, event)}
          />
        ))}
      </div>
    </div>
  );
}
