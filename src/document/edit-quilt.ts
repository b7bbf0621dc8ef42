import { snap, TOUCH_IN } from '../geometry/lattice.ts';
import type { Point, Ring } from '../geometry/point.ts';
import { boxOf } from '../geometry/ring.ts';
import { onLattice } from './limits.ts';
import { polygonOf, sizeAsLaid } from './place-polygon.ts';
import type { Block, Project } from './project.ts';
import { type BlockPlace, isBlockPlace, type Place, type PlainPlace, type Quilt } from './quilt.ts';
import { PLACES_PER_QUILT } from './quilt-limits.ts';

/** What lies in a place: a block as it is turned and mirrored, a plain piece, or nothing chosen yet. */
export type Filling =
  | { readonly block: string; readonly turn: number; readonly mirrored: boolean }
  | { readonly fabric: string }
  | null;

const EMPTY_QUILT: Quilt = { places: [] };

/** The quilt of a project; one without places where it has none. */
export const quiltOf = (project: Project): Quilt => project.quilt ?? EMPTY_QUILT;

/** The project with its quilt changed; itself where the change gives the same quilt back. */
export function changeQuilt(project: Project, change: (quilt: Quilt) => Quilt): Project {
  const quilt = quiltOf(project);
  const changed = change(quilt);
  return changed === quilt || changed.places.length > PLACES_PER_QUILT
    ? project
    : { ...project, quilt: changed };
}

/** The quilt with other places; units that name places that are gone lose them. */
export function withPlaces(quilt: Quilt, places: readonly Place[]): Quilt {
  const ids = new Set(places.map(({ id }) => id));
  const units = quilt.units
    ?.map((unit) => (unit.every((id) => ids.has(id)) ? unit : unit.filter((id) => ids.has(id))))
    .filter((unit) => unit.length > 1);
  const { units: _units, ...rest } = quilt;
  return { ...rest, places, ...(units !== undefined && units.length > 0 && { units }) };
}

/** The quilt as it lies free: places were moved, so that no setting describes them any longer. */
function laidFree(quilt: Quilt, places: readonly Place[]): Quilt {
  const { setting: _setting, ...rest } = withPlaces(quilt, places);
  return rest;
}

/** Moves places by so much, inches. */
export function movePlaces(project: Project, ids: ReadonlySet<string>, [dx, dy]: Point): Project {
  const step: Point = [snap(dx), snap(dy)];
  if (ids.size === 0 || (step[0] === 0 && step[1] === 0)) return project;
  return changeQuilt(project, (quilt) =>
    laidFree(
      quilt,
      quilt.places.map((place) =>
        ids.has(place.id)
          ? { ...place, at: onLattice([place.at[0] + step[0], place.at[1] + step[1]]) }
          : place,
      ),
    ),
  );
}

/** Takes places away, and what they leave is a gap. */
export const removePlaces = (project: Project, ids: ReadonlySet<string>): Project =>
  changeQuilt(project, (quilt) =>
    quilt.places.some(({ id }) => ids.has(id))
      ? laidFree(
          quilt,
          quilt.places.filter(({ id }) => !ids.has(id)),
        )
      : quilt,
  );

/** The id that the next place takes. */
export function nextPlaceId({ places }: Quilt): string {
  const highest = places.reduce(
    (most, { id }) => Math.max(most, Number(/^p([1-9]\d{0,8})$/.exec(id)?.[1] ?? 0)),
    0,
  );
  return `p${highest + 1}`;
}

/** Adds a place; its id is `nextPlaceId`. */
export const addPlace = (project: Project, place: Omit<BlockPlace, 'id'> | Omit<PlainPlace, 'id'>): Project =>
  changeQuilt(project, (quilt) =>
    laidFree(quilt, [
      ...quilt.places,
      { ...place, id: nextPlaceId(quilt), at: onLattice(place.at) } as Place,
    ]),
  );

/** Turns what lies in places by quarters, clockwise, the upper left corner of each staying where it is. */
export const turnPlaces = (project: Project, ids: ReadonlySet<string>, quarters: number): Project =>
  changePlaces(project, ids, (place) => {
    if (isBlockPlace(place)) return { ...place, turn: (((place.turn + quarters) % 4) + 4) % 4 };
    if (quarters % 2 === 0 || place.shape !== undefined) return place;
    return { ...place, size: [place.size[1], place.size[0]] };
  });

