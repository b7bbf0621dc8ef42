import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './views/app.tsx';
import { firstScreen } from './workspace/first-screen.ts';
import { startPlanning } from './workspace/making.ts';
import { startOffline } from './workspace/new-version.ts';
import { startPrinter } from './workspace/pdf-client.ts';
import { startSession } from './workspace/start.ts';

const root = document.getElementById('root');
if (root === null) throw new Error('The page has no place for the app.');

createRoot(root).render(
  <StrictMode>
    <App started={startSession()} />
  </StrictMode>,
);

void firstScreen.then(() => {
  startPlanning();
  startPrinter();
  if (import.meta.env.PROD) void startOffline();
});
