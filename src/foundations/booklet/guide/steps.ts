import { STRAIGHT_IN } from '../../../geometry/lattice.ts';
import type { LengthUnit } from '../../../geometry/length.ts';
import { distance } from '../../../geometry/ring.ts';
import type { Join, PiecingPlan, PointKind, RegistrationPoint, Section } from '../../../piecing/plan.ts';
import { rehearse } from '../../../piecing/rehearsal.ts';
import { labelAt, listed, unitWords } from '../../../piecing/sentences.ts';
import { phrase } from '../../../words/phrase.ts';
import {
  type Go,
  goesOf,
  inwardCorners,
  joinLength,
  lengthWords,
  patchesAlong,
  sizeWords,
  unitOf,
  wholeUnit,
} from './units.ts';

/** One instruction: a word in front that says what it is about, and its sentences. */
export interface Line {
  readonly about: string;
  readonly text: string;
}

/** A step of the joining guide, to be ticked when it is done. A join has the number it has on the papers. */
export type GuideStep =
  | {
      readonly kind: 'start';
      readonly title: string;
      /** Letters of the finished unit, and the section whose paper it is laid on. */
      readonly unit: readonly string[];
      readonly section: string;
      readonly lines: readonly Line[];
    }
  | {
      readonly kind: 'join';
      readonly title: string;
      readonly join: Join;
      readonly lines: readonly Line[];
    };

export interface GuideOptions {
  readonly unit: LengthUnit;
  /** Seam allowance, inches. */
  readonly allowance: number;
}

/**
 * The joins of a block in the order of the work, a step each, with a step wherever a paper starts from a finished
 * unit.
 */
export function guideSteps(plan: PiecingPlan, options: GuideOptions): readonly GuideStep[] {
  const steps: GuideStep[] = [];
  for (const step of rehearse(plan)) {
    if (step.kind === 'start')
      steps.push({
        kind: 'start',
        unit: step.unit,
        section: step.section,
        title: phrase('Paper {section} starts from {unitWords}', {
          section: step.section,
          unitWords: unitWords(step.unit),
        }),
        lines: startLines(plan, step.section, step.unit),
      });
    else if (step.kind === 'join')
      steps.push({
        kind: 'join',
        join: step.join,
        title: phrase('Join {step}: {unitName} to {unitName2}', {
          step: step.join.step,
          unitName: unitName(plan, step.join.left),
          unitName2: unitName(plan, step.join.right),
        }),
        lines: joinLines(plan, step.join, step.press, options),
      });
  }
  return steps;
}

function startLines(plan: PiecingPlan, letter: string, unit: readonly string[]): readonly Line[] {
  const section = plan.sections.find((one) => one.letter === letter)!;
  const papers =
    unit.length === 1
      ? phrase('the paper of {unit}', { unit: unit[0] })
      : phrase('the papers of {unit}', { unit: listed(unit) });
  return [
    {
      about: phrase('Paper'),
      text: phrase('Take {papers} off now: behind paper {letter} nobody can reach it.', { papers, letter }),
    },
    {
      about: phrase('Lay'),
      text: phrase(
        'Lay the unit on the blank side of paper {letter}, right side up, over {letter}1. Hold it to the light: its allowance reaches past the lines of {letter}1 evenly all round. Pin it.',
        { letter },
      ),
    },
    {
      about: phrase('Sew'),
      text: phrase('Go on with {orderOf} as on any other paper.', { orderOf: orderOf(section) }),
    },
  ];
}

