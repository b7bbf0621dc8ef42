import { memo } from 'react';
import type { Fabric } from '../document/project.ts';
import type { Ring } from '../geometry/point.ts';
import { boxOf } from '../geometry/ring.ts';
import { useFabricFills } from './fabric-fills.tsx';

export interface SmallPiece {
  readonly key: string | number;
  /** Its outline, then its holes. */
  readonly rings: readonly Ring[];
  /** Id of the fabric on it. */
  readonly fabric: string | null | undefined;
  /** What fills it where no fabric lies. */
  readonly bare: string;
}

interface SmallBlockProps {
  readonly outline: Ring;
  readonly pieces: readonly SmallPiece[];
  readonly fabrics: readonly Fabric[];
  /** CSS pixels, both ways. */
  readonly size: number;
  /** Width or height of the block in inches, the larger, where the drawing has other units. */
  readonly inches?: number;
}

const path = (rings: readonly Ring[]): string =>
  rings.map((ring) => `M${ring.map(([x, y]) => `${x} ${y}`).join('L')}Z`).join('');

/** A block in the middle of a small square, its pieces filled and edged. */
export const SmallBlock = memo(function SmallBlock({
  outline,
  pieces,
  fabrics,
  size,
  inches,
}: SmallBlockProps) {
  const { minX, minY, maxX, maxY } = boxOf(outline);
  const extent = Math.max(maxX - minX, maxY - minY, 1 / 64);
  const line = extent / size;
  const used = new Set(pieces.flatMap(({ fabric }) => fabric ?? []));
  const { defs, fillOf } = useFabricFills(fabrics, used, {
    pxPerIn: size / (inches ?? extent),
    scale: extent / (inches ?? extent),
  });
  const edges = pieces.map(({ rings }) => path(rings)).join('');
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
      {defs}
      <path d={path([outline])} fill="var(--sheet)" />
      {pieces.map(({ key, rings, fabric, bare }) => (
        <path key={key} d={path(rings)} fillRule="evenodd" fill={fillOf(fabric) ?? bare} />
      ))}
      {/* Pale beneath the ink: patches of one dark fabric stay apart. */}
      <path d={edges} fill="none" stroke="var(--sheet)" strokeOpacity={0.5} strokeWidth={line * 1.7} />
      <path d={edges} fill="none" stroke="var(--sheet-ink)" strokeWidth={line * 0.7} strokeLinejoin="round" />
      <path d={path([outline])} fill="none" stroke="var(--sheet-ink)" strokeWidth={line} />
    </svg>
  );
});
