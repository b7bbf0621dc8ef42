import { addCuts, removeCuts } from '../../document/edit-cuts.ts';
import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { distanceToSegment } from '../../geometry/ring.ts';
import { edgesOf } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
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
  label: phrase('Parallel lines…'),
  act: phrase('Draw lines'),
  needs: phrase('Choose one line first.'),
  fits: ({ cuts }) => cuts.length === 1,
  fields: ({ gridIn, cuts }) => [
    { kind: 'length', name: 'distance', label: phrase('Distance'), initial: gridIn > 0 ? gridIn * 4 : 1 },
    count('count', phrase('Lines'), 1, 1),
    choice('side', phrase('Side'), sidesOf(cuts[0]!)),
  ],
  work: (target, values) => {
    const signs = { right: [1], left: [-1], both: [1, -1] }[text(values, 'side')] ?? [1];
    const lines = signs.flatMap((sign) =>
      Array.from({ length: number(values, 'count') }, (_, index) =>
        parallelTo(target.block, target.cuts[0]!, sign * (index + 1) * number(values, 'distance')),
      ).flat(),
    );
    return drawn(
      target,
      phrase('Draw parallel lines'),
      lines,
      phrase('No line at that distance lies in the block.'),
    );
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
  const [ahead, behind] = isUpright ? [phrase('Right'), phrase('Left')] : [phrase('Below'), phrase('Above')];
  return [
    ['right', isAhead ? ahead! : behind!],
    ['left', isAhead ? behind! : ahead!],
    ['both', phrase('Both')],
  ];
}

export const divide: Form = {
  name: 'divide',
  label: phrase('Divide evenly…'),
  act: phrase('Divide'),
  needs: phrase('Choose an edge, a line or a patch first.'),
  fits: ({ cuts, chosen, patch }) => cuts.length === 1 || chosen?.kind === 'edge' || patch !== null,
  fields: ({ cuts, patch }) => [
    count('parts', phrase('Parts'), 3),
    cuts.length === 1
      ? choice('as', 'As', [
          ['marks', phrase('Spots to draw from')],
          ['cuts', phrase('Lines of their own')],
        ])
      : patch === null
        ? choice('as', 'As', [
            ['lines', phrase('Lines across')],
            ['marks', phrase('Spots to draw from')],
          ])
        : choice(
            'way',
            phrase('Strips running'),
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
            label: phrase('Divide'),
            change: (project) => project,
            divisions: spotsAlong([from, to], parts),
          }
        : {
            ok: true,
            label: phrase('Divide line'),
            change: (project) => splitEvenly(project, block.id, [id], parts),
          };
    }
    if (patch !== null) {
      const lines = strips(patch, number(values, 'way'), parts);
      return drawn(target, phrase('Divide patch'), lines, phrase('The patch is too small for so many.'));
    }
    if (chosen?.kind !== 'edge') return refused(divide.needs);
    if (text(values, 'as') === 'lines')
      return drawn(
        target,
        phrase('Divide edge'),
        linesAcross(block.outline, chosen.edge, parts),
        phrase('No line leads from that edge into the block.'),
      );
    const edge = edgesOf(block.outline)[chosen.edge]!;
    return {
      ok: true,
      label: phrase('Divide'),
      change: (project) => project,
      divisions: spotsAlong(edge, parts),
    };
  },
};

/** `level`, `upright`, `at 45°`. */
export function directionWords(degrees: number): string {
  const rounded = Number(degrees.toFixed(1)) % 180;
  return rounded === 0
    ? phrase('[[a direction]] horizontal')
    : rounded === 90
      ? phrase('[[a direction]] vertical')
      : phrase('at {rounded}°', { rounded });
}

