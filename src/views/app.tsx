import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { session } from '../workspace/session.ts';
import { BlockPlace } from './block/block-place.tsx';
import { ErrorBoundary } from './error-boundary.tsx';
import { FileDrop } from './file-drop.tsx';
import { listenToKeys } from './keys.ts';
import { NoticeLine } from './notice-line.tsx';
import { Palette } from './palette.tsx';
import { PaperPlace } from './paper/paper-place.tsx';
import { followTheme } from './theme.ts';
import { TopBar } from './top-bar.tsx';

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

  return (
    <ErrorBoundary>
      <div className="app">
        {isStarted ? (
          <>
            <TopBar />
            <CurrentPlace />
          </>
        ) : (
          <Waiting text="Opening your work …" />
        )}
        <NoticeLine />
        <Palette />
        <FileDrop />
      </div>
    </ErrorBoundary>
  );
}

function CurrentPlace() {
  const place = useStore(session, (state) => state.place);
  return place === 'block' ? <BlockPlace /> : <PaperPlace />;
}

function Waiting({ text }: { readonly text: string }) {
  return (
    <main className="waiting" aria-busy="true">
      <p role="status">{text}</p>
    </main>
  );
}
