import { addCuts } from '../../document/edit-cuts.ts';
import { scaleBlock, setOutline } from '../../document/edit-outline.ts';
import { copyTurned, MIRRORS, type Turn, turnBy, turnCuts } from '../../document/edit-turn.ts';
import type { Project } from '../../document/project.ts';
import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { edgesOf, shifted } from '../../geometry/segments.ts';
import { ALIGNMENTS, type Alignment, alignCuts } from '../align.ts';
import { moveCornerAttached, moveEdgeAttached, shiftCutsAttached } from '../reshape.ts';
import { linesAcross, sideDirections, spotsAlong, strips } from '../shapes/divide.ts';
import { parallelTo } from '../shapes/parallel.ts';
import { raysFromCorner, raysRound } from '../shapes/rays.ts';
import { isConvex, type RingStyle, ringsInside } from '../shapes/rings.ts';
import { splitEvenly } from '../split.ts';
import { middleOf, turns } from '../symmetry.ts';
import type { Field, Form, Target, Values, Work } from './form.ts';

const MOST_LINES = 99;

const number = (values: Values, name: string): number => Number(values[name]);
const text = (values: Values, name: string): string => String(values[name]);

const refused = (error: string): Work => ({ ok: false, error });

function drawn(target: Target, label: string, lines: readonly Segment[], none: string): Work {
  if (lines.length === 0) return refused(none);
  const cuts = lines.map(([from, to]) => ({ from, to }));
  return { ok: true, label, selectsNew: true, change: (project) => addCuts(project, target.block.id, cuts) };
}

const count = (name: string, label: string, initial: number, least = 2): Field => ({
  kind: 'count',
  name,
  label,
  initial,
  least,
  most: MOST_LINES,
});

const choice = (name: string, label: string, options: readonly (readonly [string, string])[]): Field => ({
  kind: 'choice',
  name,
  label,
  options,
});

const parallel: Form = {
  name: 'parallel',
  label: 'Lines beside a cut…',
  act: 'Draw lines',
  needs: 'Choose one cut first.',
  fits: ({ cuts }) => cuts.length === 1,
  fields: ({ gridIn, cuts }) => [
    { kind: 'length', name: 'distance', label: 'Distance', initial: gridIn > 0 ? gridIn * 4 : 1 },
    count('count', 'Lines', 1, 1),
    choice('side', 'Side', sidesOf(cuts[0]!)),
  ],
  work: (target, values) => {
    const signs = { right: [1], left: [-1], both: [1, -1] }[text(values, 'side')] ?? [1];
    const lines = signs.flatMap((sign) =>
      Array.from({ length: number(values, 'count') }, (_, index) =>
        parallelTo(target.block, target.cuts[0]!, sign * (index + 1) * number(values, 'distance')),
      ).flat(),
    );
    return drawn(target, 'Draw parallel lines', lines, 'No line at that distance lies in the block.');
  },
};

/** The sides of a cut as one sees them on the sheet. */
function sidesOf({
  from,
  to,
}: {
  readonly from: Point;
  readonly to: Point;
}): readonly (readonly [string, string])[] {
  // Right of the way from start to end is below a cut that runs to the right.
  const [nx, ny] = [-(to[1] - from[1]), to[0] - from[0]];
  const isUpright = Math.abs(nx) > Math.abs(ny);
  const isAhead = isUpright ? nx > 0 : ny > 0;
  const [ahead, behind] = isUpright ? ['Right', 'Left'] : ['Below', 'Above'];
  return [
    ['right', isAhead ? ahead! : behind!],
    ['left', isAhead ? behind! : ahead!],
    ['both', 'Both'],
  ];
}

const divide: Form = {
  name: 'divide',
  label: 'Divide evenly…',
  act: 'Divide',
  needs: 'Choose an edge, a cut or a patch first.',
  fits: ({ cuts, chosen, patch }) => cuts.length === 1 || chosen?.kind === 'edge' || patch !== null,
  fields: ({ cuts, patch }) => [
    count('parts', 'Parts', 3),
    cuts.length === 1
      ? choice('as', 'As', [
          ['marks', 'Spots to draw from'],
          ['cuts', 'Cuts of their own'],
        ])
      : patch === null
        ? choice('as', 'As', [
            ['lines', 'Lines across'],
            ['marks', 'Spots to draw from'],
          ])
        : choice(
            'way',
            'Strips running',
            sideDirections(patch)
              .slice(0, 6)
              .map((degrees) => [String(degrees), directionWords(degrees)]),
          ),
  ],
  work: (target, values) => {
    const { block, cuts, chosen, patch } = target;
    const parts = number(values, 'parts');
    if (cuts.length === 1) {
      const [{ id, from, to }] = cuts as readonly [(typeof cuts)[number]];
      return text(values, 'as') === 'marks'
        ? {
            ok: true,
            label: 'Divide',
            change: (project) => project,
            divisions: spotsAlong([from, to], parts),
          }
        : { ok: true, label: 'Divide cut', change: (project) => splitEvenly(project, block.id, [id], parts) };
    }
    if (patch !== null) {
      const lines = strips(patch, number(values, 'way'), parts);
      return drawn(target, 'Divide patch', lines, 'The patch is too small for so many.');
    }
    if (chosen?.kind !== 'edge') return refused(divide.needs);
    if (text(values, 'as') === 'lines')
      return drawn(
        target,
        'Divide edge',
        linesAcross(block.outline, chosen.edge, parts),
        'No line leads from that edge into the block.',
      );
    const edge = edgesOf(block.outline)[chosen.edge]!;
    return { ok: true, label: 'Divide', change: (project) => project, divisions: spotsAlong(edge, parts) };
  },
};

