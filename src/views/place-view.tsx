import { Component, type ComponentType, lazy, type ReactNode, Suspense, useEffect } from 'react';
import { useStore } from 'zustand';
import { phrase } from '../words/phrase.ts';
import { saveToFile } from '../workspace/files.ts';
import { tellFirstScreen } from '../workspace/first-screen.ts';
import { session } from '../workspace/session.ts';
import { giveKeyboard } from './keyboard-home.ts';
import type { Place } from './places.ts';
import { Waiting } from './waiting.tsx';

/** A screen has not come over the network. All other trouble goes on to who knows it. */
class NotLoaded extends Error {}

/** Screens asked for, by the name of their place; a part of one that failed once is not asked for again. */
const asked = new Map<string, Promise<{ readonly default: ComponentType }>>();
/** Those that have come, and those that a place waits for. */
const screens = new Map<string, ComponentType>();

/** Fetches the screen of a place before it is opened. */
export function loadScreen({ name, load }: Place): Promise<{ readonly default: ComponentType }> {
  const known = asked.get(name);
  if (known !== undefined) return known;
  const coming = load().catch((cause: unknown) => {
    throw new NotLoaded(phrase('{name} could not be loaded', { name }), { cause });
  });
  coming.then(
    // One that is waited for stays as it is: another would begin the place anew.
    (screen) => screens.has(name) || screens.set(name, screen.default),
    // It is said when the place is opened.
    () => undefined,
  );
  asked.set(name, coming);
  return coming;
}

function screenOf(place: Place): ComponentType {
  const known = screens.get(place.name);
  if (known !== undefined) return known;
  const screen = lazy(() => loadScreen(place));
  screens.set(place.name, screen);
  return screen;
}

/** The screen of a place: fetched when it is first opened, with a word to read meanwhile and when that fails. */
export function PlaceView({ place }: { readonly place: Place }) {
  const Screen = screenOf(place);
  // Nothing that a screen has open or half done is taken over into another project.
  const opening = useStore(session, (state) => state.opening);
  return (
    <LoadBoundary key={`${place.name} ${opening}`} label={place.label}>
      <Suspense fallback={<Waiting text={phrase('Opening {label} …', { label: place.label })} />}>
        <Screen />
        <Told />
      </Suspense>
    </LoadBoundary>
  );
}

/** Beside a screen that has come: tells that there is one, and gives it the keyboard where nothing else has it. */
function Told() {
  useEffect(() => {
    tellFirstScreen();
    giveKeyboard();
  }, []);
  return null;
}

interface LoadBoundaryProps {
  readonly label: string;
  readonly children: ReactNode;
}

class LoadBoundary extends Component<LoadBoundaryProps, { readonly trouble: unknown }> {
  override state: { readonly trouble: unknown } = { trouble: null };

  static getDerivedStateFromError(trouble: unknown): { readonly trouble: unknown } {
    return { trouble };
  }

  override componentDidCatch(): void {
    tellFirstScreen();
  }

  override render() {
    const { trouble } = this.state;
    if (trouble === null) return this.props.children;
    if (!(trouble instanceof NotLoaded)) throw trouble;
    return (
      <main className="failed failed-place">
        <div className="failed-card" role="alert">
          <h2>{phrase('{label} could not be loaded', { label: this.props.label })}</h2>
          <p>
            {phrase(
              'Your work is all here; only this screen has not come over the network. The other places go on working.',
            )}
          </p>
          <div className="buttons">
            <button type="button" className="button button-main" onClick={() => window.location.reload()}>
              {phrase('Reload the page')}
            </button>
            <button type="button" className="button" onClick={saveToFile}>
              {phrase('Save to a file')}
            </button>
          </div>
        </div>
      </main>
    );
  }
}
