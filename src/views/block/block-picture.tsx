import { useEffect, useMemo, useRef } from 'react';
import type { Block, Fabric } from '../../document/project.ts';
import { comeIntoSight } from '../../workspace/in-sight.ts';
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
  const inside = useRef<HTMLSpanElement>(null);
  // What is on the screen is worked out before the rest.
  useEffect(() => {
    let leave: (() => void) | null = null;
    const watch = new IntersectionObserver(([entry]) => {
      leave?.();
      leave = entry?.isIntersecting ? comeIntoSight(block.id) : null;
    });
    if (inside.current) watch.observe(inside.current);
    return () => {
      watch.disconnect();
      leave?.();
    };
  }, [block.id]);
  return (
    <span ref={inside} className="block-picture-frame">
      <SmallBlock outline={block.outline} pieces={pieces} fabrics={fabrics} size={size} />
    </span>
  );
}
