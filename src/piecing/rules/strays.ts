import type { Stray } from '../../geometry/noding.ts';
import type { Severity } from '../plan.ts';
import { cutName, type Inspection, type Rule } from './rule.ts';

/** A rule for one kind of stray: what a cut holds that divides nothing. */
function strayRule(
  kind: Stray['kind'],
  code: string,
  title: string,
  severity: Severity,
  sentence: (name: string, other: string | null) => string,
): Rule {
  return {
    code,
    title,
    severity,
    check: ({ block, pattern }: Inspection) =>
      pattern.division.strays
        .filter((stray) => stray.kind === kind)
        .map((stray) => {
          const cut = block.cuts[stray.line];
          const other = stray.other === null ? undefined : block.cuts[stray.other];
          return {
            at: stray.at,
            cuts: [cut, other].flatMap((c) => (c ? [c.id] : [])),
            message: sentence(cutName(block, cut), other ? cutName(block, other).toLowerCase() : null),
          };
        }),
  };
}

export const looseEnd = strayRule(
  'loose-end',
  'loose-end',
  'Loose end',
  'caution',
  (name) =>
    `${name} ends in the middle of a patch: the loose part is no seam. Draw it on to the next line, or pull it back.`,
);

export const idleCut = strayRule(
  'idle',
  'idle-cut',
  'Cut that divides nothing',
  'caution',
  (name) => `${name} divides nothing: no patch lies between it and another line. Draw it from line to line.`,
);

export const overlappingCut = strayRule(
  'overlap',
  'overlapping-cut',
  'Cuts that lie on each other',
  'caution',
  (name, other) =>
    other
      ? `${name} lies on ${other} for a stretch: they count as one line there.`
      : `${name} lies on the outline for a stretch: it divides nothing there.`,
);

export const outsideCut = strayRule(
  'outside',
  'outside-cut',
  'Cut outside the block',
  'caution',
  (name) => `${name} lies outside the block and is left out.`,
);

export const pastOutline = strayRule(
  'past-outline',
  'past-outline',
  'Cut past the edge',
  'note',
  (name) => `${name} runs on past the edge of the block; the part outside is left out.`,
);

export const shortCut = strayRule(
  'too-short',
  'short-cut',
  'Cut without a length',
  'caution',
  (name) => `${name} starts and ends at one spot and is left out.`,
);

export const unreadableCut = strayRule(
  'not-a-number',
  'unreadable-cut',
  'Cut that cannot be read',
  'trouble',
  (name) => `${name} has an end that is not a number and is left out.`,
);
