import { createStore } from 'zustand/vanilla';
import { type CorrectionChoice, readCorrection } from '../foundations/sheet/correction.ts';
import { phrase } from '../words/phrase.ts';

/** What the 50 mm test lines of an uncorrected print measured on a printer, as typed. */
export interface PrinterMeasures {
  readonly name: string;
  readonly across: string;
  readonly down: string;
}

export interface Printers {
  readonly known: readonly PrinterMeasures[];
  /** Name of the printer that is corrected for; null for none. */
  readonly chosen: string | null;
}

const KEY = 'underpaper-printers';

/** More printers than this are forgotten, the oldest first. */
const MOST_PRINTERS = 20;
const LONGEST_NAME = 60;

/** The printers this browser knows. They belong to the machine, so no project holds them. */
export const printers = createStore<Printers>(() => kept());

function kept(): Printers {
  try {
    const { known, chosen } = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<Printers>;
    const sound = (Array.isArray(known) ? known : []).filter(
      (one: Partial<PrinterMeasures> | null): one is PrinterMeasures =>
        [one?.name, one?.across, one?.down].every((text) => typeof text === 'string'),
    );
    return { known: sound, chosen: sound.some(({ name }) => name === chosen) ? (chosen as string) : null };
  } catch {
    return { known: [], chosen: null };
  }
}

function keep(next: Printers): void {
  printers.setState(next);
  try {
    localStorage.setItem(KEY, JSON.stringify(next));
  } catch {
    // Private windows and full stores: what was typed holds until the window is closed.
  }
}

/** Corrects for a printer that is known, or for none. */
export function choosePrinter(name: string | null): void {
  const { known } = printers.getState();
  keep({ known, chosen: known.some((one) => one.name === name) ? name : null });
}

/** Adds a printer under a name of its own, not yet measured, and chooses it. */
export function addPrinter(): void {
  const { known } = printers.getState();
  let name = phrase('My printer');
  for (let n = 2; known.some((one) => one.name === name); n++) name = phrase('My printer {n}', { n });
  keep({ known: [...known, { name, across: '50', down: '50' }].slice(-MOST_PRINTERS), chosen: name });
}

/** Changes the chosen printer. A name that another printer has is left as it was. */
export function changePrinter(change: Partial<PrinterMeasures>): void {
  const { known, chosen } = printers.getState();
  const name = change.name?.slice(0, LONGEST_NAME) ?? chosen;
  if (chosen === null || name === null) return;
  if (name !== chosen && known.some((one) => one.name === name)) return;
  keep({
    known: known.map((one) => (one.name === chosen ? { ...one, ...change, name } : one)),
    chosen: name,
  });
}

/** Forgets the chosen printer. */
export function forgetPrinter(): void {
  const { known, chosen } = printers.getState();
  keep({ known: known.filter(({ name }) => name !== chosen), chosen: null });
}

/** The chosen printer's correction; null for none. */
export function chosenCorrection({ known, chosen }: Printers): CorrectionChoice | null {
  const printer = known.find(({ name }) => name === chosen);
  return printer ? readCorrection(printer.name, printer.across, printer.down) : null;
}
