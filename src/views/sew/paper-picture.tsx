import { memo } from 'react';
import type { WorkBlock, WorkSection } from '../../document/work.ts';

interface PaperPictureProps {
  readonly block: WorkBlock;
  readonly section: WorkSection;
  /** Ids of the patches whose turn it is. */
  readonly lit: readonly string[];
  /** How many positions are sewn. */
  readonly sewn: number;
  readonly colors: ReadonlyMap<string, string>;
}

const points = (ring: readonly (readonly [number, number])[]): string =>
  ring.map(([x, y]) => `${x},${y}`).join(' ');

/** A paper as it lies under the needle: from its printed side, mirrored, what is sewn in colour, what is next lit. */
export const PaperPicture = memo(function PaperPicture({
  block,
  section,
  lit,
  sewn,
  colors,
}: PaperPictureProps) {
  const xs = section.outline.map(([x]) => x);
  const ys = section.outline.map(([, y]) => y);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const size = Math.max(right - left, bottom - top);
  const margin = size * 0.04;
  const done = new Set(section.order.slice(0, sewn));
  const patches = block.patches.filter(({ id }) => section.order.includes(id));
  const spotOf = (ring: readonly (readonly [number, number])[]): readonly [number, number] => [
    ring.reduce((sum, [x]) => sum + x, 0) / ring.length,
    ring.reduce((sum, [, y]) => sum + y, 0) / ring.length,
  ];
  return (
    <svg
      className="paper-picture"
      viewBox={`${left - margin} ${top - margin} ${right - left + 2 * margin} ${bottom - top + 2 * margin}`}
      aria-hidden="true"
    >
      <g transform={`translate(${left + right} 0) scale(-1 1)`}>
        <polygon points={points(section.outline)} className="paper-ground" />
        {patches.map(({ id, polygon, fabric }) => (
          <polygon
            key={id}
            points={points(polygon)}
            className={lit.includes(id) ? 'patch-lit' : done.has(id) ? 'patch-sewn' : 'patch-waiting'}
            style={
              lit.includes(id) || done.has(id)
                ? { fill: (fabric !== undefined && colors.get(fabric)) || 'var(--sheet)' }
                : undefined
            }
            strokeWidth={size * (lit.includes(id) ? 0.018 : 0.006)}
          />
        ))}
      </g>
      {patches
        .filter(({ id }) => lit.includes(id))
        .map(({ id, polygon }) => {
          const [x, y] = spotOf(polygon);
          return (
            <text key={id} x={left + right - x} y={y} fontSize={size * 0.08} className="patch-name">
              {id}
            </text>
          );
        })}
    </svg>
  );
});
