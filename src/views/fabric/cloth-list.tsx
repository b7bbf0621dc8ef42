import { toBuy } from '../../cutting/lengths.ts';
import { slackOf } from '../../cutting/project-cutting.ts';
import { boughtWords } from '../../cutting/sums.ts';
import type { Fabric, Project } from '../../document/project.ts';
import { phrase } from '../../words/phrase.ts';
import type { FabricSum } from '../../workspace/cutting-client.ts';
import { swatchStyle, usePictures } from '../fabric-fills.tsx';
import { oneStop } from '../one-stop.ts';
import { fabricView } from './fabric-state.ts';

interface ClothListProps {
  readonly project: Project;
  readonly sums: readonly FabricSum[];
  readonly open: string | null | undefined;
}

/** The fabrics as cloth, each with how many pieces it gives and how much of it to buy. */
export function ClothList({ project, sums, open }: ClothListProps) {
  usePictures();
  const bySum = new Map(sums.map((sum) => [sum.fabric, sum]));
  const bare = bySum.get(null);
  return (
    <ul ref={oneStop} className="cloths">
      {project.fabrics.map((fabric) => (
        <ClothRow
          key={fabric.id}
          project={project}
          fabric={fabric}
          sum={bySum.get(fabric.id)}
          isOpen={open === fabric.id}
        />
      ))}
      {bare && <ClothRow project={project} fabric={null} sum={bare} isOpen={open === null} />}
    </ul>
  );
}

interface ClothRowProps {
  readonly project: Project;
  readonly fabric: Fabric | null;
  readonly sum: FabricSum | undefined;
  readonly isOpen: boolean;
}

function ClothRow({ project, fabric, sum, isOpen }: ClothRowProps) {
  const pieces = sum?.pieces ?? 0;
  return (
    <li>
      <button
        type="button"
        className="cloth-row"
        aria-pressed={isOpen}
        onClick={() => fabricView.setState({ fabric: fabric?.id ?? null })}
      >
        <span
          className={`cloth-swatch ${fabric ? '' : 'cloth-swatch-none'}`}
          style={fabric ? swatchStyle(fabric) : undefined}
        />
        <span className="cloth-words">
          <span className="cloth-name">{fabric?.name ?? phrase('Without a fabric')}</span>
          <span className="cloth-uses">
            {pieces === 0
              ? phrase('not laid on any patch')
              : phrase('{pieces, plural, one {# piece} other {# pieces}}', { pieces })}
            {sum && sum.tooLarge > 0 && phrase(', too narrow for some')}
            {sum && sum.short > 0 && phrase(', a size falls short')}
          </span>
        </span>
        <span className="cloth-length">
          {sum && sum.length > 0 ? boughtWords(toBuy(sum.length, slackOf(project)), project.unit) : '–'}
        </span>
      </button>
    </li>
  );
}