function joinLines(
  plan: PiecingPlan,
  join: Join,
  press: 'open' | 'to-one-side',
  options: GuideOptions,
): readonly Line[] {
  const { unit, allowance } = options;
  const made = unitOf(plan, [...join.left, ...join.right], allowance);
  const isWhole = made.letters.length === plan.sections.length;
  const [first] = join.points;
  const last = join.points.at(-1);
  const length = lengthWords(joinLength(join), unit);
  const edge: Line = {
    about: phrase('Edge'),
    text: phrase('The edges marked “join {step}”, from {label} to {label2}, {length} long.{placeOf}', {
      step: join.step,
      label: first?.label,
      label2: last?.label,
      length,
      placeOf: placeOf(join, plan, options),
    }),
  };
  const makes: Line = {
    about: phrase('Makes'),
    text: phrase('{isWhole, select, true {The whole block} other {{madeName}}}: {bothSizes}.', {
      isWhole,
      madeName: madeName(join, made.letters),
      bothSizes: bothSizes(made, options),
    }),
  };
  if (join.kind === 'set-in') return [edge, ...setInLines(plan, join), makes];
  if (join.kind === 'partial' || join.leftOpen)
    return [
      edge,
      { about: phrase('Sew'), text: partialWords(join) },
      { about: phrase('Press'), text: pressWords(plan, join, press) },
      makes,
    ];
  return [
    edge,
    {
      about: phrase('Pin'),
      text: phrase('Right sides together. {pinOrder}', { pinOrder: pinOrder(join.points) }),
    },
    { about: phrase('Sew'), text: sewWords(join.points, allowance) },
    {
      about: phrase('Paper'),
      text: phrase('Take it out of the allowance of this seam, on both sides. The rest stays.'),
    },
    { about: phrase('Press'), text: pressWords(plan, join, press) },
    makes,
  ];
}

/** More letters than this say less than the join that made the unit. */
const MOST_LETTERS = 6;

const madeName = ({ step }: Join, letters: readonly string[]): string =>
  letters.length > MOST_LETTERS
    ? phrase('The unit of join {step}, {letters} sections', { step, letters: letters.length })
    : phrase('Unit {letters}', { letters: listed(letters) });

/** What a unit is called in a sentence: by its sections, or where they are many, by the join that made it. */
export function unitName(plan: PiecingPlan, letters: readonly string[]): string {
  const made =
    letters.length > MOST_LETTERS
      ? plan.joins.find(
          ({ left, right }) =>
            left.length + right.length === letters.length &&
            [...left, ...right].every((letter) => letters.includes(letter)),
        )
      : undefined;
  return made ? phrase('the unit of join {step}', { step: made.step }) : listed(letters);
}

/** Where the two units lie, seen from the front. Nothing where the seam runs aslant and neither word is true. */
function placeOf(join: Join, plan: PiecingPlan, { allowance }: GuideOptions): string {
  const [stretch, ...more] = join.stretches;
  if (!stretch || more.length > 0) return '';
  const [[ax, ay], [bx, by]] = stretch;
  const middleOf = (letters: readonly string[]): readonly [number, number] => {
    const ring = unitOf(plan, letters, allowance).outline;
    return [
      ring.reduce((sum, [x]) => sum + x, 0) / ring.length,
      ring.reduce((sum, [, y]) => sum + y, 0) / ring.length,
    ];
  };
  const [lx, ly] = middleOf(join.left);
  const [rx, ry] = middleOf(join.right);
  const words = (isLeftFirst: boolean, where: string): string => {
    const [first, second] = isLeftFirst ? [join.left, join.right] : [join.right, join.left];
    const name = unitName(plan, first);
    const isOne = first.length === 1 || name !== listed(first);
    return phrase(
      ' Seen from the front, {name} {isOne, select, true {lies} other {lie}} {where} {unitName}.',
      { name, isOne, where, unitName: unitName(plan, second) },
    );
  };
  if (Math.abs(ay - by) < 1 / 16) return words(ly < ry, 'above');
  if (Math.abs(ax - bx) < 1 / 16) return words(lx < rx, phrase('to the left of'));
  return '';
}

const PIN_ORDER: readonly PointKind[] = ['end', 'match', 'junction', 'guide'];

