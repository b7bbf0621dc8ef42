import { useEffect, useRef, useState } from 'react';
import { notImported } from '../../workspace/bring-in.ts';
import {
  type DrawingReader,
  type DrawingWish,
  drawingReader,
  type Understood,
} from '../../workspace/drawing-client.ts';

interface ReadDrawing {
  /** What was understood last; null until something is. */
  readonly understood: Understood | null;
  /** How much of the file has been read while the newest wish is worked on, 0 to 1; null when all is done. */
  readonly share: number | null;
}

/**
 * A drawing, read in a worker as it is wished. What cannot be used, and a worker that fails, is said in a notice, and
 * the dialog closed; closed before, the reading stops.
 */
export function useDrawing(
  fileName: string,
  text: string,
  wish: DrawingWish,
  onClose: () => void,
): ReadDrawing {
  const [read, setRead] = useState<ReadDrawing>({ understood: null, share: 0 });
  const reader = useRef<DrawingReader | null>(null);
  useEffect(() => {
    const own = drawingReader(text);
    reader.current = own;
    return own.stop;
  }, [text]);
  const wished = JSON.stringify(wish);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the wish is told by its text.
  useEffect(() => {
    let isWanted = true;
    const give = (understood: Understood | null, share: number | null): void => {
      if (isWanted) setRead((before) => ({ understood: understood ?? before.understood, share }));
    };
    const refuse = (reason: string): void => {
      if (!isWanted) return;
      notImported(fileName, reason);
      onClose();
    };
    give(null, 0);
    reader
      .current!.understand(wish, (share) => give(null, share))
      .then(
        (answer) => {
          if (answer?.ok) give(answer.understood, null);
          else if (answer !== null) refuse(answer.error);
        },
        (failure: Error) => refuse(failure.message),
      );
    return () => {
      isWanted = false;
    };
  }, [wished, text]);
  return read;
}
