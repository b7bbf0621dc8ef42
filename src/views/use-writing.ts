import { useState } from 'react';
import { fileNameFor } from '../document/file-name.ts';
import { phrase } from '../words/phrase.ts';
import { say } from '../workspace/actions.ts';
import { download } from '../workspace/files.ts';

/** Pages that are being written: what is said of how far it has come, null while nothing is. */
export interface Writing {
  readonly doing: string | null;
  /** Writes a file and hands it over under the project's name with this ending; says how it went. */
  readonly write: (
    project: string,
    ending: string,
    make: (onPage: (done: number, of: number) => void) => Promise<Blob | null>,
  ) => Promise<void>;
}

export function useWriting(): Writing {
  const [doing, setDoing] = useState<string | null>(null);
  return {
    doing,
    write: async (project, ending, make) => {
      if (doing !== null) return;
      setDoing(phrase('Writing …'));
      try {
        const file = await make((done, of) =>
          setDoing(phrase('Writing page {done} of {of} …', { done: done + 1, of })),
        );
        if (file) handOver(project, ending, file);
      } catch (thrown) {
        say(
          'trouble',
          phrase('The file was not written. {message}', {
            message: thrown instanceof Error ? thrown.message : String(thrown),
          }),
        );
      } finally {
        setDoing(null);
      }
    },
  };
}

/** Hands a file to the browser as a download, and says so. */
export function handOver(project: string, ending: string, file: Blob): void {
  const name = fileNameFor(project, ending);
  download(name, file);
  say('done', phrase('‘{name}’ is on its way to your downloads.', { name }));
}