const PIN_WORDS: Readonly<Record<PointKind, readonly [one: string, more: string]>> = {
  end: [phrase('the end'), phrase('the ends')],
  match: [phrase('the match point'), phrase('the match points')],
  junction: [phrase('the junction'), phrase('the junctions')],
  guide: [phrase('the guide'), phrase('the guides')],
};

/** Which points are pinned in which order: ends, match points, junctions, guides. Common practice. */
export function pinOrder(points: readonly RegistrationPoint[]): string {
  const parts = PIN_ORDER.flatMap((kind): string[] => {
    const labels = points.filter((point) => point.kind === kind).map(({ label }) => label);
    return labels.length === 0 ? [] : [`${PIN_WORDS[kind][labels.length === 1 ? 0 : 1]} ${listed(labels)}`];
  });
  const [first, ...rest] = parts;
  return phrase('Pin {isFirst, select, true {along the line} other {first {first}}}{rest}.', {
    isFirst: first === undefined,
    first,
    rest: rest.map((part) => phrase(', then {part}', { part })).join(''),
  });
}

function sewWords(points: readonly RegistrationPoint[], allowance: number): string {
  const matches = points.filter(({ kind }) => kind === 'match').map(({ label }) => label);
  const tack =
    matches.length === 0
      ? ''
      : phrase('Baste a few stitches at {matches}, open the seam and look: seams must meet there. ', {
          matches: listed(matches),
        });
  return phrase(
    '{tack}Sew on the printed line, {isAllowance, select, true {from trim line to trim line} other {from end to end and a little beyond}}.',
    { tack, isAllowance: allowance > 0 },
  );
}

/** Open where seams from both sides must meet, else to one side: the one with fewer seams along it. Common practice. */
function pressWords(plan: PiecingPlan, join: Join, press: 'open' | 'to-one-side'): string {
  if (press === 'open') return phrase('Open, since seams from both sides meet here.');
  const left = patchesAlong(plan, join, join.left).length;
  const right = patchesAlong(plan, join, join.right).length;
  if (left === right) return phrase('To one side, whichever lies flatter.');
  return phrase('To one side, toward {unitName}, where fewer seams come in.', {
    unitName: unitName(plan, left < right ? join.left : join.right),
  });
}

// ---------------------------------------------------------------- set-in seams

const GOES = [
  phrase('one go'),
  phrase('two goes'),
  phrase('three goes'),
  phrase('four goes'),
  phrase('five goes'),
];

/** How a seam that turns corners is sewn: straight stretches, each begun or ended exactly at a corner. Common practice. */
function setInLines(plan: PiecingPlan, join: Join): readonly Line[] {
  const goes = goesOf(join);
  const found = inwardCorners(plan, join);
  const cornerWords = listed(found.map(({ point }) => point.label));
  const corner =
    found.length === 1
      ? phrase('the corner {cornerWords}', { cornerWords })
      : phrase('the corners {cornerWords}', { cornerWords });
  const clips = found.map(({ point, clipped }) =>
    phrase('{clipped} at {label}, to two threads short of the point', {
      clipped: listed(clipped),
      label: point.label,
    }),
  );
  return [
    {
      about: phrase('Set in'),
      text: phrase(
        'This seam turns {corner}. It is sewn in {goe}, and no stitch runs past a corner into the allowance.',
        { corner, goe: GOES[goes.length - 1] ?? phrase('{goes} goes', { goes: goes.length }) },
      ),
    },
    {
      about: phrase('Before'),
      text: phrase(
        'Take the paper out of the allowance of both units along this join, and mark {corner} on the wrong side of both with a pencil dot. The outline of the paper is the line to sew on.',
        { corner },
      ),
    },
    ...goes.map(
      (go, i): Line => ({ about: phrase('Go {i}', { i: i + 1 }), text: goWords(go, i, clips, found) }),
    ),
    { about: phrase('Press'), text: setInPress(found) },
  ];
}

