import { useState } from 'react';
import { checkFileSize, openFile } from '../../document/file.ts';
import type { Work } from '../../document/work.ts';
import { isSameWork, type Merged, mergeWork } from '../../rounds/merge-work.ts';
import { paperName } from '../../rounds/words.ts';
import { phrase } from '../../words/phrase.ts';
import { takeMerged } from '../../workspace/sewing.ts';
import { Dialog } from '../dialog.tsx';
import { FileButton } from '../file-button.tsx';

type Read = { readonly merged: Merged } | { readonly trouble: string };

/** Papers named on either side; the rest are counted. */
const MOST_NAMED = 12;

/** Two records of one work made one, as when it went on a tablet and on a computer: looked at before it is done. */
export function MergeDialog({ work, onClose }: { readonly work: Work; readonly onClose: () => void }) {
  const [read, setRead] = useState<Read | null>(null);
  const merged = read !== null && 'merged' in read ? read.merged : null;
  return (
    <Dialog title={phrase('Merge another record of this work')} onClose={onClose}>
      <p>
        {phrase(
          'Did the work go on elsewhere, with a file saved from here? Choose the file it was saved to. Of every paper the record that has come further stands.',
        )}
      </p>
      <div className="buttons">
        <FileButton
          label={phrase('Choose a file …')}
          accept=".json,application/json"
          takesFocus
          onFile={(file) => void readFile(file, work).then(setRead)}
        />
      </div>
      {read !== null && 'trouble' in read && <p role="alert">{read.trouble}</p>}
      {merged && (
        <div role="status">
          <p>
            {merged.fromThere.length === 0 && merged.steps === 0
              ? phrase('The file knows nothing that is not here.')
              : phrase(
                  'From the file: {papers, plural, one {# paper} other {# papers}} further, {steps, plural, one {# joining step} other {# joining steps}} more.',
                  { papers: merged.fromThere.length, steps: merged.steps },
                )}
          </p>
          <Named work={work} papers={merged.fromThere} />
          <p>
            {phrase('{n, plural, one {# paper is} other {# papers are}} further here and will stay so.', {
              n: merged.fromHere.length,
            })}
          </p>
          <Named work={work} papers={merged.fromHere} />
        </div>
      )}
      <div className="buttons">
        <button type="button" className="button" onClick={onClose}>
          {phrase('Close')}
        </button>
        <button
          type="button"
          className="button button-main"
          disabled={!merged || (merged.fromThere.length === 0 && merged.steps === 0)}
          onClick={() => {
            takeMerged(merged!.work);
            onClose();
          }}
        >
          {phrase('[[verb]] Merge')}
        </button>
      </div>
    </Dialog>
  );
}

function Named({ work, papers }: { readonly work: Work; readonly papers: readonly string[] }) {
  if (papers.length === 0) return null;
  const named = papers.slice(0, MOST_NAMED).map((paper) => paperName(work, paper));
  const more = papers.length - named.length;
  return (
    <p className="sew-soft">
      {more > 0
        ? phrase('{papers}; and {more, number} more', { papers: named.join('; '), more })
        : named.join('; ')}
    </p>
  );
}

async function readFile(file: File, work: Work): Promise<Read> {
  const tooLarge = checkFileSize(file.size);
  if (tooLarge !== null) return { trouble: tooLarge.message };
  try {
    const opened = openFile(await file.text());
    if (!opened.ok) return { trouble: opened.error.message };
    const there = opened.project.work;
    if (there === undefined)
      return { trouble: phrase('Nothing is in work in ‘{file}’.', { file: file.name }) };
    if (!isSameWork(work, there))
      return {
        trouble: phrase(
          '‘{file}’ holds another work: other papers, or other rounds. Open it as a project of its own.',
          { file: file.name },
        ),
      };
    return { merged: mergeWork(work, there) };
  } catch {
    return { trouble: phrase('‘{file}’ could not be read.', { file: file.name }) };
  }
}
