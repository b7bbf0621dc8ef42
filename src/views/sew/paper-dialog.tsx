import { useState } from 'react';
import { fileNameFor } from '../../document/file-name.ts';
import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import { cutWords, fabricName, paperName } from '../../rounds/words.ts';
import { beginAgain, nextRoundOf, paperIn, sewnOf } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { say } from '../../workspace/actions.ts';
import { download } from '../../workspace/files.ts';
import { printAgain } from '../../workspace/print-again.ts';
import { noteSewn } from '../../workspace/sewing.ts';
import { Dialog } from '../dialog.tsx';
import { Icon } from '../icons.tsx';
import { PaperPicture } from './paper-picture.tsx';
import { sewView } from './sew-state.ts';
import { waitingWords } from './where-list.tsx';

interface PaperDialogProps {
  readonly project: Project;
  readonly work: Work;
  readonly paper: string;
  readonly colors: ReadonlyMap<string, string>;
}

/** One paper: where it is, every piece of it, and what to do when it is lost or spoiled. */
export function PaperDialog({ project, work, paper, colors }: PaperDialogProps) {
  const [isPrinting, setPrinting] = useState(false);
  const { block, section } = paperIn(work, paper)!;
  const round = nextRoundOf(work, paper);
  const sewn = sewnOf(work, paper);
  const name = paperName(work, paper);
  const close = (): void => sewView.setState({ paper: null });
  const lit = section.order.slice(sewn, sewn + 1);
  const print = async (): Promise<void> => {
    setPrinting(true);
    try {
      const pdf = await printAgain(paper);
      if (pdf === null)
        say(
          'trouble',
          phrase('{paper} cannot be printed as it was: its drawing was not kept.', { paper: name }),
        );
      else {
        const file = fileNameFor(name, '.pdf');
        download(file, pdf);
        say(
          'done',
          phrase('‘{file}’ is on its way to your downloads. Print it at actual size, 100%.', { file }),
        );
      }
    } catch (thrown) {
      say(
        'trouble',
        phrase('The paper was not written. {reason}', {
          reason: thrown instanceof Error ? thrown.message : String(thrown),
        }),
      );
    } finally {
      setPrinting(false);
    }
  };
  return (
    <Dialog title={name} className="sew-paper-dialog" onClose={close}>
      <div className="sew-paper-columns">
        <PaperPicture block={block} section={section} lit={lit} sewn={sewn} colors={colors} />
        <div>
          <p>
            {phrase(
              'Code {code}. {sewn, number} of {all, plural, one {# patch} other {# patches}} sewn, {waits}.',
              {
                code: section.stamp,
                sewn,
                all: section.order.length,
                waits: waitingWords(project, work, paper),
              },
            )}
          </p>
          <div className="sew-scroll">
            <table className="sew-sizes">
              <caption className="only-heard">{phrase('Pieces of {paper}', { paper: name })}</caption>
              <thead>
                <tr>
                  <th scope="col">{phrase('Patch')}</th>
                  <th scope="col">{phrase('Fabric')}</th>
                  <th scope="col">{phrase('[[column: size of a piece]] Cut')}</th>
                </tr>
              </thead>
              <tbody>
                {section.order.map((id, k) => {
                  const patch = block.patches.find((one) => one.id === id);
                  return (
                    <tr key={id}>
                      <th scope="row">
                        {id} {k < sewn && <Icon name="good" size={16} />}
                      </th>
                      <td>{fabricName(project, patch?.fabric)}</td>
                      <td>{patch?.cut ? cutWords(patch.cut, project.unit) : '–'}</td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </div>
          <p className="sew-soft">{phrase('Spoiled a piece? Cut one more of the size above.')}</p>
        </div>
      </div>
      <div className="buttons">
        <button type="button" className="button sew-big" disabled={isPrinting} onClick={() => void print()}>
          {isPrinting ? phrase('Writing …') : phrase('Print it again')}
        </button>
        <button
          type="button"
          className="button sew-big"
          disabled={sewn === 0}
          onClick={() => {
            noteSewn((before) => beginAgain(before, paper));
            sewView.setState({ lastTick: { round: round ?? 0, papers: [paper], before: work } });
          }}
        >
          {phrase('Begin it again')}
        </button>
        {round !== null && (
          <button
            type="button"
            className="button button-main sew-big"
            data-first-focus
            onClick={() => sewView.setState({ round, paper: null })}
          >
            {phrase('Go to round {round, number}', { round: round + 1 })}
          </button>
        )}
      </div>
    </Dialog>
  );
}