function goWords(go: Go, i: number, clips: readonly string[], found: readonly unknown[]): string {
  const from = go.points[0]?.label ?? '';
  const to = go.points.at(-1)?.label ?? '';
  const start =
    go.from === 'corner'
      ? phrase('Begin exactly at {from}, two stitches on and two back', { from })
      : phrase('Begin at {from}', { from });
  const end =
    go.to === 'corner'
      ? phrase('stop exactly at {to} with the needle down and take two stitches back', { to })
      : phrase('sew on to the edge past {to}', { to });
  const turn =
    i === 0
      ? phrase('Right sides together.')
      : phrase(
          'Turn one unit about the corner until the edges {from} to {to} meet, with the sewn allowance folded out of the way.',
          { from, to },
        );
  const clip =
    i === 0 && found.length > 0
      ? phrase(' Then clip the allowance of {clips}, so that it can turn the corner.', {
          clips: listed(clips),
        })
      : '';
  return `${turn} ${pinOrder(go.points)} ${start}, ${end}.${clip}`;
}

function setInPress(found: ReturnType<typeof inwardCorners>): string {
  const toward = [...new Set(found.map(({ other }) => listed(other)))];
  return toward.length === 1
    ? phrase('Toward {toward}, away from the clip; the corner must lie flat.', { toward: toward[0] })
    : phrase('Each stretch away from the clip at its corner; the corners must lie flat.');
}

/** How a seam is begun that another closes, and how that one is sewn. Common practice. */
function partialWords(join: Join): string {
  if (join.leftOpen)
    return phrase(
      'A partial seam. Pin right sides together and stitch, but stop at the dot before {labelAt} and leave the rest open: join {step} closes it. Lock the last stitches.',
      { labelAt: labelAt(join, join.leftOpen.at), step: join.leftOpen.step },
    );
  return phrase(
    'Fold the loose part of join {step} out of the way, pin the straight seam and stitch it. Then lay the loose part back, pin it, and stitch the rest of join {step} on from the dot, over a few of the old stitches, to its end.',
    { step: join.finishes?.step },
  );
}

/**
 * What a partial seam is and when it may serve instead; null for a block that has no ring of patches.
 * Common practice: half of the first seam, the others in full, the rest of the first seam last.
 */
export function partialSeamWords(plan: PiecingPlan): string | null {
  if (!plan.joins.some(({ kind }) => kind === 'set-in')) return null;
  const ring = plan.findings.find(({ code }) => code === 'ring');
  const stretches = ring?.stretches ?? [];
  // Lines that chase each other have no spot in common, as those that meet in a star have.
  const [first, ...others] = stretches;
  const isStar = first?.some((end) =>
    others.every((other) => other.some((spot) => distance(spot, end) <= STRAIGHT_IN)),
  );
  if (!first || isStar) return null;
  return phrase(
    'A partial seam instead. The lines round the middle chase each other, so this block can also be sewn without a corner, but without its papers: cut the patches with the cutting templates. Sew the first strip to the middle along half of its seam only, beginning at the end that is level with the middle, where the next strip will cross it. Press, and sew the other strips round the middle in turn, each along its whole seam, with the loose half of the first strip folded out of the way. Then lay it over the middle and the end of the last strip, and close the first seam from where it stopped.',
  );
}

// ---------------------------------------------------------------- sizes and papers

/** `12 × 3 in finished, 12 1/2 × 3 1/2 in unfinished`. */
export function bothSizes(
  { finished, unfinished }: ReturnType<typeof unitOf>,
  { unit, allowance }: GuideOptions,
): string {
  const widest = finished.isRectangle ? '' : phrase('at its widest ');
  if (!(allowance > 0))
    return phrase('{widest}{sizeWords} finished; no allowance is on the papers', {
      widest,
      sizeWords: sizeWords(finished, unit),
    });
  return phrase('{widest}{sizeWords} finished, {sizeWords2} unfinished', {
    widest,
    sizeWords: sizeWords(finished, unit),
    sizeWords2: sizeWords(unfinished, unit),
  });
}

