import { useStore } from 'zustand';
import { board } from '../../board/board-state.ts';
import { bringIntoView } from '../../board/looking.ts';
import { type Joint, jointsOf, placeStory } from '../../board/whereabouts.ts';
import { cutName, placeWords } from '../../board/words.ts';
import { light, tell } from '../../board/working.ts';
import type { Block } from '../../document/project.ts';
import { session } from '../../workspace/session.ts';

/** Every place where cuts meet, told by what meets there; choosing one puts the crosshair on it. */
export function JointRows({ block }: { readonly block: Block }) {
  const unit = useStore(session, (state) => state.project.unit);
  const joints = jointsOf(block);
  if (joints.length === 0) return <p className="soft">No cuts meet yet.</p>;
  const goTo = ({ at }: Joint): void => {
    const words = placeWords(at, unit);
    board.setState({ crosshair: { at, words } });
    bringIntoView(at);
    tell(words);
    document.querySelector<HTMLElement>('.drawing-board')?.focus();
  };
  return (
    <ul className="rows">
      {joints.map((joint) => {
        const names = joint.cuts.map((id) => cutName(block.cuts, id));
        return (
          <li key={joint.at.join()} className="row">
            <button
              type="button"
              className="row-choose"
              onClick={() => goTo(joint)}
              onPointerEnter={() => light({ kind: 'cuts', ids: joint.cuts })}
              onPointerLeave={() => light(null)}
              onFocus={() => light({ kind: 'cuts', ids: joint.cuts })}
              onBlur={() => light(null)}
            >
              <span>
                {names.length === 1 ? `${names[0]}, ${placeStory(block, joint.at, unit)}` : names.join(', ')}
              </span>
              <span className="soft">{placeWords(joint.at, unit)}</span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
