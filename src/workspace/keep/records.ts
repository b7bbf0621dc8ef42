/** What is kept of one project under `project/<id>`. */
export interface KeptWork {
  /** The tab that saves it; another must not overwrite what it has written. */
  readonly owner: string;
  /** How many times it has been written, so that of two states of one tab the later is known. */
  readonly counter: number;
  /** The project as a file has it. */
  readonly text: string;
  readonly blockId: string | null;
  readonly place: string;
}

/** What the list of projects tells of one, under `card/<id>`. */
export interface ProjectCard {
  readonly id: string;
  readonly name: string;
  /** Milliseconds since 1970. */
  readonly created: number;
  readonly changed: number;
  /** Length of its text. */
  readonly bytes: number;
  readonly blocks: number;
  readonly isArchived?: boolean;
  /** When it was deleted; it stays for a while and can be brought back. */
  readonly deleted?: number;
}

/** One earlier state of a project; its text is kept under `state/<project>/<key>`. */
export interface EarlierState {
  readonly key: string;
  readonly time: number;
  /** What was done last in it, as Undo names it. */
  readonly label: string;
  readonly bytes: number;
  /** The step of the history it is the outcome of; writes within one step leave one state. */
  readonly step: string;
  /** It lost against another tab, and is nowhere else. */
  readonly isAside?: boolean;
}

export const PROJECT = 'project/';
export const CARD = 'card/';
export const STATES = 'states/';
/** Id of the project open last. */
export const OPEN = 'open';

export const stateKey = (projectId: string, key: string): string => `state/${projectId}/${key}`;

export const newId = (): string =>
  `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 10).padEnd(8, '0')}`;
