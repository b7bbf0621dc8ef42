import { isBlockPlace, type Joining } from '../document/quilt.ts';
import { formatLength, type LengthUnit } from '../geometry/length.ts';
import type { Point } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import type { Join } from '../piecing/plan.ts';
import { listed } from '../piecing/sentences.ts';
import { phrase } from '../words/phrase.ts';
import type { JoiningPlan, NoPlan } from './joining.ts';
import type { Layout } from './layout.ts';

/** Numbers by which people know the places, in reading order from 1: printed on the map and in every step. */
export function numbersOf({ pieceOf, pieces }: Layout): ReadonlyMap<string, number> {
  const numbers = new Map<string, number>();
  for (const k of pieceOf) {
    const id = k < 0 ? undefined : pieces[k]?.place.id;
    if (id !== undefined && !numbers.has(id)) numbers.set(id, numbers.size + 1);
  }
  for (const { place } of pieces) if (!numbers.has(place.id)) numbers.set(place.id, numbers.size + 1);
  return numbers;
}

/** A length to the nearest 1/16 in or tenth of a millimetre, as people measure cloth. */
export const clothLength = (inches: number, unit: LengthUnit): string =>
  formatLength(unit === 'in' ? Math.round(inches * 16) / 16 : inches, unit);

export const sizeWords = ([w, h]: Point, unit: LengthUnit): string =>
  `${clothLength(w, unit).replace(/ (in|mm)$/, '')} × ${clothLength(h, unit)}`;

/** How long a seam is, round its corners too. */
export const seamLength = ({ stretches }: Pick<Join, 'stretches'>): number =>
  stretches.reduce((sum, stretch) => sum + distance(...stretch), 0);

/** What a unit of a step is called: its place, or the step that made it. */
export function unitWords(
  unit: readonly string[],
  steps: readonly Join[],
  numbers: ReadonlyMap<string, number>,
): string {
  if (unit.length === 1) return `${numbers.get(unit[0]!)}`;
  const made = steps.find(
    ({ left, right }) =>
      left.length + right.length === unit.length && (left[0] === unit[0] || right[0] === unit[0]),
  );
  return made ? phrase('unit {step}', { step: made.step }) : listed(unit.map((id) => numbers.get(id) ?? id));
}

export function stepWords(
  step: Join,
  steps: readonly Join[],
  numbers: ReadonlyMap<string, number>,
  unit: LengthUnit,
): string {
  const names = [step.left, step.right].map((ids) => unitWords(ids, steps, numbers));
  const [[x1, y1], [x2, y2]] = step.seam;
  const way = Math.abs(x1 - x2) < 1e-3 ? 'vertical' : Math.abs(y1 - y2) < 1e-3 ? 'horizontal' : 'diagonal';
  const set = step.kind === 'straight' ? '' : phrase(', set in at its corners');
  return phrase(
    'Join {name} and {name2}: {kind, select, straight {{way, select, vertical {vertical} horizontal {horizontal} other {diagonal}}} other {bent}} seam, {seamLength}{set}.',
    {
      name: names[0],
      name2: names[1],
      kind: step.kind,
      way,
      seamLength: clothLength(seamLength(step), unit),
      set,
    },
  );
}

export const JOINING_WORDS: Readonly<Record<Joining, string>> = {
  balanced: phrase('Blocks into blocks'),
  rows: phrase('Row by row'),
  columns: phrase('Column by column'),
};

/** Why there is no joining plan, in a sentence. */
export function noPlanSentence(why: NoPlan, layout: Layout, numbers: ReadonlyMap<string, number>): string {
  switch (why) {
    case 'empty':
      return phrase('The quilt has no places yet.');
    case 'apart':
      return phrase('Some places lie apart from the others: what does not touch cannot be joined.');
    case 'tangled':
      return phrase('Places lie so close together, or so many on one spot, that they cannot be told apart.');
    case 'overlaps': {
      const first = layout.overlaps[0];
      const named = first
        ? listed(first.pieces.slice(0, 4).map((k) => numbers.get(layout.pieces[k]!.place.id) ?? 0))
        : '';
      const more =
        layout.overlaps.length > 1
          ? phrase(', and {overlaps} more overlap', { overlaps: layout.overlaps.length - 1 })
          : '';
      return phrase('Places {named} overlap{more}: move one of them, or turn it back.', { named, more });
    }
  }
}

/** How the quilt is joined, in a sentence. */
export function joiningSentence({ steps, rings, mitres }: JoiningPlan, places: number): string {
  if (places === 1) return phrase('One place: nothing to join.');
  const setIn = steps.filter(({ kind }) => kind === 'set-in').length;
  const count = phrase('{places, number} places, {steps, plural, one {# seam} other {# seams}}', {
    places,
    steps: steps.length,
  });
  if (setIn === 0) return phrase('{count}, all of them straight.', { count });
  if (rings.length === 0)
    return phrase(
      '{count}, {isSetIn, select, true {all straight but for the mitred corners} other {{setIn} of them set in}}.',
      { count, isSetIn: setIn - mitres === 0, setIn: setIn - mitres },
    );
  const ring = rings[0]?.length ?? 0;
  return phrase('{count}, {setIn} of them set in: {ring} places hold each other in a ring.', {
    count,
    setIn,
    ring,
  });
}

/** Blocks and how many places each fills, in the order of the project's blocks. */
export function blockCounts({ pieces }: Layout): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { place } of pieces)
    if (isBlockPlace(place)) counts.set(place.block, (counts.get(place.block) ?? 0) + 1);
  return counts;
}
