import { useMemo } from 'react';
import { cuttingRulesOf } from '../../cutting/project-cutting.ts';
import { lengthOfStrips } from '../../cutting/strips/cloth.ts';
import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import { clothLength } from '../../quilt/words.ts';
import { cutsOfRound } from '../../rounds/round-cuts.ts';
import { cutWords, fabricName, patchCount } from '../../rounds/words.ts';
import { isCut, setCut } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { noteSewn } from '../../workspace/sewing.ts';
import { Icon } from '../icons.tsx';
import { Phrase } from '../phrase.tsx';

interface CutListProps {
  readonly project: Project;
  readonly work: Work;
  readonly round: number;
}

/** What is cut for a round in one go: sizes, how often, and how they lie in strips across the cloth. */
export function CutList({ project, work, round }: CutListProps) {
  const { fabric: id } = work.rounds[round]!;
  const fabric = project.fabrics.find((one) => one.id === id);
  const cloth = useMemo(
    () => ({
      usableWidth: fabric?.width ?? cuttingRulesOf(project).usableWidth,
      isDirectional: fabric?.directional === true,
    }),
    [fabric, project],
  );
  const { sizes, strips, unknown } = useMemo(() => cutsOfRound(work, round, cloth), [work, round, cloth]);
  const { unit } = project;
  const done = isCut(work, round);
  if (sizes.length === 0) return null;
  const length = lengthOfStrips(strips);
  const cuts = sizes.reduce((sum, size) => sum + size.count, 0);
  return (
    <details className="sew-cuts" open={work.stages?.includes('cut') && !done}>
      <summary>
        <Icon name="chevron" size={16} />
        <span>
          {strips.length > 0 ? (
            <Phrase
              text="<b>Cut {cuts, plural, one {# piece} other {# pieces}}</b> from {strips, plural, one {# strip} other {# strips}}, {length} in all"
              values={{ cuts, strips: strips.length, length: clothLength(length, unit) }}
            />
          ) : (
            <Phrase text="<b>Cut {cuts, plural, one {# piece} other {# pieces}}</b>" values={{ cuts }} />
          )}
          {done && (
            <span className="sew-done-word">
              {' '}
              <Icon name="good" size={16} /> {phrase('[[of pieces: done]] cut')}
            </span>
          )}
        </span>
      </summary>
      <div className="sew-cuts-columns">
        <table className="sew-sizes">
          <caption className="only-heard">
            {phrase('Pieces to cut from {fabric}', { fabric: fabricName(project, id) })}
          </caption>
          <thead>
            <tr>
              <th scope="col">{phrase('[[column: how many cuts]] Cut')}</th>
              <th scope="col">{phrase('Size')}</th>
              <th scope="col">{phrase('[[column: patches]] For')}</th>
            </tr>
          </thead>
          <tbody>
            {sizes.map(({ cut, count: times, patches }) => (
              <tr key={`${cut.kind} ${cut.width} ${cut.height}`}>
                <td>{times}</td>
                <td>{cutWords(cut, unit)}</td>
                <td>{patchCount(patches)}</td>
              </tr>
            ))}
          </tbody>
        </table>
        {strips.length > 0 && (
          <figure className="sew-strips">
            <svg
              viewBox={`-0.1 -0.1 ${cloth.usableWidth + 0.2} ${length + 0.2}`}
              role="img"
              aria-label={phrase(
                '{n, plural, one {# strip} other {# strips}} across {width} of cloth, to scale',
                {
                  n: strips.length,
                  width: clothLength(cloth.usableWidth, unit),
                },
              )}
            >
              {strips.map(({ height, cuts: laid }, k) => {
                const y = lengthOfStrips(strips.slice(0, k));
                let x = 0;
                return (
                  // biome-ignore lint/suspicious/noArrayIndexKey: strips are known by their order.
                  <g key={k}>
                    <rect x={0} y={y} width={cloth.usableWidth} height={height} className="sew-strip" />
                    {laid.map((one, n) => {
                      const left = x;
                      x += one.width;
                      return (
                        <rect
                          // biome-ignore lint/suspicious/noArrayIndexKey: cuts are known by their order.
                          key={n}
                          x={left}
                          y={y}
                          width={one.width}
                          height={one.height}
                          style={{ fill: fabric?.color }}
                          className="sew-strip-cut"
                        />
                      );
                    })}
                  </g>
                );
              })}
            </svg>
            <figcaption className="sew-soft">
              {phrase('Strips across {width}: {heights} high', {
                width: clothLength(cloth.usableWidth, unit),
                heights: strips.map(({ height }) => clothLength(height, unit)).join(', '),
              })}
            </figcaption>
          </figure>
        )}
      </div>
      {unknown > 0 && (
        <p className="sew-soft">
          {phrase(
            '{n, plural, one {# patch more was} other {# patches more were}} taken into work without a size.',
            { n: unknown },
          )}
        </p>
      )}
      <p className="sew-soft">{phrase('Close the cutter after every cut, and cut away from your hands.')}</p>
      <button
        type="button"
        className="button sew-big"
        aria-pressed={done}
        onClick={() => noteSewn((before) => setCut(before, round, !done))}
      >
        <Icon name={done ? 'undo' : 'good'} />{' '}
        {done ? phrase('Not cut after all') : phrase('All pieces are cut')}
      </button>
    </details>
  );
}
