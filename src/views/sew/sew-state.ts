import { createStore } from 'zustand/vanilla';
import type { Work } from '../../document/work.ts';
import { onOtherProject } from '../../workspace/session.ts';

/** What is looked at in the Sew place. Lives while the window is open; no part of the project. */
export interface SewView {
  /** The round in sight; null for the one whose turn it is. */
  readonly round: number | null;
  /** What papers are looked for, as typed. */
  readonly search: string;
  /** What was ticked last, and the work before it, for taking it back. */
  readonly lastTick: {
    readonly round: number;
    readonly papers: readonly string[];
    readonly before: Work;
  } | null;
  /** The paper that lies open, by its id. */
  readonly paper: string | null;
  /** The step whose rehearsal lies open. */
  readonly rehearsed: { readonly paper: string; readonly patch: string } | null;
  readonly isScanning: boolean;
}

const AT_FIRST: SewView = {
  round: null,
  search: '',
  lastTick: null,
  paper: null,
  rehearsed: null,
  isScanning: false,
};

export const sewView = createStore<SewView>(() => AT_FIRST);

onOtherProject(() => sewView.setState(AT_FIRST));
