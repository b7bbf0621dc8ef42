import { Clipper, FillRule, type Path64, type Paths64 } from 'clipper2-ts';
import ArrayList from 'jsts/java/util/ArrayList.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import PrecisionModel from 'jsts/org/locationtech/jts/geom/PrecisionModel.js';
import NodedSegmentString from 'jsts/org/locationtech/jts/noding/NodedSegmentString.js';
import MCIndexSnapRounder from 'jsts/org/locationtech/jts/noding/snapround/MCIndexSnapRounder.js';
import Polygonizer from 'jsts/org/locationtech/jts/operation/polygonize/Polygonizer.js';
import type { Point } from '../../src/geometry/point.ts';
import { isInside, lerp } from '../designs/plane.ts';
import type { BenchDesign } from './bench-design.ts';

/** Ways others find the faces of a drawing. Each takes the plain lines and gives back how many faces it found. */

const STEPS_PER_IN = 65536;

/** How far past its ends a line is drawn for JSTS, in steps of 2^-16 in. */
const OVERSHOOT_STEPS = 4;

/**
 * JSTS: its snap-rounding noder breaks the lines at each other, its Polygonizer makes faces of the pieces. The
 * noder is sure of itself on whole numbers only, so it gets the lines in steps of 2^-16 in. An end that rounding
 * has moved off its line is no meeting for it, which loses one face in thirty; each line is therefore drawn a
 * few steps past both ends, and it finds them all.
 */
export function jstsFaces({ outline, lines }: BenchDesign): number {
  const factory = new GeometryFactory();
  const strings = new ArrayList(undefined);
  const addLine = ([ax, ay]: Point, [bx, by]: Point, overshoot: number): void => {
    const length = Math.hypot(bx - ax, by - ay) * STEPS_PER_IN;
    const ux = ((bx - ax) * STEPS_PER_IN * overshoot) / length;
    const uy = ((by - ay) * STEPS_PER_IN * overshoot) / length;
    const ends = [
      new Coordinate(Math.round(ax * STEPS_PER_IN - ux), Math.round(ay * STEPS_PER_IN - uy)),
      new Coordinate(Math.round(bx * STEPS_PER_IN + ux), Math.round(by * STEPS_PER_IN + uy)),
    ];
    strings.add(new NodedSegmentString(ends, null));
  };
  for (const [i, p] of outline.entries()) addLine(p, outline[(i + 1) % outline.length]!, 0);
  for (const [a, b] of lines) addLine(a, b, OVERSHOOT_STEPS);
  const noder = new MCIndexSnapRounder(new PrecisionModel(1));
  noder.computeNodes(strings);
  const polygonizer = new Polygonizer();
  // The noder may give a piece twice; the Polygonizer wants each once.
  const seen = new Set<string>();
  for (const piece of noder.getNodedSubstrings().toArray() as NodedSegmentString[]) {
    const ends: Coordinate[] = piece.getCoordinates();
    const key = ends
      .map((c) => `${c.x} ${c.y}`)
      .sort()
      .join(' ');
    if (ends.length < 2 || seen.has(key)) continue;
    seen.add(key);
    polygonizer.add(factory.createLineString(ends));
  }
  return polygonizer.getPolygons().size();
}

const toPath = (ring: readonly Point[]): Path64 =>
  ring.map(([x, y]) => ({ x: Math.round(x * STEPS_PER_IN), y: Math.round(y * STEPS_PER_IN) }));

/**
 * clipper2-ts: it has no finder of faces, so faces are cut in two one by one. For each line, in an order in
 * which a line crosses one face only, the face that holds its middle is clipped by the half plane on one side
 * and then by the one on the other. (Neighbours share no vertices afterwards: this does less than the others.)
 */
export function clipperFaces({ outline, lines }: BenchDesign): number {
  const faces: { ring: Point[]; path: Path64; x0: number; y0: number; x1: number; y1: number }[] = [];
  const add = (path: Path64): void => {
    const ring = path.map((p): Point => [p.x / STEPS_PER_IN, p.y / STEPS_PER_IN]);
    const xs = ring.map((p) => p[0]);
    const ys = ring.map((p) => p[1]);
    faces.push({
      ring,
      path,
      x0: Math.min(...xs),
      y0: Math.min(...ys),
      x1: Math.max(...xs),
      y1: Math.max(...ys),
    });
  };
  add(toPath(outline));
  for (const [a, b] of lines) {
    const [x, y] = lerp(a, b, 0.5);
    const f = faces.findIndex(
      (face) => x >= face.x0 && x <= face.x1 && y >= face.y0 && y <= face.y1 && isInside([x, y], face.ring),
    );
    if (f < 0) continue;
    const { path } = faces[f]!;
    const halves = halfPlanes(a, b).map(
      (half): Paths64 => Clipper.intersect([path], [half], FillRule.NonZero),
    );
    if (halves.some((half) => half.length !== 1)) continue;
    faces.splice(f, 1);
    for (const half of halves) add(half[0]!);
  }
  return faces.length;
}

/** Two large rectangles on either side of the line through two points. */
function halfPlanes(a: Point, b: Point): [Path64, Path64] {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = [((b[0] - a[0]) / length) * 300, ((b[1] - a[1]) / length) * 300];
  const back: Point = [a[0] - ux, a[1] - uy];
  const ahead: Point = [b[0] + ux, b[1] + uy];
  const beside = (side: 1 | -1): Path64 =>
    toPath([
      back,
      ahead,
      [ahead[0] - side * uy, ahead[1] + side * ux],
      [back[0] - side * uy, back[1] + side * ux],
    ]);
  return [beside(1), beside(-1)];
}
