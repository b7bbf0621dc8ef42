import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import Polygonizer from 'jsts/org/locationtech/jts/operation/polygonize/Polygonizer.js';
import type { Point, Ring, Segment } from '../../src/geometry/point.ts';
import { apart, crossing, distanceToStretch } from './plane.ts';

/**
 * The faces of a drawing by someone else's hand: every line is broken where another meets it, and JSTS (the
 * JavaScript form of the JTS Topology Suite) makes the polygons.
 */

/** Ends and crossings closer than this are one node. Wider than the lattice's rounding, far below any gap drawn. */
const NODE_IN = 2e-4;

/** Lines broken at all ends and crossings of others: pieces between nodes, each once. Cost: O(n²), made plain. */
export function nodedPieces(lines: readonly Segment[]): Segment[] {
  const nodes: Point[] = [];
  const nodeAt = (p: Point): number => {
    const known = nodes.findIndex((q) => apart(p, q) < NODE_IN);
    return known >= 0 ? known : nodes.push(p) - 1;
  };
  for (const [a, b] of lines) {
    nodeAt(a);
    nodeAt(b);
  }
  lines.forEach((line, i) => {
    for (const other of lines.slice(0, i)) {
      const at = crossing(line, other);
      if (at) nodeAt(at);
    }
  });
  const pieces = new Map<string, Segment>();
  for (const [a, b] of lines) {
    const on = nodes
      .map((p, i) => ({ p, i }))
      .filter(({ p }) => distanceToStretch(p, a, b) < NODE_IN)
      .sort((s, t) => apart(a, s.p) - apart(a, t.p));
    for (let k = 1; k < on.length; k++) {
      const [p, q] = [on[k - 1]!, on[k]!];
      pieces.set(p.i < q.i ? `${p.i} ${q.i}` : `${q.i} ${p.i}`, [p.p, q.p]);
    }
  }
  return [...pieces.values()];
}

export interface PeerFaces {
  /** Areas of all faces, holes taken out, falling. */
  readonly areas: readonly number[];
  /** Pieces that bound no face: loose ends. */
  readonly dangles: number;
}

export function polygonizerFaces(outline: Ring, lines: readonly Segment[]): PeerFaces {
  const factory = new GeometryFactory();
  const polygonizer = new Polygonizer();
  const rim = outline.map((p, i): Segment => [p, outline[(i + 1) % outline.length]!]);
  for (const [a, b] of nodedPieces([...rim, ...lines])) {
    polygonizer.add(factory.createLineString([new Coordinate(a[0], a[1]), new Coordinate(b[0], b[1])]));
  }
  const areas: number[] = polygonizer
    .getPolygons()
    .toArray()
    .map((polygon: { getArea(): number }) => polygon.getArea());
  return { areas: areas.sort((a, b) => b - a), dangles: polygonizer.getDangles().size() };
}
