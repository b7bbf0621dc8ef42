import { openFile } from '../document/file.ts';
import { phrase } from '../words/phrase.ts';
import { say } from './actions.ts';
import { startAutosave } from './autosave.ts';
import { openKeep } from './keep/keep.ts';
import { restore } from './keep/restore.ts';
import { freshSession, session } from './session.ts';

/** The project that a first visit opens on, beside the page. */
const DEMO_ADDRESS = './demo/harbour-sampler.underpaper.json';

/**
 * Begins the session: the work kept in this browser or, on a first visit, the demo project; then keeps the work
 * as it changes. Never rejects: trouble is said in a notice, and the work can begin all the same.
 */
export async function startSession(): Promise<void> {
  const keep = openKeep();
  const restored = await restore(keep);
  if (restored.kind !== 'restored') await openDemo();
  // Where the browser refuses, it is tried again: what cannot be read is never written over.
  if (restored.kind === 'restored') startAutosave(keep, window, restored);
  else startAutosave(keep);
  window.addEventListener('beforeunload', (leaving) => {
    const { save, history } = session.getState();
    if (save === 'not-saved' && history.past.length > 0) leaving.preventDefault();
  });
}

async function openDemo(): Promise<void> {
  try {
    const response = await fetch(DEMO_ADDRESS);
    if (!response.ok) throw new Error(`${response.status}`);
    const opened = openFile(await response.text());
    if (!opened.ok) throw new Error(opened.error.message);
    const { theme, keptAside, notice } = session.getState();
    session.setState({ ...freshSession(opened.project), theme, keptAside, notice });
  } catch {
    if (session.getState().notice === null) {
      say('trouble', phrase('The demo project could not be loaded; this is an empty project.'));
    }
  }
}
