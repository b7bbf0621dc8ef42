import { type ComponentType, useEffect, useState } from 'react';
import { phrase } from '../words/phrase.ts';
import { say } from '../workspace/actions.ts';
import { firstScreen } from '../workspace/first-screen.ts';

interface Closable {
  readonly onClose: () => void;
}

/**
 * A dialog whose program is fetched once the first screen stands and the machine is idle, or when it is opened before:
 * what is loaded exports it by default. Where it does not come, that is said, the dialog counts as closed, and the next
 * press tries again.
 */
export function lazyDialog<Props extends Closable>(
  load: () => Promise<{ readonly default: ComponentType<Props> }>,
): ComponentType<Props> {
  let loaded: ComponentType<Props> | null = null;
  const fetched = async (): Promise<void> => {
    loaded = (await load()).default;
  };
  // Who opens it with a key goes on typing at once: it is there by then.
  void firstScreen.then(() =>
    (window.requestIdleCallback ?? window.setTimeout)(() => void fetched().catch(() => undefined)),
  );
  // biome-ignore lint/correctness/noComponentHookFactories: made once for each dialog, where its file begins.
  return function LazyDialog(props: Props) {
    const [Loaded, setLoaded] = useState(() => loaded);
    const { onClose } = props;
    // biome-ignore lint/correctness/useExhaustiveDependencies: asked for once, however it is drawn again meanwhile.
    useEffect(() => {
      if (loaded !== null) return;
      let isOpen = true;
      fetched().then(
        () => {
          if (isOpen) setLoaded(() => loaded);
        },
        () => {
          if (!isOpen) return;
          say('trouble', phrase('This dialog could not be loaded. Try again, or reload the page.'));
          onClose();
        },
      );
      return () => {
        isOpen = false;
      };
    }, []);
    return Loaded === null ? null : <Loaded {...props} />;
  };
}
