import { TOUCH_IN } from '../../geometry/lattice.ts';
import type { Stray } from '../../geometry/noding.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance, nearestOnSegment } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Block, Cut } from '../block.ts';
import type { Severity } from '../plan.ts';
import { freeEnds, type Missed, missedBeyond, shortfall } from './missed.ts';
import { cutName, cutWithin, type Inspection, type Rule } from './rule.ts';

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
            message: sentence(cutName(block, cut), other ? cutWithin(block, other) : null),
          };
        }),
  };
}

/** What is drawn short of its line by less than a seam allowance was meant to reach it: 1/4 in. */
const HAIR_IN = 0.25;

/** The gap between an end of a cut and the line or edge it stops just short of, the smaller where both ends do. */
function gapBeside(block: Block, cut: Cut): Missed | null {
  let least = HAIR_IN;
  let found: Missed | null = null;
  const look = (end: Point, from: Point, to: Point, beside: Cut | null): void => {
    // Most lines lie far off: a drawing of thousands of idle cuts is told quickly.
    if (isBeyond(end[0], from[0], to[0], least) || isBeyond(end[1], from[1], to[1], least)) return;
    const foot = nearestOnSegment(end, from, to);
    const away = distance(end, foot);
    if (away <= TOUCH_IN || away >= least) return;
    least = away;
    found = { gap: [end, foot], beside };
  };
  const edges = block.outline.map(
    (corner, k): Segment => [corner, block.outline[(k + 1) % block.outline.length]!],
  );
  for (const end of [cut.from, cut.to]) {
    for (const other of block.cuts) if (other !== cut) look(end, other.from, other.to, other);
    for (const [from, to] of edges) look(end, from, to, null);
  }
  return found;
}

/** What the one end misses that lies on nothing; null where both do, or none. */
function missedByOneEnd(block: Block, cut: Cut): Missed | null {
  const [end, other] = freeEnds(block, cut);
  return end && !other ? missedBeyond(block, cut, cut[end]) : null;
}

const isBeyond = (value: number, one: number, other: number, reach: number): boolean =>
  value < Math.min(one, other) - reach || value > Math.max(one, other) + reach;

export const idleCut: Rule = {
  code: 'idle-cut',
  title: phrase('Line that divides nothing'),
  severity: 'caution',
  check: ({ block, pattern, options }: Inspection) =>
    pattern.division.strays.flatMap(({ kind, line, at }) => {
      const cut = block.cuts[line];
      if (kind !== 'idle' || !cut) return [];
      const name = cutName(block, cut);
      const short = gapBeside(block, cut);
      const missed = short ?? missedByOneEnd(block, cut);
      if (missed === null)
        return [
          {
            at,
            cuts: [cut.id],
            message: phrase(
              '{name} divides nothing: no patch lies between it and another line. Draw it from line to line.',
              { name },
            ),
          },
        ];
      const { gap, beside } = missed;
      const whither = beside ? cutWithin(block, beside) : phrase('the edge of the block');
      const message = short
        ? phrase(
            '{name} ends just short of {whither}, so it divides nothing and there is no seam to sew. Extend it.',
            { name, whither },
          )
        : phrase(
            '{name} ends in the middle of a patch, {shortfall} short of {whither}, so it divides nothing and there is no seam to sew. Extend it to {whither}, or leave it out.',
            { name, shortfall: shortfall(distance(...gap), options.unit), whither },
          );
      return [{ at: gap[0], cuts: [cut.id], stretches: [gap], message }];
    }),
};

export const overlappingCut = strayRule(
  'overlap',
  'overlapping-cut',
  phrase('Lines that lie on each other'),
  'caution',
  (name, other) =>
    other
      ? phrase('{name} lies on {other} for a stretch: they count as one line there.', { name, other })
      : phrase('{name} lies on the outline for a stretch: it divides nothing there.', { name }),
);

export const outsideCut = strayRule(
  'outside',
  'outside-cut',
  phrase('Line outside the block'),
  'caution',
  (name) => phrase('{name} lies outside the block and is left out.', { name }),
);

export const pastOutline = strayRule(
  'past-outline',
  'past-outline',
  phrase('Line past the edge'),
  'note',
  (name) => phrase('{name} runs on past the edge of the block; the part outside is left out.', { name }),
);

export const shortCut = strayRule(
  'too-short',
  'short-cut',
  phrase('Line without a length'),
  'caution',
  (name) => phrase('{name} starts and ends at one spot and is left out.', { name }),
);

export const unreadableCut = strayRule(
  'not-a-number',
  'unreadable-cut',
  phrase('Line that cannot be read'),
  'trouble',
  (name) => phrase('{name} has an end that is not a number and is left out.', { name }),
);
