import { useMemo } from 'react';
import type { Block, Fabric } from '../../document/project.ts';
import { SmallBlock } from '../small-block.tsx';
import { useRestingPlan } from '../use-plan.ts';

interface BlockPictureProps {
  readonly block: Block;
  readonly fabrics: readonly Fabric[];
  /** CSS pixels, both ways. */
  readonly size: number;
}

/** A block as it will look finished, small. */
export function BlockPicture({ block, fabrics, size }: BlockPictureProps) {
  const plan = useRestingPlan(block);
  const pieces = useMemo(
    () =>
      (plan?.patches ?? []).map(({ id, polygon, holes, fabric }) => ({
        key: id,
        rings: [polygon, ...holes],
        fabric,
        bare: 'var(--sheet)',
      })),
    [plan],
  );
  return <SmallBlock outline={block.outline} pieces={pieces} fabrics={fabrics} size={size} />;
}