/** Shows the blocks of places from left to right the other way, as they lie. */
export const mirrorPlaces = (project: Project, ids: ReadonlySet<string>): Project =>
  changePlaces(project, ids, (place) =>
    // Mirrored first, then turned: seen from the front a turn to the right becomes one to the left.
    isBlockPlace(place) ? { ...place, mirrored: !place.mirrored, turn: (4 - place.turn) % 4 } : place,
  );

function changePlaces(project: Project, ids: ReadonlySet<string>, change: (place: Place) => Place): Project {
  return changeQuilt(project, (quilt) => {
    const places = quilt.places.map((place) => (ids.has(place.id) ? change(place) : place));
    return places.every((place, k) => place === quilt.places[k]) ? quilt : withPlaces(quilt, places);
  });
}

/** Does a block, turned so, fill a place as it lies? */
export function fits(
  place: Place,
  turn: number,
  mirrored: boolean,
  blocks: readonly Block[],
  outline: Ring,
): boolean {
  const own = boxOf(polygonOf(place, outlinesOf(blocks)));
  const size = sizeAsLaid(outline, turn, mirrored);
  return (
    Math.abs(own.maxX - own.minX - size[0]) <= TOUCH_IN && Math.abs(own.maxY - own.minY - size[1]) <= TOUCH_IN
  );
}

/** Half a quarter, where a place stands on its point. */
export function standsOnPoint(place: Place): boolean {
  if (isBlockPlace(place)) return place.turn % 1 !== 0;
  const { shape, size } = place;
  return (
    shape?.length === 4 &&
    shape.every(([x, y]) => Math.abs(Math.abs(x / size[0] - 0.5) + Math.abs(y / size[1] - 0.5) - 0.5) < 0.01)
  );
}

/**
 * Fills places. A block fills those it is as large as, turned a quarter where only that fits; others stay as they are.
 * `filling.turn` is in quarters beside that of the place itself.
 */
export function fillPlaces(project: Project, ids: ReadonlySet<string>, filling: Filling): Project {
  const { blocks } = project;
  const outline =
    filling && 'block' in filling ? blocks.find(({ id }) => id === filling.block)?.outline : undefined;
  return changePlaces(project, ids, (place) => {
    const kept = { id: place.id, at: place.at, ...(place.part !== undefined && { part: place.part }) };
    if (filling && 'block' in filling) {
      if (!outline) return place;
      const own = standsOnPoint(place) ? 0.5 : 0;
      const turns = [filling.turn, filling.turn + 1].map((turn) => (turn + own) % 4);
      const turn = turns.find((one) => fits(place, one, filling.mirrored, blocks, outline));
      if (turn === undefined) return place;
      return { ...kept, block: filling.block, turn, mirrored: filling.mirrored };
    }
    const plain = isBlockPlace(place) ? emptied(place, blocks) : place;
    const { fabric: _fabric, ...bare } = plain;
    return filling === null ? bare : { ...bare, fabric: filling.fabric };
  });
}

/** The plain piece that is left where a block lay. */
function emptied(place: BlockPlace, blocks: readonly Block[]): PlainPlace {
  const polygon = polygonOf(place, outlinesOf(blocks));
  const { minX, minY, maxX, maxY } = boxOf(polygon);
  const isBox =
    polygon.length === 4 &&
    polygon.every(([x, y]) => (x === minX || x === maxX) && (y === minY || y === maxY));
  return {
    id: place.id,
    at: place.at,
    size: [maxX - minX, maxY - minY],
    ...(place.part !== undefined && { part: place.part }),
    ...(isBox ? {} : { shape: polygon.map(([x, y]): Point => [x - minX, y - minY]) }),
  };
}

const outlinesOf =
  (blocks: readonly Block[]) =>
  (id: string): Ring =>
    blocks.find((block) => block.id === id)!.outline;

