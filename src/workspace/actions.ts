import { type OpenedFile, openFile } from '../document/file.ts';
import { oneLine } from '../document/file-place.ts';
import type { Project, ProjectEdit } from '../document/project.ts';
import { phrase } from '../words/phrase.ts';
import type { History, HistoryEntry, Moment, Notice, SaveState, Session, Theme } from './session.ts';
import { nextOpening, session } from './session.ts';

export interface EditOptions {
  /** Edits in a row with the same key are one step of the history: typing a name, a colour wheel. */
  readonly merge?: string;
  /** Block to open and cuts to choose afterwards, when not the present ones. */
  readonly openBlock?: string;
  readonly select?: readonly string[];
  /** It is no change of the open project but another one in its place, by the number of its opening. */
  readonly opening?: number;
}

const momentOf = ({ project, opening, blockId, selection }: Session): Moment => ({
  project,
  opening,
  blockId,
  selection,
});

/** The moment with a block that exists and only cuts that exist, so no id ever points at nothing. */
function settled({ project, opening, blockId, selection }: Moment, before: Project): Moment {
  const open = project.blocks.find((block) => block.id === blockId) ?? neighbourOf(blockId, before, project);
  const cutIds = new Set(open?.id === blockId ? open?.cuts.map((cut) => cut.id) : []);
  const kept = selection.filter((id) => cutIds.has(id));
  return {
    project,
    opening,
    blockId: open?.id ?? null,
    selection: kept.length === selection.length ? selection : kept,
  };
}

/** The block that took the place of a removed one: the next in line, else the last. */
function neighbourOf(blockId: string | null, before: Project, after: Project) {
  const was = before.blocks.findIndex((block) => block.id === blockId);
  return after.blocks[Math.max(0, Math.min(was, after.blocks.length - 1))];
}

/**
 * The one way to change the project: runs a pure edit and records it as a step to undo. Drops a running draft.
 * An edit that returns the same project records nothing.
 */
export function edit(label: string, change: ProjectEdit, options: EditOptions = {}): void {
  const state = session.getState();
  const project = change(state.project);
  const moment = settled(
    {
      project,
      opening: options.opening ?? state.opening,
      blockId: options.openBlock ?? state.blockId,
      selection: options.select ?? state.selection,
    },
    state.project,
  );
  if (project === state.project) {
    session.setState({ ...moment, draft: null });
    return;
  }
  session.setState({
    ...moment,
    draft: null,
    history: recorded(state, label, options.merge ?? null),
    save: 'not-saved',
  });
}

/**
 * Notes what hands have done, such as a piece that is cut: no step of the history, and not taken back by undoing a
 * drawing, so every moment that undo and redo can reach knows of it too.
 */
export function noteDone(change: ProjectEdit): void {
  const state = session.getState();
  const project = change(state.project);
  if (project === state.project) return;
  const known = new Map([[state.project, project]]);
  const noted = ({ moment, ...entry }: HistoryEntry): HistoryEntry => {
    if (moment.opening !== state.opening) return { ...entry, moment };
    const after = known.get(moment.project) ?? change(moment.project);
    known.set(moment.project, after);
    return { ...entry, moment: { ...moment, project: after } };
  };
  const { past, future } = state.history;
  session.setState({
    project,
    history: { past: past.map(noted), future: future.map(noted) },
    save: 'not-saved',
  });
}

function recorded(state: Session, label: string, merge: string | null): History {
  const { past, future } = state.history;
  const last = past.at(-1);
  const joins = merge !== null && last?.merge === merge && future.length === 0;
  return { past: joins ? past : [...past, { label, merge, moment: momentOf(state) }], future: [] };
}

/**
 * Shows what a running gesture would leave, computed from the recorded project each time, so that nothing
 * drifts. Ends with `edit` (recorded) or `cancelPreview` (as if nothing had been), and not where a hand on its way comes
 * past the place it began at.
 */
export function preview(change: ProjectEdit): void {
  session.setState(({ project }) => ({ draft: change(project) }));
}

export function cancelPreview(): void {
  if (session.getState().draft !== null) session.setState({ draft: null });
}

/** Ends the run of merging edits, so that the next one with the same key is a step of its own. */
export function endMerge(): void {
  const { history } = session.getState();
  const last = history.past.at(-1);
  if (last === undefined || last.merge === null) return;
  session.setState({
    history: { ...history, past: [...history.past.slice(0, -1), { ...last, merge: null }] },
  });
}

export function undo(): void {
  step('past', 'future');
}

export function redo(): void {
  step('future', 'past');
}

function step(from: 'past' | 'future', to: 'past' | 'future'): void {
  const state = session.getState();
  const entry = state.history[from].at(-1);
  if (entry === undefined) {
    cancelPreview();
    return;
  }
  const mirrored: HistoryEntry = { label: entry.label, merge: null, moment: momentOf(state) };
  const history = { ...state.history, [from]: state.history[from].slice(0, -1) };
  session.setState({
    ...settled(entry.moment, state.project),
    draft: null,
    history: { ...history, [to]: [...history[to], mirrored] },
    save: 'not-saved',
  });
}

/** Puts another project in place of the open one, as one step that undo takes back. */
export function replaceProject(label: string, project: Project, opening = nextOpening()): void {
  edit(label, () => project, { openBlock: project.blocks[0]?.id, select: [], opening });
}

/**
 * Opens the text of a file. The open project is replaced, undoably, only when the file is wholly good;
 * otherwise a notice says what is wrong and where, and nothing else changes. True when it was opened.
 */
export const openProjectText = (fileName: string, text: string): boolean =>
  takeOpened(fileName, openFile(text));

/** The same with the text already read. */
export function takeOpened(fileName: string, opened: OpenedFile): boolean {
  if (!opened.ok) {
    say(
      'trouble',
      phrase('‘{fileName}’ was not opened. {message}', {
        fileName: oneLine(fileName),
        message: opened.error.message,
      }),
    );
    return false;
  }
  replaceProject(phrase('Open ‘{name}’', { name: oneLine(opened.project.name) }), opened.project);
  say(
    'done',
    phrase('Opened ‘{name}’. The earlier one is in Projects.', { name: oneLine(opened.project.name) }),
  );
  return true;
}

export function openBlock(blockId: string): void {
  const { project, blockId: present } = session.getState();
  if (blockId === present || !project.blocks.some((block) => block.id === blockId)) return;
  session.setState({ blockId, selection: [], draft: null });
}

/** Chooses cuts of the open block; ids it does not have are left out. */
export function select(cutIds: readonly string[]): void {
  const state = session.getState();
  const { selection } = settled({ ...momentOf(state), selection: cutIds }, state.project);
  if (selection.length === 0 && state.selection.length === 0) return;
  session.setState({ selection });
}

export function goTo(place: string): void {
  session.setState({ place, draft: null });
}

export function say(kind: Notice['kind'], text: string): void {
  session.setState({ notice: { kind, text } });
}

export function dismissNotice(): void {
  session.setState({ notice: null });
}

export function setTheme(theme: Theme): void {
  session.setState({ theme });
}

export function setSaveState(save: SaveState): void {
  session.setState({ save });
}
