import { useState } from 'react';
import { fileNameFor } from '../../document/file-name.ts';
import { numeral } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import { say } from '../../workspace/actions.ts';
import { download } from '../../workspace/files.ts';
import { makePdf, makeZip, printPdf, stopPdf, type ZipKind } from '../../workspace/pdf-client.ts';
import { Folded } from '../folded.tsx';

interface PrintActsProps {
  readonly projectName: string;
  /** Nothing to print, or the sheets on show are not yet the ones chosen. */
  readonly isDisabled: boolean;
}

type Doing =
  | { readonly kind: 'idle' }
  | {
      readonly kind: 'writing';
      readonly what: 'sheet' | 'block';
      readonly done: number;
      readonly of: number;
    };

/** Files beside the one PDF: what a button says, and how the file's name ends. */
const ARCHIVES: readonly (readonly [ZipKind, label: string, ending: string])[] = [
  ['pdf-a-block', phrase('A PDF for each block'), phrase(', one PDF per block.zip')],
  ['svg-a-sheet', phrase('An SVG for each sheet'), phrase(', one SVG per sheet.zip')],
  ['png-a-sheet', phrase('A PNG for each sheet'), phrase(', one PNG per sheet.zip')],
];

/** Download and print, with progress and a way to stop. */
export function PrintActs({ projectName, isDisabled }: PrintActsProps) {
  const [doing, setDoing] = useState<Doing>({ kind: 'idle' });
  const isWriting = doing.kind === 'writing';

  const write = async (
    make: (onStep: (done: number, of: number) => void) => Promise<Blob | null>,
    then: (file: Blob) => void,
    what: 'sheet' | 'block' = 'sheet',
  ): Promise<void> => {
    if (isDisabled || isWriting) return;
    setDoing({ kind: 'writing', what, done: 0, of: 0 });
    // Steps come by a channel of their own: one may arrive after the file has, and must not begin it anew.
    let isOver = false;
    try {
      const file = await make((done, of) => {
        if (!isOver) setDoing({ kind: 'writing', what, done, of });
      });
      if (file) then(file);
    } catch (thrown) {
      say(
        'trouble',
        phrase('The file was not written. {message}', {
          message: thrown instanceof Error ? thrown.message : String(thrown),
        }),
      );
    } finally {
      isOver = true;
      setDoing({ kind: 'idle' });
    }
  };

  const writePdf = (then: (pdf: Blob) => void): void =>
    void write((onStep) => makePdf(projectName, onStep), then);

  const writeArchive = (kind: ZipKind, ending: string): void =>
    void write(
      (onStep) => makeZip(kind, onStep),
      (archive) => save(archive, ending),
      kind === 'pdf-a-block' ? 'block' : 'sheet',
    );

  const save = (file: Blob, ending = '.pdf'): void => {
    const name = fileNameFor(projectName, ending);
    download(name, file);
    say(
      'done',
      phrase('The sheets are on their way to your downloads as ‘{name}’. Print them at actual size, 100%.', {
        name,
      }),
    );
  };

  return (
    <div className="paper-acts">
      <div className="buttons">
        <button
          type="button"
          className="button button-main"
          aria-disabled={isDisabled || isWriting}
          onClick={() => writePdf(save)}
        >
          {phrase('Download PDF')}
        </button>
        <button
          type="button"
          className="button"
          aria-disabled={isDisabled || isWriting}
          onClick={() => writePdf(printPdf)}
        >
          {phrase('Print …')}
        </button>
      </div>
      <p className="paper-progress" role="status">
        {doing.kind === 'writing' &&
          (doing.of > 0
            ? phrase('Writing {what} {done} of {of} …', {
                what: doing.what,
                done: numeral(doing.done + 1),
                of: numeral(doing.of),
              })
            : phrase('Writing …'))}
      </p>
      {isWriting && (
        <button type="button" className="paper-link" onClick={stopPdf}>
          {phrase('Stop')}
        </button>
      )}
      <Folded title={phrase('Other files')}>
        <p className="paper-hint">
          {phrase(
            'Each as one zip archive. In the SVG files a cutting machine finds three groups of lines: cut, score and draw.',
          )}
        </p>
        <div className="buttons">
          {ARCHIVES.map(([kind, label, ending]) => (
            <button
              key={kind}
              type="button"
              className="button"
              aria-disabled={isDisabled || isWriting}
              onClick={() => writeArchive(kind, ending)}
            >
              {label}
            </button>
          ))}
        </div>
      </Folded>
    </div>
  );
}
