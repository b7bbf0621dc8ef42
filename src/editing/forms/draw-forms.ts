import { addCuts, removeCuts } from '../../document/edit-cuts.ts';
import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { distanceToSegment } from '../../geometry/ring.ts';
import { edgesOf } from '../../geometry/segments.ts';
import { arcOfHeight } from '../curves.ts';
import { linesAcross, sideDirections, spotsAlong, strips } from '../shapes/divide.ts';
import { parallelTo } from '../shapes/parallel.ts';
import { polygonInside } from '../shapes/polygon.ts';
import { raysFromCorner, raysRound } from '../shapes/rays.ts';
import { isConvex, type RingStyle, ringsInside } from '../shapes/rings.ts';
import { splitEvenly } from '../split.ts';
import { middleOf } from '../symmetry.ts';
import { choice, count, drawn, number, refused, text } from './fields.ts';
import type { Form } from './form.ts';

/** Forms that draw lines. */

export const parallel: Form = {
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

export const divide: Form = {
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

export const rays: Form = {
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

export const rings: Form = {
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

export const shape: Form = {
  name: 'shape',
  label: 'Cut a shape out of the patch…',
  act: 'Cut out',
  needs: 'Choose a patch first.',
  fits: ({ patch }) => patch !== null,
  fields: ({ patch }) => {
    const [across, down] = innerSpot(patch!);
    const room = Math.min(
      ...[patch!.polygon, ...patch!.holes]
        .flatMap(edgesOf)
        .map((edge) => distanceToSegment([across, down], ...edge)),
    );
    return [
      { kind: 'count', name: 'corners', label: 'Corners', initial: 4, least: 3, most: 12 },
      // In quarters of an inch, well inside.
      {
        kind: 'length',
        name: 'across',
        label: 'Across the corners',
        initial: Math.max(1 / 4, Math.floor(room * 6) / 4),
      },
      { kind: 'degrees', name: 'first', label: 'A corner at', initial: 90 },
      { kind: 'shift', name: 'x', label: 'Middle across', initial: across },
      { kind: 'shift', name: 'y', label: 'Middle down', initial: down },
    ];
  },
  work: (target, values) =>
    drawn(
      target,
      'Cut shape out',
      polygonInside(target.patch!, {
        middle: [number(values, 'x'), number(values, 'y')],
        corners: number(values, 'corners'),
        across: number(values, 'across'),
        first: number(values, 'first'),
      }),
      'Nothing of the shape lies in the patch.',
    ),
};

export const bend: Form = {
  name: 'bend',
  label: 'Bend into an arc…',
  act: 'Bend',
  needs: 'Choose one cut first.',
  fits: ({ cuts }) => cuts.length === 1 && cuts[0]!.locked !== true,
  fields: ({ cuts, gridIn }) => [
    { kind: 'length', name: 'height', label: 'Height of the arc', initial: gridIn > 0 ? gridIn * 2 : 1 / 2 },
    count('legs', 'Cuts', 4),
    choice('side', 'Side', sidesOf(cuts[0]!).slice(0, 2)),
  ],
  work: ({ block, cuts }, values) => {
    const [{ id, from, to, role }] = cuts as readonly [(typeof cuts)[number]];
    const height = number(values, 'height') * (text(values, 'side') === 'right' ? -1 : 1);
    const points = arcOfHeight(from, to, height, number(values, 'legs'));
    const legs = points.slice(1).map((end, k) => ({ from: points[k]!, to: end, role }));
    return {
      ok: true,
      label: 'Bend cut',
      selectsNew: true,
      change: (project) => addCuts(removeCuts(project, block.id, [id]), block.id, legs),
    };
  },
};
