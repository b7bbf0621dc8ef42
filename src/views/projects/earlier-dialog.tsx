import './projects.css';
import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { openFile } from '../../document/file.ts';
import type { Project } from '../../document/project.ts';
import { phrase } from '../../words/phrase.ts';
import { edit, say } from '../../workspace/actions.ts';
import { flushWork } from '../../workspace/autosave.ts';
import { BUDGET_BYTES, earlierStates, LATEST, textOfState } from '../../workspace/keep/earlier-states.ts';
import { keeping } from '../../workspace/keep/keeping.ts';
import type { EarlierState } from '../../workspace/keep/records.ts';
import { Dialog } from '../dialog.tsx';
import { ProjectPicture } from './project-picture.tsx';
import { saySize, sayWhen } from './say-when.ts';

/** Earlier states of the open project: looked at, and brought back as one step that undo takes back. */
export default function EarlierDialog({ onClose }: { readonly onClose: () => void }) {
  const keep = useStore(keeping, (state) => state.keep);
  const projectId = useStore(keeping, (state) => state.projectId);
  const [states, setStates] = useState<readonly EarlierState[]>([]);
  const [chosen, setChosen] = useState<EarlierState | null>(null);
  const [project, setProject] = useState<Project | null>(null);

  useEffect(() => {
    if (keep === null || projectId === null) return;
    flushWork()
      .then(() => earlierStates(keep, projectId))
      .then((found) => {
        setStates(found);
        setChosen(found[0] ?? null);
      })
      .catch(() => undefined);
  }, [keep, projectId]);
  useEffect(() => {
    if (keep === null || projectId === null || chosen === null) return;
    let isOver = false;
    setProject(null);
    textOfState(keep, projectId, chosen.key)
      .then((text) => {
        const opened = openFile(text ?? '');
        if (!isOver && opened.ok) setProject(opened.project);
      })
      .catch(() => undefined);
    return () => {
      isOver = true;
    };
  }, [keep, projectId, chosen]);

  const bringBack = (): void => {
    if (project === null || chosen === null) return;
    edit(phrase('Bring back {time}', { time: sayWhen(chosen.time) }), () => project);
    say(
      'done',
      phrase('The project is as it was on {time}. Undo takes this back.', { time: sayWhen(chosen.time) }),
    );
    onClose();
  };
  const bytes = states.reduce((sum, state) => sum + state.bytes, 0);
  return (
    <Dialog title={phrase('Earlier states')} className="earlier-dialog" onClose={onClose}>
      <div className="earlier-parts">
        <fieldset className="earlier-list">
          <legend className="only-heard">{phrase('State to look at')}</legend>
          {states.length === 0 && (
            <p className="soft">{phrase('Nothing has been saved of this project yet.')}</p>
          )}
          {states.map((state) => (
            <label key={state.key} className="earlier-state">
              <input
                type="radio"
                name="earlier"
                checked={chosen?.key === state.key}
                onChange={() => setChosen(state)}
              />
              <span>
                <b>{state.label}</b>
                <span className="soft">
                  {sayWhen(state.time)} · {saySize(state.bytes)}
                </span>
              </span>
            </label>
          ))}
        </fieldset>
        <div className="earlier-look">
          <ProjectPicture project={project} size={240} />
          {project !== null && (
            <p>
              <b>{project.name}</b>
              <br />
              {phrase('{blocks, plural, one {# block} other {# blocks}}, {reduce} lines', {
                blocks: project.blocks.length,
                reduce: project.blocks.reduce((sum, block) => sum + block.cuts.length, 0),
              })}
            </p>
          )}
        </div>
      </div>
      <p className="soft">
        {phrase(
          'The last {latest} states are kept, and the last of each day, up to {budgetBytes} for a project; these take {bytes}.',
          { latest: LATEST, budgetBytes: saySize(BUDGET_BYTES), bytes: saySize(bytes) },
        )}
      </p>
      <div className="buttons">
        <button
          type="button"
          className="button button-main"
          aria-disabled={project === null}
          onClick={bringBack}
        >
          {phrase('Bring back')}
        </button>
        <button type="button" className="button" onClick={onClose}>
          {phrase('Cancel')}
        </button>
      </div>
    </Dialog>
  );
}
