import { useMemo } from 'react';
import { drawBlock } from '../../document/export-block.ts';
import type { Project } from '../../document/project.ts';
import { SmallBlock } from '../small-block.tsx';

/** So many blocks are shown of one project. */
const SHOWN = 4;

/** The first blocks of a project, in their colours. */
export function ProjectPicture({
  project,
  size,
}: {
  readonly project: Project | null;
  readonly size: number;
}) {
  const drawings = useMemo(
    () =>
      (project?.blocks ?? [])
        .slice(0, SHOWN)
        .map((block) => ({ id: block.id, ...drawBlock(block, project!.fabrics, 'colours', 6) })),
    [project],
  );
  const isOne = drawings.length === 1;
  return (
    <span className="project-picture" style={{ width: size, height: size }} aria-hidden="true">
      {drawings.map(({ id, outline, cuts, fills }) => (
        <SmallBlock
          key={id}
          outline={outline}
          fabrics={[]}
          size={isOne ? size : size / 2 - 2}
          pieces={[
            ...fills.map(({ color, rings }, i) => ({ key: i, rings, fabric: null, bare: color })),
            ...cuts.map((cut, i) => ({ key: `c${i}`, rings: [cut], fabric: null, bare: 'none' })),
          ]}
        />
      ))}
    </span>
  );
}
