import { useStore } from 'zustand';
import { deleteChosen, light } from '../../board/board-acts.ts';
import { board } from '../../board/board-state.ts';
import type { Lit } from '../../board/draw/lit.ts';
import type { Block, Unit } from '../../document/project.ts';
import type { Chosen } from '../../editing/chosen.ts';
import { cornerName, cornerStory, edgeName, edgeStory } from '../../editing/whereabouts.ts';
import { capital, lengthWords, placeWords } from '../../editing/words.ts';
import { edgesOf } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { select } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { oneStop } from '../one-stop.ts';

/** A corner or an edge as its row shows it. */
interface Part {
  readonly id: string;
  readonly chosen: Extract<Chosen, { readonly kind: 'corner' | 'edge' }>;
  /** As it is read aloud. */
  readonly story: string;
  readonly name: string;
  readonly detail: string;
  /** What is lit while it is pointed at. */
  readonly lit: Lit;
}

/** Each corner, and the edge that begins there. */
function partsOf(block: Block, unit: Unit): readonly Part[] {
  const edges = edgesOf(block.outline);
  return edges.flatMap((edge, index): readonly Part[] => [
    {
      id: `corner ${index}`,
      chosen: { kind: 'corner', corner: index },
      story: cornerStory(block, index, unit),
      name: cornerName(block, index),
      detail: placeWords(edge[0], unit),
      lit: { kind: 'outline', lines: [], spots: [edge[0]] },
    },
    {
      id: `edge ${index}`,
      chosen: { kind: 'edge', edge: index },
      story: edgeStory(block, index, unit),
      name: edgeName(block, index),
      detail: phrase('{value} long', { value: lengthWords(...edge, unit) }),
      lit: { kind: 'outline', lines: [edge], spots: [] },
    },
  ]);
}

/** Corners and edges of the outline in turn; choosing one does what a press on it does on the board. */
export function OutlineRows({ block }: { readonly block: Block }) {
  const unit = useStore(session, (state) => state.project.unit);
  return (
    <ul ref={oneStop} className="rows">
      {partsOf(block, unit).map((part) => (
        <OutlineRow key={part.id} part={part} />
      ))}
    </ul>
  );
}

function OutlineRow({ part }: { readonly part: Part }) {
  const { chosen } = part;
  const isChosen = useStore(board, ({ chosen: now }) =>
    chosen.kind === 'corner'
      ? now?.kind === 'corner' && now.corner === chosen.corner
      : now?.kind === 'edge' && now.edge === chosen.edge,
  );
  const choose = (): void => {
    select([]);
    board.setState({ chosen });
  };
  const lightUp = (): void => light(part.lit);
  return (
    <li className="row">
      <button
        type="button"
        className="row-choose"
        aria-label={capital(part.story)}
        aria-pressed={isChosen}
        onClick={choose}
        onKeyDown={(event) => {
          if (event.key !== 'Delete' || chosen.kind !== 'corner') return;
          event.preventDefault();
          event.stopPropagation();
          choose();
          deleteChosen();
        }}
        onPointerEnter={lightUp}
        onPointerLeave={() => light(null)}
        onFocus={lightUp}
        onBlur={() => light(null)}
      >
        <span>{capital(part.name)}</span>
        <span className="soft">{part.detail}</span>
      </button>
    </li>
  );
}
