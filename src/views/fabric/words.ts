import type { Cut } from '../../cutting/piece.ts';
import type { Unit } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import { phrase } from '../../words/phrase.ts';

/** A length without its unit. */
export const bareLength = (inches: number, unit: Unit): string =>
  formatLength(inches, unit).replace(/ (in|mm)$/, '');

/** `3 1/2 × 5 in`. */
export function bothWords(width: number, height: number, unit: Unit): string {
  return `${bareLength(width, unit)} × ${formatLength(height, unit)}`;
}

/** The size of a cut, and what is done with it. */
export function sizeWords({ kind, width, height, slant }: Cut, unit: Unit): string {
  const both = bothWords(width, height, unit);
  switch (kind) {
    case 'rectangle':
      return both;
    case 'half-square':
      return phrase('half a square of {width}', { width: formatLength(width, unit) });
    case 'quarter-square':
      return phrase('quarter of a square of {width}', { width: formatLength(width, unit) });
    case 'half-rectangle':
      return phrase('half of {both}, cut at a slant from {slant} to {slant2}', {
        both,
        slant: formatLength(slant![0], unit),
        slant2: formatLength(slant![1], unit),
      });
  }
}
