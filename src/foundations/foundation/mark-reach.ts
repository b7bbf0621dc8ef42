import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { contains, distanceToSegment, middle } from '../../geometry/ring.ts';
import { type Mark, PT, type TextMark, textCorners } from '../marks.ts';
import type { Typeface } from '../type/typeface.ts';
import type { LabelBox } from './ground.ts';

/** The boxes of marks that do not lie inside the trim line. */
export function beyond(trim: Ring, marks: readonly Mark[], typeface: Typeface): Ring[] {
  return marks
    .map((mark) => reach(mark, typeface))
    .filter((points) =>
      points.some(
        (point) =>
          !contains(trim, point) &&
          trim.every((a, i) => distanceToSegment(point, a, trim[(i + 1) % trim.length]!) > 1e-6),
      ),
    );
}

/** The box around a text, and around the line of an arrow, that hatching keeps off. */
export function labelBox(mark: Mark, typeface: Typeface): LabelBox | null {
  if (mark.kind !== 'text') return null;
  const [a, , c] = textCorners(mark, ...inkOf(mark, typeface)) as [Point, Point, Point, Point];
  const { up, down } = typeface.extent(mark.text, mark.face);
  return {
    middle: middle(a, c),
    halfWidth: mark.width / 2 + LABEL_PAD_IN,
    halfHeight: ((up + down) * mark.size) / 2 + LABEL_PAD_IN,
    turn: (mark.turn * Math.PI) / 180,
  };
}

const inkOf = ({ text, face, size }: TextMark, typeface: Typeface): [up: number, down: number] => {
  const { up, down } = typeface.extent(text, face);
  return [up * size, down * size];
};

/** Clear space that hatching leaves around a label, inches. */
const LABEL_PAD_IN = 1.5 * PT;

/** The straight stretches of drawn lines, for labels to keep off. */
export function obstaclesOf(lines: readonly Mark[]): Segment[] {
  return lines.flatMap((mark): Segment[] => {
    switch (mark.kind) {
      case 'line':
        return mark.points.slice(1).map((point, i): Segment => [mark.points[i]!, point]);
      case 'polygon':
        return mark.ring.map((point, i): Segment => [point, mark.ring[(i + 1) % mark.ring.length]!]);
      default:
        return [];
    }
  });
}

/** Points around a mark, as far as it reaches. */
export function reach(mark: Mark, typeface: Typeface): readonly Point[] {
  switch (mark.kind) {
    case 'line':
      return mark.points;
    case 'polygon':
      return mark.ring;
    case 'circle':
      return [
        [mark.at[0] - mark.radius, mark.at[1] - mark.radius],
        [mark.at[0] + mark.radius, mark.at[1] - mark.radius],
        [mark.at[0] + mark.radius, mark.at[1] + mark.radius],
        [mark.at[0] - mark.radius, mark.at[1] + mark.radius],
      ];
    case 'text': {
      const { up, down } = typeface.extent(mark.text, mark.face);
      return textCorners(mark, up * mark.size, down * mark.size);
    }
  }
}
