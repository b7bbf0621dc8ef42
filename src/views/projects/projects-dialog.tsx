import './projects.css';
import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { renameProject } from '../../document/edit-project.ts';
import type { Project } from '../../document/project.ts';
import { phrase } from '../../words/phrase.ts';
import { edit, say } from '../../workspace/actions.ts';
import { keeping } from '../../workspace/keep/keeping.ts';
import {
  DAYS_TO_RETURN,
  duplicateProject,
  listProjects,
  openProject,
  readProject,
  removeForGood,
  renameKept,
  roomOf,
  setArchived,
  setDeleted,
} from '../../workspace/keep/projects.ts';
import type { ProjectCard } from '../../workspace/keep/records.ts';
import { Dialog } from '../dialog.tsx';
import { Folded } from '../folded.tsx';
import { NameField } from '../name-field.tsx';
import { oneStop } from '../one-stop.ts';
import { ProjectPicture } from './project-picture.tsx';
import { saySize, sayWhen } from './say-when.ts';

/** Every project kept in this browser. */
export default function ProjectsDialog({ onClose }: { readonly onClose: () => void }) {
  const keep = useStore(keeping, (state) => state.keep);
  const writes = useStore(keeping, (state) => state.written);
  const [cards, setCards] = useState<readonly ProjectCard[] | null>(null);
  const [acts, setActs] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what has been written or done is looked at again.
  useEffect(() => {
    if (keep === null) return;
    listProjects(keep).then(setCards, () => setCards([]));
  }, [keep, writes, acts]);

  const act = (run: () => Promise<unknown>): void => {
    run()
      .catch(() => say('trouble', phrase('The browser could not save this. Nothing has changed.')))
      .then(() => setActs((n) => n + 1));
  };
  const rows = (list: readonly ProjectCard[]) => (
    <ul ref={oneStop} className="projects">
      {list.map((card) => (
        <ProjectRow key={card.id} card={card} onAct={act} onClose={onClose} />
      ))}
    </ul>
  );
  const deleted = cards?.filter((card) => card.deleted !== undefined) ?? [];
  const archived = cards?.filter((card) => card.deleted === undefined && card.isArchived) ?? [];
  const here = cards?.filter((card) => card.deleted === undefined && !card.isArchived) ?? [];
  return (
    <Dialog title={phrase('Projects')} className="projects-dialog" onClose={onClose}>
      <div className="projects-body">
        {cards?.length === 0 && <p className="soft">{phrase('No project is saved in this browser.')}</p>}
        {rows(here)}
        {archived.length > 0 && (
          <Folded title={phrase('Archived ({archived})', { archived: archived.length })}>
            {rows(archived)}
          </Folded>
        )}
        {deleted.length > 0 && (
          <Folded title={phrase('Deleted ({deleted})', { deleted: deleted.length })}>
            <p className="soft">
              {phrase('They are removed for good {daysToReturn} days after they were deleted.', {
                daysToReturn: DAYS_TO_RETURN,
              })}
            </p>
            {rows(deleted)}
          </Folded>
        )}
      </div>
      <Room />
    </Dialog>
  );
}

interface RowProps {
  readonly card: ProjectCard;
  readonly onAct: (run: () => Promise<unknown>) => void;
  readonly onClose: () => void;
}

function ProjectRow({ card, onAct, onClose }: RowProps) {
  const { id, name, changed, bytes, blocks, isArchived, deleted } = card;
  const keep = keeping.getState().keep!;
  const isOpen = useStore(keeping, (state) => state.projectId === id);
  const [project, setProject] = useState<Project | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a project changed since is drawn anew.
  useEffect(() => {
    readProject(keep, id).then(setProject, () => undefined);
  }, [keep, id, changed]);
  const open = (): void =>
    onAct(async () => {
      if (isOpen || (await openProject(keep, id))) onClose();
    });
  const rename = (text: string): void =>
    isOpen
      ? edit(phrase('Rename project'), (present) => renameProject(present, text))
      : onAct(() => renameKept(keep, id, text));
  return (
    <li className="project-row" aria-current={isOpen ? 'true' : undefined}>
      <button
        type="button"
        className="project-open"
        aria-label={phrase('Open ‘{name}’', { name })}
        onClick={open}
        disabled={deleted !== undefined}
      >
        <ProjectPicture project={project} size={72} />
      </button>
      <div className="project-told">
        {deleted === undefined ? (
          <NameField label={phrase('Name of ‘{name}’', { name })} name={name} onRename={rename} />
        ) : (
          <b>{name}</b>
        )}
        <span className="soft">
          {phrase('{blocks, plural, one {# block} other {# blocks}} · {changed} · {bytes}', {
            blocks,
            changed: sayWhen(changed),
            bytes: saySize(bytes),
          })}
        </span>
        {isOpen && <span className="project-now">{phrase('Open now')}</span>}
      </div>
      <div className="project-acts">
        {deleted !== undefined ? (
          <>
            <Act
              name={name}
              text={phrase('Bring back')}
              run={() => onAct(() => setDeleted(keep, id, false))}
            />
            <Act
              name={name}
              text={phrase('Delete for good')}
              run={() => onAct(() => removeForGood(keep, id))}
            />
          </>
        ) : (
          <>
            {!isOpen && <Act name={name} text={phrase('Open')} run={open} />}
            <Act name={name} text={phrase('Duplicate')} run={() => onAct(() => duplicateProject(keep, id))} />
            {!isOpen && (
              <>
                <Act
                  name={name}
                  text={isArchived ? phrase('Unarchive') : phrase('Archive')}
                  run={() => onAct(() => setArchived(keep, id, !isArchived))}
                />
                <Act
                  name={name}
                  text={phrase('Delete')}
                  run={() => onAct(() => setDeleted(keep, id, true))}
                />
              </>
            )}
          </>
        )}
      </div>
    </li>
  );
}

function Act({
  name,
  text,
  run,
}: {
  readonly name: string;
  readonly text: string;
  readonly run: () => void;
}) {
  return (
    <button type="button" className="button" aria-label={`${text} ‘${name}’`} onClick={run}>
      {text}
    </button>
  );
}

/** What room there is, and whether the browser has promised to keep it. */
function Room() {
  const isLasting = useStore(keeping, (state) => state.isLasting);
  const [room, setRoom] = useState<{ readonly used: number; readonly quota: number } | null>(null);
  useEffect(() => {
    void roomOf().then(setRoom);
  }, []);
  return (
    <p className="soft projects-room">
      {room !== null &&
        phrase('{used} of {quota} used. ', { used: saySize(room.used), quota: saySize(room.quota) })}
      {isLasting === true && phrase('The browser has agreed to keep this until you delete it. ')}
      {isLasting === false && phrase('The browser may clear this when its disk is short of room. ')}
      {phrase('Save what matters to a file as well.')}
    </p>
  );
}
