import { createStore } from 'zustand/vanilla';

const KEY = 'underpaper-letter-keys';

function known(): boolean {
  try {
    return localStorage.getItem(KEY) !== 'off';
  } catch {
    return true;
  }
}

/**
 * Whether single letters and signs run commands, kept in this browser. Who speaks to the machine, or presses keys by
 * mistake, can do without (WCAG 2.2, 2.1.4).
 */
export const letterKeys = createStore<{ readonly isOn: boolean }>(() => ({ isOn: known() }));

letterKeys.subscribe(({ isOn }) => {
  try {
    localStorage.setItem(KEY, isOn ? 'on' : 'off');
  } catch {
    // Storage is full or closed: the choice lasts while the window is open.
  }
});
