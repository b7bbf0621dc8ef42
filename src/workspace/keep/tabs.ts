/** What tabs of one browser tell each other of the project that both have open. */
interface Message {
  readonly kind: 'who-saves' | 'i-save' | 'wrote' | 'give' | 'given' | 'left';
  readonly project: string;
  readonly from: string;
}

/** A tab that does not answer by then is gone, in milliseconds. */
const ANSWER_MS = 300;
/** A tab that gives its project away writes first. */
const GIVE_MS = 3_000;

export interface TabTalk {
  /** True when another tab saves this project. */
  readonly isSavedElsewhere: (project: string) => Promise<boolean>;
  /** Asks the tab that saves it to write and let go; settles when it has, or does not answer. */
  readonly askFor: (project: string) => Promise<void>;
  readonly tell: (kind: 'wrote' | 'left' | 'given', project: string) => void;
  readonly close: () => void;
}

export interface TabEars {
  readonly saves: (project: string) => boolean;
  /** Another tab wants to save it. */
  readonly onAsked: (project: string) => void;
  readonly onWrote: (project: string) => void;
  /** The tab that saved it is closed. */
  readonly onLeft: (project: string) => void;
}

/** Talk between tabs; without one where the browser has no channel. */
export function talkToTabs(me: string, ears: TabEars): TabTalk {
  if (typeof BroadcastChannel === 'undefined')
    return {
      isSavedElsewhere: async () => false,
      askFor: async () => undefined,
      tell: () => undefined,
      close: () => undefined,
    };
  const channel = new BroadcastChannel('underpaper');
  const waiting = new Set<(message: Message) => void>();
  const send = (kind: Message['kind'], project: string): void => {
    try {
      channel.postMessage({ kind, project, from: me } satisfies Message);
    } catch {
      // Closed: nobody hears, and nobody need.
    }
  };
  const answer = (kind: Message['kind'], project: string, ms: number): Promise<boolean> =>
    new Promise((resolve) => {
      const done = (came: boolean): void => {
        clearTimeout(timer);
        waiting.delete(hear);
        resolve(came);
      };
      const hear = (message: Message): void => {
        if (message.kind === kind && message.project === project) done(true);
      };
      const timer = setTimeout(() => done(false), ms);
      waiting.add(hear);
    });
  channel.onmessage = ({ data }: MessageEvent<Message>) => {
    if (data.from === me) return;
    for (const hear of [...waiting]) hear(data);
    const { kind, project } = data;
    if (kind === 'who-saves' && ears.saves(project)) send('i-save', project);
    if (kind === 'give' && ears.saves(project)) ears.onAsked(project);
    if (kind === 'wrote') ears.onWrote(project);
    if (kind === 'left') ears.onLeft(project);
  };
  return {
    isSavedElsewhere: (project) => {
      const came = answer('i-save', project, ANSWER_MS);
      send('who-saves', project);
      return came;
    },
    askFor: async (project) => {
      const came = answer('given', project, GIVE_MS);
      send('give', project);
      await came;
    },
    tell: send,
    close: () => channel.close(),
  };
}
