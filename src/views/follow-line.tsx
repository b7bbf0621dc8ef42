import { useStore } from 'zustand';
import { takeOver } from '../workspace/autosave.ts';
import { keeping } from '../workspace/keep/keeping.ts';

/** Says that another tab saves this project, as long as it does, and offers to save it here. */
export function FollowLine() {
  const isFollowing = useStore(keeping, (state) => state.isFollowing);
  const isApart = useStore(keeping, (state) => state.isApart);
  return (
    <div role="status">
      {isFollowing && (
        <div className="follow-line">
          <span>
            {isApart
              ? 'Another tab saves this project. Changes made here are kept apart, among its earlier states.'
              : 'This project is open in another tab, which saves it. What is done there is shown here.'}
          </span>
          <button type="button" className="button" onClick={() => void takeOver()}>
            Edit here
          </button>
        </div>
      )}
    </div>
  );
}