/** `level`, `upright`, `at 45°`. */
export function directionWords(degrees: number): string {
  const rounded = Number(degrees.toFixed(1)) % 180;
  return rounded === 0 ? 'level' : rounded === 90 ? 'upright' : `at ${rounded}°`;
}

const rays: Form = {
  name: 'rays',
  label: 'Rays from a point…',
  act: 'Draw rays',
  needs: 'Open a block first.',
  fits: () => true,
  fields: ({ block, chosen, patch, crosshair }) => {
    if (chosen?.kind === 'corner') return [count('count', `Parts of corner ${chosen.corner + 1}`, 4)];
    // From the middle of the chosen patch, from the crosshair, or from the middle; another place can be typed.
    const [across, down] = patch !== null ? innerSpot(patch) : (crosshair ?? middleOf(block.outline));
    return [
      { kind: 'shift', name: 'across', label: 'From across', initial: across },
      { kind: 'shift', name: 'down', label: 'From down', initial: down },
      count('count', 'Rays', 8),
      { kind: 'degrees', name: 'first', label: 'The first at', initial: 90 },
    ];
  },
  work: (target, values) => {
    const { outline } = target.block;
    const many = number(values, 'count');
    const lines =
      target.chosen?.kind === 'corner'
        ? raysFromCorner(outline, target.chosen.corner, many)
        : raysRound(
            outline,
            [number(values, 'across'), number(values, 'down')],
            many,
            number(values, 'first'),
          );
    return drawn(target, 'Draw rays', lines, 'From there no ray leads into the block.');
  },
};

const rings: Form = {
  name: 'rings',
  label: 'Rings inside the outline…',
  act: 'Draw rings',
  needs: 'Open a block first.',
  fits: () => true,
  fields: ({ gridIn }) => [
    { kind: 'length', name: 'distance', label: 'Distance', initial: gridIn > 0 ? gridIn * 4 : 1 },
    count('count', 'Rings', 1, 1),
    choice('style', 'Corners', [
      ['cabin', 'Log cabin'],
      ['closed', 'Closed rings'],
    ]),
  ],
  work: (target, values) => {
    const { outline } = target.block;
    const style = text(values, 'style') as RingStyle;
    if (style === 'cabin' && !isConvex(outline))
      return refused('Log cabin rounds need an outline without inward corners.');
    const wanted = number(values, 'count');
    const found = ringsInside(outline, number(values, 'distance'), wanted, style);
    if (found.length < wanted)
      return refused(
        found.length === 0 ? 'No ring fits at that distance.' : `Only ${found.length} rings fit.`,
      );
    return drawn(target, 'Draw rings', found.flat(), 'No ring fits at that distance.');
  },
};

const ABOUT = choice('about', 'About', [
  ['chosen', 'The middle of what is chosen'],
  ['block', 'The middle of the block'],
]);

const AS = choice('as', 'What becomes of it', [
  ['move', 'Moved'],
  ['copy', 'Copied'],
]);

/** The point that a turn or mirror keeps. */
function aboutOf({ block, cuts }: Target, values: Values): Point {
  return text(values, 'about') === 'block'
    ? middleOf(block.outline)
    : middleOf(cuts.flatMap(({ from, to }) => [from, to]));
}

function turnedWork(target: Target, values: Values, label: string, turn: Turn): Work {
  const ids = target.cuts.map(({ id }) => id);
  const about = aboutOf(target, values);
  const { id } = target.block;
  return text(values, 'as') === 'copy'
    ? {
        ok: true,
        label: `${label}, copied`,
        selectsNew: true,
        change: (p) => copyTurned(p, id, ids, [turn], about),
      }
    : { ok: true, label, change: (project) => turnCuts(project, id, ids, turn, about) };
}

