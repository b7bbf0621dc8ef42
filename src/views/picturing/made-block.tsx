import { memo, useEffect, useRef } from 'react';
import { labOfColor } from '../../document/lab.ts';
import type { BlockGrid } from '../../picturing/over-blocks.ts';
import type { PictureBlock } from '../../picturing/picture-block.ts';
import { phrase } from '../../words/phrase.ts';

interface MadeBlockProps {
  readonly block: PictureBlock;
  /** Inches. */
  readonly width: number;
  readonly height: number;
  readonly label: string;
  /** The blocks it is spread over, parted by heavier lines. */
  readonly grid?: BlockGrid;
}

/** What the frame of a picture, or of a block, is as wide as it is high. */
export const inProportion = (width: number, height: number): React.CSSProperties =>
  ({ '--ratio': width / height }) as React.CSSProperties;

const pointsOf = (piece: readonly number[]): string => {
  const points: string[] = [];
  for (let i = 0; i < piece.length; i += 2) points.push(`${piece[i]},${piece[i + 1]}`);
  return points.join(' ');
};

/** A block made from a picture, in its fabrics. */
export const MadeBlock = memo(function MadeBlock({ block, width, height, label, grid }: MadeBlockProps) {
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      className="picturing-block"
      style={inProportion(width, height)}
      role="img"
      aria-label={label}
    >
      {block.patches.map(({ piece, fabric }, k) => (
        <polygon
          // biome-ignore lint/suspicious/noArrayIndexKey: patches are known by their order.
          key={k}
          points={pointsOf(piece)}
          style={{ fill: block.fabrics[fabric]!.color }}
          strokeWidth={Math.max(width, height) / 500}
        />
      ))}
      {grid && (
        <path
          className="picturing-grid"
          d={[
            ...inner(grid.columns).map((k) => `M${(k * width) / grid.columns} 0V${height}`),
            ...inner(grid.rows).map((k) => `M0 ${(k * height) / grid.rows}H${width}`),
          ].join('')}
          strokeWidth={Math.max(width, height) / 160}
        />
      )}
    </svg>
  );
});

const inner = (count: number): number[] => Array.from({ length: count - 1 }, (_, k) => k + 1);

interface DifferenceProps extends Omit<MadeBlockProps, 'label' | 'grid'> {
  readonly pixels: ImageData;
}

/** A difference this large is shown black: that of two colours nobody would take for each other. */
const BLACK_AT = 60;

/** Where a block differs from its picture: white where it is the same, darker the farther it is, by CIELAB. */
export function Difference({ block, width, height, pixels }: DifferenceProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const ctx = canvas.current!.getContext('2d', { willReadFrequently: true })!;
    const scale = pixels.width / width;
    ctx.setTransform(1, 0, 0, 1, 0, 0);
    ctx.clearRect(0, 0, pixels.width, pixels.height);
    ctx.setTransform(scale, 0, 0, scale, 0, 0);
    const labs = new Map<string, ReturnType<typeof labOfColor>>();
    for (const { piece, fabric } of block.patches) {
      ctx.fillStyle = block.fabrics[fabric]!.color;
      ctx.strokeStyle = ctx.fillStyle;
      ctx.lineWidth = 1 / scale;
      ctx.beginPath();
      for (let i = 0; i < piece.length; i += 2) ctx.lineTo(piece[i]!, piece[i + 1]!);
      ctx.closePath();
      ctx.fill();
      ctx.stroke();
    }
    const made = ctx.getImageData(0, 0, pixels.width, pixels.height);
    const labAt = (data: Uint8ClampedArray, at: number) => {
      // To the nearest four of 256: nothing that is seen, and few colours to work out.
      const key = `#${[0, 1, 2].map((k) => (data[at + k]! & 0xfc).toString(16).padStart(2, '0')).join('')}`;
      const known = labs.get(key) ?? labOfColor(key);
      labs.set(key, known);
      return known;
    };
    for (let at = 0; at < made.data.length; at += 4) {
      // Beside a block that is no rectangle nothing differs.
      if (made.data[at + 3] === 0) {
        made.data.set([255, 255, 255, 255], at);
        continue;
      }
      const [a, b] = [labAt(made.data, at), labAt(pixels.data, at)];
      const far = Math.hypot(a.l - b.l, a.a - b.a, a.b - b.b);
      const grey = 255 * (1 - Math.min(1, far / BLACK_AT));
      made.data.set([grey, grey, grey, 255], at);
    }
    ctx.putImageData(made, 0, 0);
  }, [block, width, pixels]);
  return (
    <canvas
      ref={canvas}
      width={pixels.width}
      height={pixels.height}
      className="picturing-canvas"
      style={inProportion(width, height)}
      role="img"
      aria-label={phrase('Where the block differs from the picture: darker is farther')}
    />
  );
}
