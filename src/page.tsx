import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './views/app.tsx';
import { loadScreen } from './views/place-view.tsx';
import { placeNamed } from './views/places.ts';
import { firstScreen } from './workspace/first-screen.ts';
import { startPlanning } from './workspace/making.ts';
import { startOffline } from './workspace/new-version.ts';
import { startPrinter } from './workspace/pdf-client.ts';
import { session } from './workspace/session.ts';
import { startSession } from './workspace/start.ts';

const root = document.getElementById('root');
if (root === null) throw new Error('The page has no place for the app.');

/** The work is open, and the screen of its place is there, or known to fail. */
async function start(): Promise<void> {
  await startSession();
  await loadScreen(placeNamed(session.getState().place)).catch(() => undefined);
}

createRoot(root).render(
  <StrictMode>
    <App started={start()} />
  </StrictMode>,
);

void firstScreen.then(() => {
  startPlanning();
  startPrinter();
  if (import.meta.env.PROD) void startOffline();
});
