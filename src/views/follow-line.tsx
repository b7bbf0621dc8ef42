import { useStore } from 'zustand';
import { phrase } from '../words/phrase.ts';
import { takeOver } from '../workspace/autosave.ts';
import { keeping } from '../workspace/keep/keeping.ts';
import { leaveNewVersion, newVersion, takeNewVersion } from '../workspace/new-version.ts';

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
              ? phrase(
                  'Another tab saves this project. Changes made here are kept apart, among its earlier states.',
                )
              : phrase(
                  'This project is open in another tab, which saves it. What is done there is shown here.',
                )}
          </span>
          <button type="button" className="button" onClick={() => void takeOver()}>
            {phrase('Edit here')}
          </button>
        </div>
      )}
    </div>
  );
}

/** Offers a newer version of the app; nothing happens unless it is asked for. */
export function NewVersionLine() {
  const isWaiting = useStore(newVersion, (state) => state.waiting !== null);
  return (
    <div role="status">
      {isWaiting && (
        <div className="follow-line new-version">
          <span>{phrase('A new version of Underpaper is ready.')}</span>
          <button type="button" className="button" onClick={() => void takeNewVersion()}>
            {phrase('Save and reload')}
          </button>
          <button type="button" className="button" onClick={leaveNewVersion}>
            {phrase('Not now')}
          </button>
        </div>
      )}
    </div>
  );
}
