import { Component, type ReactNode } from 'react';
import { undo } from '../workspace/actions.ts';
import { saveToFile } from '../workspace/files.ts';

interface State {
  readonly trouble: Error | null;
}

/**
 * When the screen itself fails: the work is still in the session, so it can be saved, the last step taken back,
 * and the screen tried again.
 */
export class ErrorBoundary extends Component<{ readonly children: ReactNode }, State> {
  override state: State = { trouble: null };

  static getDerivedStateFromError(trouble: unknown): State {
    return { trouble: trouble instanceof Error ? trouble : new Error(String(trouble)) };
  }

  override render() {
    const { trouble } = this.state;
    if (trouble === null) return this.props.children;
    const again = (): void => this.setState({ trouble: null });
    return (
      <main className="failed">
        <div className="failed-card" role="alert">
          <h1>The screen could not be drawn</h1>
          <p>
            Your work is not lost: it is still here as it was after the last step. Save it to a file first.
          </p>
          <div className="buttons">
            <button type="button" className="button button-main" onClick={saveToFile}>
              Save to a file
            </button>
            <button
              type="button"
              className="button"
              onClick={() => {
                undo();
                again();
              }}
            >
              Undo the last step and try again
            </button>
            <button type="button" className="button" onClick={again}>
              Try again
            </button>
          </div>
          <p className="soft">What the browser said: {trouble.message}</p>
        </div>
      </main>
    );
  }
}
