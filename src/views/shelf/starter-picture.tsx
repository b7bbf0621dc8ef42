import type { Fabric } from '../../document/project.ts';
import { suggestFabrics } from '../../document/starters/shelf.ts';
import type { GridDrawing } from '../../document/starters/starter.ts';
import { boxOf } from '../../geometry/ring.ts';

interface StarterPictureProps {
  readonly drawing: GridDrawing;
  /** The project's, when they are to be laid; with none the tones are hinted at in greys. */
  readonly fabrics: readonly Fabric[];
  /** CSS pixels, both ways. */
  readonly size: number;
  /** Without any hint at tones: as it will be when no fabric is laid. */
  readonly isBare?: boolean;
}

const GREYS = { light: 'var(--sheet)', medium: 'var(--tone-medium)', dark: 'var(--tone-dark)' } as const;

/** A starting point, small: its tiles as they are drawn, before anything is worked out. */
export function StarterPicture({ drawing, fabrics, size, isBare = false }: StarterPictureProps) {
  const { minX, minY, maxX, maxY } = boxOf(drawing.outline);
  const extent = Math.max(maxX - minX, maxY - minY);
  const line = extent / size;
  const suggested = suggestFabrics(fabrics);
  const colors = new Map(fabrics.map(({ id, color }) => [id, color]));
  const x = (minX + maxX - extent) / 2 - line;
  const y = (minY + maxY - extent) / 2 - line;
  return (
    <svg
      className="block-picture"
      width={size}
      height={size}
      viewBox={`${x} ${y} ${extent + 2 * line} ${extent + 2 * line}`}
      aria-hidden="true"
      focusable="false"
    >
      {drawing.tiles.map(({ ring, tone }, i) => (
        <polygon
          // Tiles have no names, and stay in their order.
          // biome-ignore lint/suspicious/noArrayIndexKey: the order of tiles never changes
          key={i}
          points={ring.map(([px, py]) => `${px},${py}`).join(' ')}
          fill={(suggested && colors.get(suggested[tone])) ?? GREYS[isBare ? 'light' : tone]}
          stroke="var(--sheet-ink)"
          strokeWidth={line * 0.7}
          strokeLinejoin="round"
        />
      ))}
      <polygon
        points={drawing.outline.map(([px, py]) => `${px},${py}`).join(' ')}
        fill="none"
        stroke="var(--sheet-ink)"
        strokeWidth={line}
      />
    </svg>
  );
}
