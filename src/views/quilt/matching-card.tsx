import { useStore } from 'zustand';
import { moveSeamEnd } from '../../document/edit-seam-end.ts';
import { lieOf } from '../../document/place-polygon.ts';
import type { Project } from '../../document/project.ts';
import { isBlockPlace } from '../../document/quilt.ts';
import type { Point } from '../../geometry/point.ts';
import type { NearMiss, RimSpot } from '../../quilt/matching.ts';
import { clothLength } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { cancelPreview, edit, preview } from '../../workspace/actions.ts';
import { plansCome } from '../../workspace/plans.ts';
import { session } from '../../workspace/session.ts';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';
import { oneStop } from '../one-stop.ts';
import { quiltView } from './quilt-state.ts';
import { matchingShown } from './shown-matching.ts';
import { layoutOf, placeNumbers } from './shown-quilt.ts';

/** Near misses told at once. */
const MOST_TOLD = 8;

/** What meets on the joints between places, what all but meets, and where it gets thick. */
export function MatchingCard() {
  const project = useStore(session, (state) => state.project);
  useStore(plansCome);
  const matching = matchingShown(project);
  if (!matching) return null;
  const numbers = placeNumbers(project);
  const points = matching.pinned.flatMap((one) => one.points);
  const matches = points.filter(({ kind }) => kind === 'match').length;
  const junctions = points.filter(({ kind }) => kind === 'junction').length;
  const told = alike(matching.nearMisses, project);
  return (
    <section className="quilt-card" aria-labelledby="matching-title">
      <h2 id="matching-title" className="quilt-title">
        {phrase('Matching')}
      </h2>
      <p>
        {phrase(
          '{matches, plural, one {# match point} other {# match points}}, where seams of both sides meet; {junctions, plural, one {# spot} other {# spots}} where a seam of one side ends.',
          { matches, junctions },
        )}
        {matching.waiting.length > 0 &&
          phrase(' {waiting} blocks are still being worked out.', { waiting: matching.waiting.length })}
      </p>
      {matching.bulk.length > 0 && (
        <p className="quilt-sentence">
          <Icon name="caution" size={18} />
          {phrase(
            '{bulk, plural, one {At one spot} other {At # spots}} more than 8 seams come together, up to {seams}: press them open there.',
            { bulk: matching.bulk.length, seams: matching.bulk[0]!.seams },
          )}
        </p>
      )}
      {told.length > 0 && (
        <p className="quilt-sentence">
          <Icon name="caution" size={18} />
          {phrase(
            '{nearMisses, plural, one {One pair of seams all but meets} other {# pairs of seams all but meet}}: a small change brings them together.',
            { nearMisses: matching.nearMisses.length },
          )}
        </p>
      )}
      <ul ref={oneStop} className="quilt-misses">
        {told.slice(0, MOST_TOLD).map(({ miss, count }) => (
          <Miss
            key={`${miss.a.at} ${miss.b.at}`}
            miss={miss}
            count={count}
            project={project}
            numbers={numbers}
          />
        ))}
      </ul>
      {told.length > MOST_TOLD && (
        <Folded title={phrase('{told} more', { told: told.length - MOST_TOLD })}>
          <ul ref={oneStop} className="quilt-misses">
            {told.slice(MOST_TOLD).map(({ miss, count }) => (
              <Miss
                key={`${miss.a.at} ${miss.b.at}`}
                miss={miss}
                count={count}
                project={project}
                numbers={numbers}
              />
            ))}
          </ul>
        </Folded>
      )}
    </section>
  );
}

/** The same two seams of the same two blocks, wherever they lie side by side, are told once. */
function alike(misses: readonly NearMiss[], project: Project): { miss: NearMiss; count: number }[] {
  const { pieces } = layoutOf(project);
  const key = ({ piece, inBlock }: RimSpot): string => {
    const { place } = pieces[piece]!;
    return `${isBlockPlace(place) ? place.block : ''} ${inBlock}`;
  };
  const found = new Map<string, { miss: NearMiss; count: number }>();
  for (const miss of misses) {
    const id = [key(miss.a), key(miss.b)].sort().join(' | ');
    const known = found.get(id);
    if (known) known.count++;
    else found.set(id, { miss, count: 1 });
  }
  return [...found.values()];
}

interface MissProps {
  readonly miss: NearMiss;
  readonly count: number;
  readonly project: Project;
  readonly numbers: ReadonlyMap<string, number>;
}

function Miss({ miss, count, project, numbers }: MissProps) {
  const { pieces } = layoutOf(project);
  const { unit } = project;
  const placeOf = ({ piece }: RimSpot) => pieces[piece]!.place;
  const [a, b] = [placeOf(miss.a), placeOf(miss.b)];
  const light = (): void => quiltView.setState({ lit: [a.id, b.id] });
  const dark = (): void => {
    quiltView.setState({ lit: [] });
    cancelPreview();
  };
  const offer = (moved: RimSpot, to: RimSpot) => {
    const place = placeOf(moved);
    if (!isBlockPlace(place)) return null;
    const block = project.blocks.find(({ id }) => id === place.block)!;
    const target = inBlock(to.at, lieOf(block.outline, place.turn, place.mirrored, place.at));
    const change = (base: Project): Project => moveSeamEnd(base, block.id, moved.inBlock, target);
    if (change(project) === project) return null;
    return (
      <button
        type="button"
        className="button quilt-small-button"
        onPointerEnter={() => preview(change)}
        onPointerLeave={dark}
        onFocus={() => preview(change)}
        onBlur={dark}
        onClick={() => edit(phrase('Bring seams together'), change)}
      >
        {phrase('Move it in ‘{block}’', { block: block.name })}
      </button>
    );
  };
  return (
    <li onPointerEnter={light} onPointerLeave={dark}>
      <p>
        {phrase('{numbers} and {numbers2}: {distance} apart', {
          numbers: numbers.get(a.id),
          numbers2: numbers.get(b.id),
          distance: clothLength(miss.distance, unit),
        })}
        {count > 1 && phrase(', at {count} places', { count })}
      </p>
      <div className="buttons">
        {offer(miss.a, miss.b)}
        {offer(miss.b, miss.a)}
      </div>
    </li>
  );
}

/** The spot of the quilt as the block has it: the lie undone, which is a turn and perhaps a mirror image. */
function inBlock([x, y]: Point, { a, b, c, d, e, f }: ReturnType<typeof lieOf>): Point {
  const [dx, dy] = [x - e, y - f];
  const det = a * d - b * c;
  return [(d * dx - c * dy) / det, (a * dy - b * dx) / det];
}