export const rays: Form = {
  name: 'rays',
  label: phrase('Rays from a point…'),
  act: phrase('Draw rays'),
  needs: phrase('Open a block first.'),
  fits: () => true,
  fields: ({ block, chosen, patch, crosshair }) => {
    if (chosen?.kind === 'corner')
      return [count('count', phrase('Parts of corner {corner}', { corner: chosen.corner + 1 }), 4)];
    // From the middle of the chosen patch, from the crosshair, or from the middle; another place can be typed.
    const [across, down] = patch !== null ? innerSpot(patch) : (crosshair ?? middleOf(block.outline));
    return [
      { kind: 'shift', name: 'across', label: phrase('From across'), initial: across },
      { kind: 'shift', name: 'down', label: phrase('From down'), initial: down },
      count('count', phrase('Rays'), 8),
      { kind: 'degrees', name: 'first', label: phrase('The first at'), initial: 90 },
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
    return drawn(target, phrase('Draw rays'), lines, phrase('From there no ray leads into the block.'));
  },
};

export const rings: Form = {
  name: 'rings',
  label: phrase('Rings inside the outline…'),
  act: phrase('Draw rings'),
  needs: phrase('Open a block first.'),
  fits: () => true,
  fields: ({ gridIn }) => [
    { kind: 'length', name: 'distance', label: phrase('Distance'), initial: gridIn > 0 ? gridIn * 4 : 1 },
    count('count', phrase('Rings'), 1, 1),
    choice('style', phrase('Corners'), [
      ['cabin', phrase('Log cabin')],
      ['closed', phrase('Closed rings')],
    ]),
  ],
  work: (target, values) => {
    const { outline } = target.block;
    const style = text(values, 'style') as RingStyle;
    if (style === 'cabin' && !isConvex(outline))
      return refused(phrase('Log cabin rounds need an outline without inward corners.'));
    const wanted = number(values, 'count');
    const found = ringsInside(outline, number(values, 'distance'), wanted, style);
    if (found.length < wanted)
      return refused(
        found.length === 0
          ? phrase('No ring fits at that distance.')
          : phrase('Only {found} rings fit.', { found: found.length }),
      );
    return drawn(target, phrase('Draw rings'), found.flat(), phrase('No ring fits at that distance.'));
  },
};

export const shape: Form = {
  name: 'shape',
  label: phrase('Cut a shape out of the patch…'),
  act: phrase('Cut out'),
  needs: phrase('Choose a patch first.'),
  fits: ({ patch }) => patch !== null,
  fields: ({ patch }) => {
    const [across, down] = innerSpot(patch!);
    const room = Math.min(
      ...[patch!.polygon, ...patch!.holes]
        .flatMap(edgesOf)
        .map((edge) => distanceToSegment([across, down], ...edge)),
    );
    return [
      { kind: 'count', name: 'corners', label: phrase('Corners'), initial: 4, least: 3, most: 12 },
      // In quarters of an inch, well inside.
      {
        kind: 'length',
        name: 'across',
        label: phrase('Across the corners'),
        initial: Math.max(1 / 4, Math.floor(room * 6) / 4),
      },
      { kind: 'degrees', name: 'first', label: phrase('A corner at'), initial: 90 },
      { kind: 'shift', name: 'x', label: phrase('Middle across'), initial: across },
      { kind: 'shift', name: 'y', label: phrase('Middle down'), initial: down },
    ];
  },
  work: (target, values) =>
    drawn(
      target,
      phrase('Cut shape out'),
      polygonInside(target.patch!, {
        middle: [number(values, 'x'), number(values, 'y')],
        corners: number(values, 'corners'),
        across: number(values, 'across'),
        first: number(values, 'first'),
      }),
      phrase('Nothing of the shape lies in the patch.'),
    ),
};

export const bend: Form = {
  name: 'bend',
  label: phrase('Bend into an arc…'),
  act: phrase('Bend'),
  needs: phrase('Choose one line first.'),
  fits: ({ cuts }) => cuts.length === 1 && cuts[0]!.locked !== true,
  fields: ({ cuts, gridIn }) => [
    {
      kind: 'length',
      name: 'height',
      label: phrase('Height of the arc'),
      initial: gridIn > 0 ? gridIn * 2 : 1 / 2,
    },
    count('legs', phrase('Lines'), 4),
    choice('side', phrase('Side'), sidesOf(cuts[0]!).slice(0, 2)),
  ],
  work: ({ block, cuts }, values) => {
    const [{ id, from, to, role }] = cuts as readonly [(typeof cuts)[number]];
    const height = number(values, 'height') * (text(values, 'side') === 'right' ? -1 : 1);
    const points = arcOfHeight(from, to, height, number(values, 'legs'));
    const legs = points.slice(1).map((end, k) => ({ from: points[k]!, to: end, role }));
    return {
      ok: true,
      label: phrase('Bend line'),
      selectsNew: true,
      change: (project) => addCuts(removeCuts(project, block.id, [id]), block.id, legs),
    };
  },
};
