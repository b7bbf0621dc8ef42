import { useState } from 'react';
import { fileNameFor } from '../../document/file-name.ts';
import { say } from '../../workspace/actions.ts';
import { download } from '../../workspace/files.ts';
import { makePdf, printPdf, stopPdf } from '../../workspace/pdf-client.ts';

interface PrintActsProps {
  readonly projectName: string;
  /** Nothing to print, or the sheets on show are not yet the ones chosen. */
  readonly isDisabled: boolean;
}

type Doing =
  | { readonly kind: 'idle' }
  | { readonly kind: 'writing'; readonly done: number; readonly of: number };

const inWords = (count: number): string => count.toLocaleString('en');

/** Download and print, with progress and a way to stop. */
export function PrintActs({ projectName, isDisabled }: PrintActsProps) {
  const [doing, setDoing] = useState<Doing>({ kind: 'idle' });
  const isWriting = doing.kind === 'writing';

  const write = async (then: (pdf: Blob) => void): Promise<void> => {
    if (isDisabled || isWriting) return;
    setDoing({ kind: 'writing', done: 0, of: 0 });
    try {
      const pdf = await makePdf(projectName, (done, of) => setDoing({ kind: 'writing', done, of }));
      if (pdf) then(pdf);
    } catch (thrown) {
      say('trouble', `The PDF was not written. ${thrown instanceof Error ? thrown.message : String(thrown)}`);
    } finally {
      setDoing({ kind: 'idle' });
    }
  };

  const save = (pdf: Blob): void => {
    const name = fileNameFor(projectName, '.pdf');
    download(name, pdf);
    say(
      'done',
      `The sheets are on their way to your downloads as ‘${name}’. Print them at actual size, 100 %.`,
    );
  };

  return (
    <div className="paper-acts">
      <div className="buttons">
        <button
          type="button"
          className="button button-main"
          aria-disabled={isDisabled || isWriting}
          onClick={() => void write(save)}
        >
          Download PDF
        </button>
        <button
          type="button"
          className="button"
          aria-disabled={isDisabled || isWriting}
          onClick={() => void write(printPdf)}
        >
          Print …
        </button>
      </div>
      <p className="paper-progress" role="status">
        {doing.kind === 'writing' &&
          (doing.of > 0 ? `Writing sheet ${inWords(doing.done + 1)} of ${inWords(doing.of)} …` : 'Writing …')}
      </p>
      {isWriting && (
        <button type="button" className="paper-link" onClick={stopPdf}>
          Stop
        </button>
      )}
    </div>
  );
}
