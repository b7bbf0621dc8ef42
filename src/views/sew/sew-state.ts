import { createStore } from 'zustand/vanilla';
import { onOtherProject } from '../../workspace/session.ts';

/** What is looked at in the Sew place. Lives while the window is open; no part of the project. */
export interface SewView {
  /** The round in sight; null for the one whose turn it is. */
  readonly round: number | null;
  /** What papers are looked for, as typed. */
  readonly search: string;
  /** What was ticked last, for taking it back. */
  readonly lastTick: { readonly round: number; readonly papers: readonly string[] } | null;
}

const AT_FIRST: SewView = { round: null, search: '', lastTick: null };

export const sewView = createStore<SewView>(() => AT_FIRST);

onOtherProject(() => sewView.setState(AT_FIRST));
