import type { Mark, TextMark } from '../../src/foundations/marks.ts';
import type { Point, Segment } from '../../src/geometry/point.ts';
import { inkCorners, textsOf } from './harbour.ts';

/**
 * What lies over what on a drawing, found from the drawn marks alone and by other means than the placing of
 * labels uses: corners of quadrilaterals, edge by edge.
 */

const side = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

function segmentsCross([a, b]: Segment, [c, d]: Segment): boolean {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

function inside(quad: readonly Point[], p: Point): boolean {
  const sides = quad.map((a, i) => side(a, quad[(i + 1) % quad.length]!, p));
  return sides.every((s) => s > 0) || sides.every((s) => s < 0);
}

const edgesOf = (quad: readonly Point[]): Segment[] => quad.map((a, i) => [a, quad[(i + 1) % quad.length]!]);

const quadMeetsSegment = (quad: readonly Point[], segment: Segment): boolean =>
  segment.some((end) => inside(quad, end)) || edgesOf(quad).some((edge) => segmentsCross(edge, segment));

const quadsMeet = (a: readonly Point[], b: readonly Point[]): boolean =>
  a.some((p) => inside(b, p)) ||
  b.some((p) => inside(a, p)) ||
  edgesOf(a).some((edge) => edgesOf(b).some((other) => segmentsCross(edge, other)));

const boxOf = (points: readonly Point[]): readonly [number, number, number, number] => [
  Math.min(...points.map((p) => p[0])),
  Math.min(...points.map((p) => p[1])),
  Math.max(...points.map((p) => p[0])),
  Math.max(...points.map((p) => p[1])),
];

/** Pairs of texts whose ink boxes overlap. */
export function overlappingTexts(marks: readonly Mark[]): string[] {
  const texts = textsOf(marks).map((mark) => ({
    mark,
    quad: inkCorners(mark),
    box: boxOf(inkCorners(mark)),
  }));
  const found: string[] = [];
  texts.forEach((a, i) => {
    for (const b of texts.slice(i + 1)) {
      if (a.box[0] > b.box[2] || b.box[0] > a.box[2] || a.box[1] > b.box[3] || b.box[1] > a.box[3]) continue;
      if (quadsMeet(a.quad, b.quad)) found.push(`${a.mark.text} / ${b.mark.text}`);
    }
  });
  return found;
}

/** Texts with a line of the given pens under their ink box. */
export function textsOverLines(marks: readonly Mark[], pens: readonly string[]): TextMark[] {
  const lines = marks.flatMap((mark): Segment[] => {
    if (mark.kind === 'line' && pens.includes(mark.pen))
      return mark.points.slice(1).map((p, i): Segment => [mark.points[i]!, p]);
    return mark.kind === 'polygon' && pens.includes(mark.pen) ? edgesOf(mark.ring) : [];
  });
  return textsOf(marks).filter((mark) => {
    const quad = inkCorners(mark);
    return lines.some((line) => quadMeetsSegment(quad, line));
  });
}
