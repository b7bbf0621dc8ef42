import type { Block, Fabric } from '../../document/project.ts';
import type { Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { usePlan } from '../use-plan.ts';

interface BlockPictureProps {
  readonly block: Block;
  readonly fabrics: readonly Fabric[];
  /** CSS pixels, both ways. */
  readonly size: number;
}

const path = (rings: readonly Ring[]): string =>
  rings.map((ring) => `M${ring.map(([x, y]) => `${x} ${y}`).join('L')}Z`).join('');

/** A block as it will look finished, small. */
export function BlockPicture({ block, fabrics, size }: BlockPictureProps) {
  const { plan } = usePlan(block);
  const { minX, minY, maxX, maxY } = boxOf(block.outline);
  const extent = Math.max(maxX - minX, maxY - minY, 1 / 64);
  const line = extent / size;
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
      <path d={path([block.outline])} fill="var(--sheet)" />
      {plan?.patches.map(({ id, polygon, holes, fabric }) => (
        <path
          key={id}
          d={path([polygon, ...holes])}
          fillRule="evenodd"
          fill={(fabric === null ? undefined : colors.get(fabric)) ?? 'var(--sheet)'}
          stroke="var(--sheet-ink)"
          strokeWidth={line * 0.7}
          strokeLinejoin="round"
        />
      ))}
      <path d={path([block.outline])} fill="none" stroke="var(--sheet-ink)" strokeWidth={line} />
    </svg>
  );
}