/** The size of the block at the head of its guide. */
export function blockSizeWords(plan: PiecingPlan, options: GuideOptions): string {
  const { unit, allowance } = options;
  const whole = wholeUnit(plan, allowance);
  const widest = whole.finished.isRectangle ? '' : phrase(' at its widest');
  const finished = phrase('Finished{widest}: {sizeWords}.', {
    widest,
    sizeWords: sizeWords(whole.finished, unit),
  });
  return allowance > 0
    ? phrase('{finished} Unfinished, with {allowance} allowance all round: {sizeWords}.', {
        finished,
        allowance: lengthWords(allowance, unit),
        sizeWords: sizeWords(whole.unfinished, unit),
      })
    : phrase('{finished} The papers carry no allowance: add your own when you cut.', { finished });
}

/** A paper to sew before it is joined. */
export interface PaperLine {
  readonly letter: string;
  /** `A1 to A9`, in the order in which they are sewn. */
  readonly order: string;
  /** What has to be joined before; null for a paper that can be sewn at once. */
  readonly wait: string | null;
  readonly sizes: string;
}

export function paperLines(plan: PiecingPlan, options: GuideOptions): readonly PaperLine[] {
  return plan.sections.map((section) => ({
    letter: section.letter,
    order: orderOf(section),
    wait:
      section.startsFrom.length === 0
        ? null
        : phrase('Not yet: it starts from {unitWords}; see its step below.', {
            unitWords: unitWords(section.startsFrom),
          }),
    sizes: bothSizes(unitOf(plan, [section.letter], options.allowance), options),
  }));
}

/** `A1 to A9`; for a paper that starts from a unit the patches after it. */
function orderOf({ order }: Pick<Section, 'order'>): string {
  const first = order[0] ?? '';
  const last = order.at(-1) ?? '';
  return order.length <= 1 ? first : phrase('{first} to {last}', { first, last });
}

/**
 * How a paper that is sewn from its printed side is sewn, for a person who has never done it. Common practice.
 */
export function everyPaper({ unit, allowance }: GuideOptions): readonly string[] {
  const width = lengthWords(allowance > 0 ? allowance : 0.25, unit);
  const rim = allowance > 0 ? phrase('the dashed line') : phrase('your allowance');
  return [
    phrase(
      'Fabric lies on the blank side, and you sew on the lines of the printed side, in the order of the numbers. Cut each piece to reach {width} and a little more past its patch all round; at the rim it reaches past {rim}.',
      { width, rim },
    ),
    phrase(
      'Lay the first piece over patch 1, its wrong side against the blank side of the paper. Hold it to the light to see that it covers, and pin it.',
    ),
    phrase(
      'Lay the next piece on it, right sides together, its edge {width} past the line between the two. Turn the paper over and sew on that line with short stitches, about 1.5 mm, beginning and ending a few stitches past its ends.',
      { width },
    ),
    phrase(
      'Fold the paper back on that line and trim the allowance to {width}. Unfold, flip the new piece over its own patch, see that it covers, and press. So on with every number.',
      { width },
    ),
  ];
}

/** How every join goes, said once. Common practice. */
export const EVERY_JOIN: readonly string[] = [
  phrase('Trim each paper on its dashed trim line, and keep the paper on.'),
  phrase(
    'The points of a join have the same letters on both papers. At a match point, ringed, seams of both papers meet; at a junction a seam of one paper comes in; a guide only divides a long edge.',
  ),
  phrase(
    'Push a pin straight through the same point on both papers, at the cross on the line. Leave it upright while you pin or clip beside it; laid over, it shifts the point.',
  ),
  phrase('Sew with short stitches, about 1.5 mm. Take each pin out before the needle reaches it.'),
  phrase('Press with a dry iron. Steam curls the paper.'),
  phrase(
    'Leave the papers on until the block is joined on all its sides: they keep bias edges from stretching.',
  ),
];
