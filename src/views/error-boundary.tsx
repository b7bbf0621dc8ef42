import { Component, type ReactNode } from 'react';
import { phrase } from '../words/phrase.ts';
import { cancelPreview, goTo, select } from '../workspace/actions.ts';
import { closeDialog } from '../workspace/dialogs.ts';
import { saveToFile } from '../workspace/files.ts';
import { session } from '../workspace/session.ts';
import { closeWindowDialog, openWindowDialog } from './window-dialog.ts';

interface State {
  readonly trouble: Error | null;
}

/**
 * When the screen itself fails, the work is still in the session and is never changed from here: what was open is
 * closed and the screen tried again, or another place or an earlier state gone to.
 */
export class ErrorBoundary extends Component<{ readonly children: ReactNode }, State> {
  override state: State = { trouble: null };

  static getDerivedStateFromError(trouble: unknown): State {
    return { trouble: trouble instanceof Error ? trouble : new Error(String(trouble)) };
  }

  override render() {
    const { trouble } = this.state;
    if (trouble === null) return this.props.children;
    const after = (act: () => void) => (): void => {
      closeAll();
      act();
      this.setState({ trouble: null });
    };
    const isOnBoard = session.getState().place === 'block';
    return (
      <main className="failed">
        <div className="failed-card" role="alert">
          <h1>{phrase('This screen could not be shown')}</h1>
          <p>
            {phrase(
              'Your work is all here, with its history. Nothing has been taken back. Save it to a file first.',
            )}
          </p>
          <div className="buttons">
            <button type="button" className="button button-main" onClick={saveToFile}>
              {phrase('Save to a file')}
            </button>
            <button type="button" className="button" onClick={after(() => undefined)}>
              {phrase('Close what was open and try again')}
            </button>
            <button
              type="button"
              className="button"
              onClick={after(() => goTo(isOnBoard ? 'paper' : 'block'))}
            >
              {isOnBoard ? phrase('Go to Paper') : phrase('Go to Block')}
            </button>
            <button type="button" className="button" onClick={after(() => openWindowDialog('projects'))}>
              {phrase('Projects…')}
            </button>
          </div>
          <p className="soft">{phrase('What the browser said: {message}', { message: trouble.message })}</p>
        </div>
      </main>
    );
  }
}

function closeAll(): void {
  cancelPreview();
  select([]);
  closeDialog();
  closeWindowDialog();
}
