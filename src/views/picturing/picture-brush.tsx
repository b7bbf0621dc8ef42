import { useEffect, useRef, useState } from 'react';
import { phrase } from '../../words/phrase.ts';
import { inProportion } from './made-block.tsx';
import { BRUSH_CODES, type Brush } from './pixels-of.ts';

interface PictureBrushProps {
  readonly pixels: ImageData;
  readonly brushed: Uint8Array;
  readonly brush: Brush | null;
  /** Radius, pixels of the picture. */
  readonly radius: number;
  readonly onBrush: (brushed: Uint8Array) => void;
}

/** Tints of what was brushed, red green blue, and how they are hatched so that colour is not all that tells them. */
const TINTS: Readonly<Record<number, readonly [number, number, number]>> = {
  1: [166, 50, 43],
  2: [44, 74, 133],
  3: [51, 112, 74],
};

/** The picture, and what was brushed on it. A pointer, or arrows and the space bar, brush. */
export function PictureBrush({ pixels, brushed, brush, radius, onBrush }: PictureBrushProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [at, setAt] = useState<readonly [number, number]>([pixels.width / 2, pixels.height / 2]);
  const isDown = useRef(false);
  const laid = useRef(brushed);
  laid.current = brushed;
  useEffect(() => {
    const ctx = canvas.current!.getContext('2d')!;
    const shown = new ImageData(Uint8ClampedArray.from(pixels.data), pixels.width, pixels.height);
    brushed.forEach((code, k) => {
      const tint = TINTS[code];
      if (!tint) return;
      const [x, y] = [k % pixels.width, Math.floor(k / pixels.width)];
      const isStripe = code === 1 ? (x + y) % 6 < 3 : code === 2 ? (x - y + 600) % 6 < 3 : y % 6 < 3;
      const share = isStripe ? 0.6 : 0.3;
      for (let c = 0; c < 3; c++)
        shown.data[k * 4 + c] = (1 - share) * shown.data[k * 4 + c]! + share * tint[c]!;
    });
    ctx.putImageData(shown, 0, 0);
    if (brush !== null) {
      ctx.strokeStyle = '#fffefa';
      ctx.lineWidth = 2.5;
      ctx.beginPath();
      ctx.arc(at[0], at[1], radius, 0, 2 * Math.PI);
      ctx.stroke();
      ctx.strokeStyle = '#1f2530';
      ctx.lineWidth = 1;
      ctx.stroke();
    }
  }, [pixels, brushed, brush, radius, at]);

  const lay = ([cx, cy]: readonly [number, number]): void => {
    if (brush === null) return;
    const next = Uint8Array.from(laid.current);
    const { width, height } = pixels;
    for (let y = Math.max(0, Math.floor(cy - radius)); y <= Math.min(height - 1, cy + radius); y++)
      for (let x = Math.max(0, Math.floor(cx - radius)); x <= Math.min(width - 1, cx + radius); x++)
        if ((x + 0.5 - cx) ** 2 + (y + 0.5 - cy) ** 2 <= radius * radius)
          next[y * width + x] = BRUSH_CODES[brush];
    laid.current = next;
    onBrush(next);
  };
  const spotOf = (event: React.PointerEvent): readonly [number, number] => {
    const box = canvas.current!.getBoundingClientRect();
    return [
      ((event.clientX - box.left) / box.width) * pixels.width,
      ((event.clientY - box.top) / box.height) * pixels.height,
    ];
  };
  return (
    <canvas
      ref={canvas}
      width={pixels.width}
      height={pixels.height}
      className="picturing-canvas"
      style={inProportion(pixels.width, pixels.height)}
      tabIndex={0}
      role="img"
      aria-label={
        brush === null
          ? phrase('The picture, as it is cropped')
          : phrase('The picture. Arrows move the brush, the space bar lays it.')
      }
      data-brush={brush ?? undefined}
      onPointerDown={(event) => {
        if (brush === null) return;
        isDown.current = true;
        event.currentTarget.setPointerCapture(event.pointerId);
        setAt(spotOf(event));
        lay(spotOf(event));
      }}
      onPointerMove={(event) => {
        if (brush === null) return;
        setAt(spotOf(event));
        if (isDown.current) lay(spotOf(event));
      }}
      onPointerUp={() => {
        isDown.current = false;
      }}
      onKeyDown={(event) => {
        if (brush === null) return;
        const step = event.shiftKey ? 1 : 6;
        const move = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[
          event.key
        ];
        if (move) {
          event.preventDefault();
          setAt(([x, y]) => [
            Math.min(pixels.width, Math.max(0, x + step * move[0]!)),
            Math.min(pixels.height, Math.max(0, y + step * move[1]!)),
          ]);
        } else if (event.key === ' ') {
          event.preventDefault();
          lay(at);
        }
      }}
    />
  );
}
