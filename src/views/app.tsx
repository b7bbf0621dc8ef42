import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { readCode } from '../document/coded-address.ts';
import { phrase } from '../words/phrase.ts';
import { goTo } from '../workspace/actions.ts';
import { session } from '../workspace/session.ts';
import { ErrorBoundary } from './error-boundary.tsx';
import { FileDrop } from './file-drop.tsx';
import { FollowLine, NewVersionLine } from './follow-line.tsx';
import { listenToKeys } from './keys.ts';
import { lazyDialog } from './lazy-dialog.tsx';
import { NoticeLine } from './notice-line.tsx';
import { Palette } from './palette.tsx';
import { PlaceView } from './place-view.tsx';
import { placeNamed } from './places.ts';
import { followTheme } from './theme.ts';
import { TopBar } from './top-bar.tsx';
import { Waiting } from './waiting.tsx';
import { closeWindowDialog, openWindowDialog, windowDialog } from './window-dialog.ts';

const EarlierDialog = lazyDialog(() => import('./projects/earlier-dialog.tsx'));
const ProjectsDialog = lazyDialog(() => import('./projects/projects-dialog.tsx'));
const ShareDialog = lazyDialog(() => import('./projects/share-dialog.tsx'));
const SharedDialog = lazyDialog(() => import('./projects/shared-dialog.tsx'));
const HelpDialog = lazyDialog(() => import('./help-dialog.tsx'));

interface AppProps {
  /** Settles when the kept work, or the demo, is open. */
  readonly started: Promise<void>;
}

/** The one window: the bar that is always in sight, and the place where the work is. */
export function App({ started }: AppProps) {
  const [isStarted, setStarted] = useState(false);
  useEffect(followTheme, []);
  useEffect(listenToKeys, []);
  useEffect(() => {
    void started.then(() => setStarted(true));
  }, [started]);
  useEffect(() => (isStarted ? followAddress() : undefined), [isStarted]);

  return (
    <ErrorBoundary>
      <div className="app">
        {isStarted ? (
          <>
            <div>
              <TopBar />
              <FollowLine />
              <NewVersionLine />
            </div>
            <CurrentPlace />
          </>
        ) : (
          <Waiting text={phrase('Opening your work …')} />
        )}
        <NoticeLine />
        <WindowDialogs />
        <FileDrop />
      </div>
    </ErrorBoundary>
  );
}

/** What a printed code, or a link to a whole project, holds stands after `#`: it is opened. Returns a stop function. */
function followAddress(): () => void {
  const follow = (): void => {
    if (readCode(location.hash) !== null) goTo('sew');
    // Its dialog takes it from the address, so that loading the page anew does not ask again.
    else if (location.hash.startsWith('#project=')) openWindowDialog('shared');
  };
  follow();
  addEventListener('hashchange', follow);
  return () => removeEventListener('hashchange', follow);
}

function WindowDialogs() {
  const open = useStore(windowDialog, (state) => state.open);
  switch (open) {
    case 'palette':
      return <Palette onClose={closeWindowDialog} />;
    case 'help':
      return <HelpDialog onClose={closeWindowDialog} />;
    case 'projects':
      return <ProjectsDialog onClose={closeWindowDialog} />;
    case 'earlier':
      return <EarlierDialog onClose={closeWindowDialog} />;
    case 'share':
      return <ShareDialog onClose={closeWindowDialog} />;
    case 'shared':
      return <SharedDialog onClose={closeWindowDialog} />;
    case null:
      return null;
  }
}

function CurrentPlace() {
  return <PlaceView place={useStore(session, (state) => placeNamed(state.place))} />;
}
