import { type ComponentType, useEffect, useState } from 'react';
import { phrase } from '../words/phrase.ts';
import { say } from '../workspace/actions.ts';

interface Closable {
  readonly onClose: () => void;
}

/**
 * A dialog whose program is fetched when it is first opened: what is loaded exports it by default. Where it does not
 * come, that is said, the dialog counts as closed, and the next press tries again.
 */
export function lazyDialog<Props extends Closable>(
  load: () => Promise<{ readonly default: ComponentType<Props> }>,
): ComponentType<Props> {
  let loaded: ComponentType<Props> | null = null;
  // biome-ignore lint/correctness/noComponentHookFactories: made once for each dialog, where its file begins.
  return function LazyDialog(props: Props) {
    const [Loaded, setLoaded] = useState(() => loaded);
    const { onClose } = props;
    // biome-ignore lint/correctness/useExhaustiveDependencies: asked for once, however it is drawn again meanwhile.
    useEffect(() => {
      if (loaded !== null) return;
      let isOpen = true;
      load().then(
        (program) => {
          loaded = program.default;
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