const move: Form = {
  name: 'move',
  label: 'Move by numbers…',
  act: 'Move',
  needs: 'Choose cuts, a corner or an edge first.',
  fits: ({ cuts, chosen }) => cuts.length > 0 || chosen?.kind === 'corner' || chosen?.kind === 'edge',
  fields: ({ cuts }) => [
    { kind: 'shift', name: 'across', label: 'To the right', initial: 0 },
    { kind: 'shift', name: 'down', label: 'Down', initial: 0 },
    ...(cuts.length > 0 ? [AS] : []),
  ],
  work: ({ block, cuts, chosen }, values) => {
    const by: Point = [number(values, 'across'), number(values, 'down')];
    if (chosen?.kind === 'corner') {
      const at = block.outline[chosen.corner]!;
      const change = (p: Project) => moveCornerAttached(p, block.id, chosen.corner, shifted(at, by));
      return { ok: true, label: 'Move corner', change };
    }
    if (chosen?.kind === 'edge') {
      const change = (p: Project) => moveEdgeAttached(p, block.id, chosen.edge, by);
      return { ok: true, label: 'Move edge', change };
    }
    if (text(values, 'as') === 'copy') {
      if (by[0] === 0 && by[1] === 0) return refused('A copy on the same spot would not be seen.');
      const copies = cuts.map(({ from, to, role }) => ({
        from: shifted(from, by),
        to: shifted(to, by),
        role,
      }));
      const change = (p: Project) => addCuts(p, block.id, copies);
      return { ok: true, label: 'Copy cuts', selectsNew: true, change };
    }
    const ids = cuts.map(({ id }) => id);
    return {
      ok: true,
      label: ids.length === 1 ? 'Move cut' : 'Move cuts',
      change: (p) => shiftCutsAttached(p, block.id, ids, by),
    };
  },
};

const anyCut = ({ cuts }: Target): boolean => cuts.length > 0;

const turn: Form = {
  name: 'turn',
  label: 'Turn what is chosen…',
  act: 'Turn',
  needs: 'Choose cuts first.',
  fits: anyCut,
  fields: () => [{ kind: 'degrees', name: 'degrees', label: 'By degrees', initial: 90 }, ABOUT, AS],
  work: (target, values) => turnedWork(target, values, 'Turn cuts', turnBy(number(values, 'degrees'))),
};

const mirror: Form = {
  name: 'mirror',
  label: 'Mirror what is chosen…',
  act: 'Mirror',
  needs: 'Choose cuts first.',
  fits: anyCut,
  fields: () => [
    choice('axis', 'In a line', [
      ['upright', 'Upright'],
      ['level', 'Level'],
      ['falling', 'Falling to the right'],
      ['rising', 'Rising to the right'],
    ]),
    ABOUT,
    AS,
  ],
  work: (target, values) =>
    turnedWork(target, values, 'Mirror cuts', MIRRORS[text(values, 'axis') as keyof typeof MIRRORS]),
};

const repeat: Form = {
  name: 'repeat',
  label: 'Repeat what is chosen round the middle…',
  act: 'Repeat',
  needs: 'Choose cuts first.',
  fits: anyCut,
  fields: () => [
    choice('fold', 'Times', [
      ['4', 'Four, a quarter turn each'],
      ['2', 'Two, half a turn'],
      ['6', 'Six'],
      ['8', 'Eight'],
    ]),
  ],
  work: ({ block, cuts }, values) => ({
    ok: true,
    label: 'Repeat cuts',
    selectsNew: true,
    change: (project) =>
      copyTurned(
        project,
        block.id,
        cuts.map(({ id }) => id),
        turns(number(values, 'fold')).slice(1),
        middleOf(block.outline),
      ),
  }),
};

const align: Form = {
  name: 'align',
  label: 'Align what is chosen…',
  act: 'Align',
  needs: 'Choose two cuts or more first.',
  fits: ({ cuts }) => cuts.length > 1,
  fields: () => [choice('to', 'On their', ALIGNMENTS)],
  work: ({ block, cuts }, values) => ({
    ok: true,
    label: 'Align cuts',
    change: (project) =>
      alignCuts(
        project,
        block.id,
        cuts.map(({ id }) => id),
        text(values, 'to') as Alignment,
      ),
  }),
};

const size: Form = {
  name: 'size',
  label: 'Resize the block…',
  act: 'Resize',
  needs: 'Open a block first.',
  fits: () => true,
  fields: ({ block }) => {
    const { minX, minY, maxX, maxY } = boxOf(block.outline);
    return [
      { kind: 'length', name: 'width', label: 'Width', initial: maxX - minX },
      { kind: 'length', name: 'height', label: 'Height', initial: maxY - minY },
      choice('drawing', 'The drawing in it', [
        ['along', 'Grows along'],
        ['stays', 'Stays as it is'],
      ]),
    ];
  },
  work: ({ block }, values) => {
    const { minX, minY, maxX, maxY } = boxOf(block.outline);
    const across = number(values, 'width') / (maxX - minX);
    const down = number(values, 'height') / (maxY - minY);
    if (!Number.isFinite(across) || !Number.isFinite(down))
      return refused('The outline has no width or height.');
    if (text(values, 'drawing') === 'along')
      return { ok: true, label: 'Resize block', change: (p) => scaleBlock(p, block.id, across, down) };
    const outline = block.outline.map(
      ([x, y]): Point => [minX + (x - minX) * across, minY + (y - minY) * down],
    );
    return { ok: true, label: 'Resize outline', change: (project) => setOutline(project, block.id, outline) };
  },
};

/** Every form, once, in the order in which cards and the palette show them. */
export const FORMS: readonly Form[] = [
  move,
  parallel,
  divide,
  rays,
  rings,
  turn,
  mirror,
  repeat,
  align,
  size,
];

export const formNamed = (name: string): Form | null => FORMS.find((form) => form.name === name) ?? null;
