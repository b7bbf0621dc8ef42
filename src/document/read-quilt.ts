import { snap } from '../geometry/lattice.ts';
import { onLattice } from './limits.ts';
import type { Place, Quilt } from './quilt.ts';
import type { FileQuilt } from './quilt-schema.ts';

/** The quilt of a checked file: snapped, with what is left out filled in, and keys that are not known kept. */
export function readQuilt({ layouts, ...quilt }: FileQuilt): Quilt {
  const places = quilt.places.map(readPlace);
  return {
    ...quilt,
    places,
    ...(layouts && {
      layouts: layouts.map((layout) => ({ ...layout, places: layout.places.map(readPlace) })),
    }),
  } as Quilt;
}

function readPlace({ at, turn, mirrored, size, shape, ...place }: FileQuilt['places'][number]): Place {
  if (place.block !== undefined)
    return { ...place, at: onLattice(at), turn: turn ?? 0, mirrored: mirrored ?? false } as Place;
  return {
    ...place,
    at: onLattice(at),
    size: [snap(size![0]), snap(size![1])],
    ...(shape && { shape: shape.map(onLattice) }),
  } as Place;
}
