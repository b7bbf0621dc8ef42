import { get, type UseStore } from 'idb-keyval';
import { asked } from './keep.ts';
import { type EarlierState, STATES, stateKey } from './records.ts';

/** So many of the latest states are kept, and beyond them the last of every day. */
export const LATEST = 50;

/** What the earlier states of one project may take, in bytes of text; the oldest go first. */
export const BUDGET_BYTES = 60_000_000;

const DAY_MS = 86_400_000;

/**
 * Those that stay, oldest first: the last 50 and the last of each day, as far as the budget goes. What lost against
 * another tab is nowhere else, and goes only when nothing else is left to go. `offset`: minutes that the clock on the
 * wall is behind world time, as `getTimezoneOffset` tells.
 */
export function thinned(
  states: readonly EarlierState[],
  offset = 0,
  budget = BUDGET_BYTES,
): readonly EarlierState[] {
  const day = ({ time }: EarlierState): number => Math.floor((time - offset * 60_000) / DAY_MS);
  const kept = states.filter(
    (state, i) =>
      state.isAside === true ||
      i >= states.length - LATEST ||
      states[i + 1] === undefined ||
      day(states[i + 1]!) !== day(state),
  );
  let bytes = kept.reduce((sum, state) => sum + state.bytes, 0);
  const gone = new Set<EarlierState>();
  for (const state of [...kept.filter((one) => !one.isAside), ...kept.filter((one) => one.isAside)]) {
    if (bytes <= budget || gone.size === kept.length - 1) break;
    gone.add(state);
    bytes -= state.bytes;
  }
  return kept.filter((state) => !gone.has(state));
}

/** Adds a state within a running transaction, in place of the last one where both are of one step. */
export async function putState(
  store: IDBObjectStore,
  projectId: string,
  state: Omit<EarlierState, 'key' | 'bytes'>,
  text: string,
): Promise<void> {
  const before = ((await asked(store.get(STATES + projectId))) ?? []) as readonly EarlierState[];
  const last = state.isAside ? before.findLast((one) => one.step === state.step) : before.at(-1);
  const same = last?.step === state.step && last.isAside === state.isAside ? last : undefined;
  const others = before.filter((one) => one !== same);
  const key = `${state.time}-${others.length}-${state.isAside ? 'aside' : ''}`;
  const after = thinned(
    [...others, { ...state, key, bytes: text.length }],
    new Date(state.time).getTimezoneOffset(),
  );
  const keys = new Set(after.map((one) => one.key));
  for (const one of before) if (!keys.has(one.key)) store.delete(stateKey(projectId, one.key));
  if (keys.has(key)) store.put(text, stateKey(projectId, key));
  store.put(after, STATES + projectId);
}

/** Earlier states of a project, latest first. */
export const earlierStates = async (keep: UseStore, projectId: string): Promise<readonly EarlierState[]> =>
  ((await get<readonly EarlierState[]>(STATES + projectId, keep)) ?? []).toReversed();

/** The project's text as it was then; undefined when the browser has it no more. */
export const textOfState = (keep: UseStore, projectId: string, key: string): Promise<string | undefined> =>
  get<string>(stateKey(projectId, key), keep);

/** Whether a project has any earlier state, within a running transaction. */
export const hasStates = async (store: IDBObjectStore, projectId: string): Promise<boolean> =>
  (await asked(store.get(STATES + projectId))) !== undefined;
