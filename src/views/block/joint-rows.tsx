import { useStore } from 'zustand';
import { light } from '../../board/board-acts.ts';
import { announce, board } from '../../board/board-state.ts';
import { bringIntoView } from '../../board/camera-acts.ts';
import type { Block } from '../../document/project.ts';
import { type Joint, jointName, jointStory, jointsOf } from '../../editing/whereabouts.ts';
import { placeWords } from '../../editing/words.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { oneStop } from '../one-stop.ts';

/** Every place where cuts meet, told by what meets there; choosing one puts the crosshair on it. */
export function JointRows({ block }: { readonly block: Block }) {
  const unit = useStore(session, (state) => state.project.unit);
  const joints = jointsOf(block);
  if (joints.length === 0) return <p className="soft">{phrase('No lines meet yet.')}</p>;
  const goTo = ({ at }: Joint): void => {
    const words = placeWords(at, unit);
    board.setState({ crosshair: { at, words } });
    bringIntoView(at);
    announce(words);
    document.querySelector<HTMLElement>('.drawing-board')?.focus();
  };
  return (
    <ul ref={oneStop} className="rows">
      {joints.map((joint) => {
        return (
          <li key={joint.at.join()} className="row">
            <button
              type="button"
              className="row-choose"
              aria-label={jointStory(block, joint, unit)}
              onClick={() => goTo(joint)}
              onPointerEnter={() => light({ kind: 'cuts', ids: joint.cuts })}
              onPointerLeave={() => light(null)}
              onFocus={() => light({ kind: 'cuts', ids: joint.cuts })}
              onBlur={() => light(null)}
            >
              <span>{jointName(block, joint, unit)}</span>
              <span className="soft">{placeWords(joint.at, unit)}</span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
