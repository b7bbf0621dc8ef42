import { MM_PER_IN } from '../../geometry/lattice.ts';
import { parseLength } from '../../geometry/length.ts';
import { phrase } from '../../words/phrase.ts';

/** Length of the test lines, across and down, inches. */
export const TEST_LINE_IN = 50 / MM_PER_IN;

/** What is off by more than this is no printer but a viewer that scales the page. */
export const MOST_OFF = 0.05;

/** How a drawing is scaled so that a printer that is a little off prints it true. The page stays as it is. */
export interface Correction {
  /** Name of the printer, as typed; empty when it has none. */
  readonly printer: string;
  /** What lengths across and down are multiplied by. */
  readonly across: number;
  readonly down: number;
}

export type CorrectionChoice =
  | { readonly ok: true; readonly correction: Correction }
  /** One or two plain sentences. */
  | { readonly ok: false; readonly error: string };

/**
 * Reads what the two 50 mm test lines of an uncorrected print measured, in millimetres unless another unit is typed.
 * More than 5 % off is refused: no printer is, so a viewer has scaled the page.
 */
export function readCorrection(printer: string, across: string, down: string): CorrectionChoice {
  const factors: number[] = [];
  for (const [text, line] of [
    [across, 'across'],
    [down, 'down'],
  ] as const) {
    const length = parseLength(text, 'mm');
    if (!length.ok)
      return { ok: false, error: phrase('The line {line}: {error}', { line, error: length.error }) };
    const share = length.inches / TEST_LINE_IN;
    if (!(Math.abs(share - 1) <= MOST_OFF + 1e-9))
      return {
        ok: false,
        error: phrase(
          'The line {line} is more than 5% off. Look at the viewer’s scaling first: print at actual size, 100%, and measure again.',
          { line },
        ),
      };
    factors.push(1 / share);
  }
  return { ok: true, correction: { printer: printer.trim(), across: factors[0]!, down: factors[1]! } };
}

/** Whether it changes anything that a ruler could show: a tenth of a per cent. */
export const changesAnything = ({ across, down }: Correction): boolean =>
  Math.abs(across - 1) >= 5e-4 || Math.abs(down - 1) >= 5e-4;

/** `corrected for ‘kitchen printer’: 99.2 % across, 99.6 % down`, with the name as it can be printed. */
export const correctionWords = ({ across, down }: Correction, printer: string): string =>
  phrase(
    'corrected{isPrinter, select, true {} other { for ‘{printer}’}}: {perCent} across, {perCent2} down',
    { isPrinter: printer === '', printer, perCent: perCent(across), perCent2: perCent(down) },
  );

const perCent = (factor: number): string => `${(Math.round(factor * 1000) / 10).toFixed(1)} %`;