/** Two places change what lies in them; where their sizes differ they change where they lie. */
export function swapPlaces(project: Project, oneId: string, otherId: string): Project {
  const { blocks } = project;
  return changeQuilt(project, (quilt) => {
    const one = quilt.places.find(({ id }) => id === oneId);
    const other = quilt.places.find(({ id }) => id === otherId);
    if (!one || !other || one === other) return quilt;
    const [a, b] = [one, other].map((place) => boxOf(polygonOf(place, outlinesOf(blocks)))) as [Box, Box];
    const isSame =
      Math.abs(a.maxX - a.minX - (b.maxX - b.minX)) <= TOUCH_IN &&
      Math.abs(a.maxY - a.minY - (b.maxY - b.minY)) <= TOUCH_IN;
    const swapped = quilt.places.map((place) =>
      place === one ? { ...other, at: one.at } : place === other ? { ...one, at: other.at } : place,
    );
    if (!isSame)
      return laidFree(
        quilt,
        quilt.places.map((place) =>
          place === one ? { ...one, at: other.at } : place === other ? { ...other, at: one.at } : place,
        ),
      );
    // The ids stay where they were, so that units made by hand go on meaning the same stretch of the quilt.
    return withPlaces(
      quilt,
      swapped.map((place, k) => ({ ...place, id: quilt.places[k]!.id })),
    );
  });
}

type Box = ReturnType<typeof boxOf>;

/** The quilt without a block: its places stay, plain and empty. Layouts kept beside it and borders likewise. */
export function withoutBlock(quilt: Quilt, blockId: string, blocks: readonly Block[]): Quilt {
  const emptyPlaces = (places: readonly Place[]): readonly Place[] =>
    places.some((place) => isBlockPlace(place) && place.block === blockId)
      ? places.map((place) =>
          isBlockPlace(place) && place.block === blockId ? emptied(place, blocks) : place,
        )
      : places;
  const plainBorders = (borders: Quilt['borders']): Quilt['borders'] =>
    borders?.map(({ block, ...border }) =>
      block === undefined || block === blockId ? border : { ...border, block },
    );
  const withoutIt = <Of extends Pick<Quilt, 'places' | 'borders'>>(of: Of): Of => ({
    ...of,
    places: emptyPlaces(of.places),
    ...(of.borders && { borders: plainBorders(of.borders) }),
  });
  return { ...withoutIt(quilt), ...(quilt.layouts && { layouts: quilt.layouts.map(withoutIt) }) };
}

/** How many places show a block. */
export const placesOfBlock = ({ places }: Quilt, blockId: string): number =>
  places.filter((place) => isBlockPlace(place) && place.block === blockId).length;

/** The quilt with other fabrics; a fabric that turns into null is gone. All its parts go by the keys that hold fabrics. */
export function withFabrics(quilt: Quilt, instead: (fabric: string) => string | null): Quilt {
  const walk = (value: unknown): unknown => {
    if (Array.isArray(value)) {
      const items = value.map(walk);
      return items.every((item, k) => item === value[k]) ? value : items;
    }
    if (typeof value !== 'object' || value === null) return value;
    let isChanged = false;
    const entries = Object.entries(value).flatMap(([key, inner]): [string, unknown][] => {
      const isFabric =
        typeof inner === 'string' &&
        (key === 'fabric' || key === 'cornerFabric' || key === 'cornerstoneFabric');
      const changed = isFabric ? instead(inner) : key === 'copies' ? inner : walk(inner);
      if (changed !== inner) isChanged = true;
      return isFabric && changed === null ? [] : [[key, changed]];
    });
    return isChanged ? Object.fromEntries(entries) : value;
  };
  const { copies, ...rest } = quilt;
  const changed = walk(rest) as Quilt;
  const palettes = copies?.map(({ fabrics, ...copy }) => ({
    ...copy,
    fabrics: Object.fromEntries(
      Object.entries(fabrics).flatMap(([from, to]): [string, string][] => {
        const [a, b] = [instead(from), instead(to)];
        return a === null || b === null ? [] : [[a, b]];
      }),
    ),
  }));
  const isSame = changed === rest && JSON.stringify(palettes) === JSON.stringify(copies);
  return isSame ? quilt : { ...changed, ...(palettes && { copies: palettes }) };
}
