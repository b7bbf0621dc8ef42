import type { Ring } from '../geometry/point.ts';
import { boxOf } from '../geometry/ring.ts';
import { phrase } from '../words/phrase.ts';
import { type Fault, oneLine, type Path } from './file-place.ts';
import { MAX_QUILT_IN } from './quilt-limits.ts';
import type { FileQuilt } from './quilt-schema.ts';

interface Named {
  readonly id: string;
}

interface Given {
  readonly fabrics: readonly Named[];
  readonly blocks: readonly (Named & { readonly outline: Ring })[];
}

/** Ids used twice, blocks, fabrics and places that are named and not there, and sizes beyond any quilt. */
export function checkQuilt(quilt: FileQuilt, { fabrics, blocks }: Given): Fault | null {
  const known = { block: idsOf(blocks), fabric: idsOf(fabrics) };
  const outlines = new Map(blocks.map(({ id, outline }) => [id, outline]));
  const arrangements: readonly {
    readonly path: Path;
    readonly of: Pick<FileQuilt, 'places' | 'borders' | 'setting'>;
  }[] = [
    { path: ['quilt'], of: quilt },
    ...(quilt.layouts ?? []).map((of, i) => ({ path: ['quilt', 'layouts', i] as Path, of })),
  ];
  for (const { path, of } of arrangements) {
    const fault =
      sameId(of.places, [...path, 'places']) ??
      missing(of.places, [...path, 'places'], known) ??
      missing(of.borders ?? [], [...path, 'borders'], known) ??
      missing(of.setting === undefined ? [] : [of.setting], [...path, 'setting'], known, true) ??
      tooWide(of, path, outlines);
    if (fault !== null) return fault;
  }
  const placeIds = idsOf(quilt.places);
  for (const [i, unit] of (quilt.units ?? []).entries()) {
    const stray = unit.find((id) => !placeIds.has(id));
    if (stray !== undefined)
      return {
        path: ['quilt', 'units', i],
        predicate: phrase('holds ‘{stray}’, which is no place of the quilt', { stray: oneLine(stray) }),
      };
  }
  for (const [i, { fabrics: swaps }] of (quilt.copies ?? []).entries())
    for (const fabric of Object.entries(swaps).flat())
      if (!known.fabric.has(fabric))
        return {
          path: ['quilt', 'copies', i, 'fabrics'],
          predicate: phrase('names ‘{fabric}’, which is not in the list of fabrics', {
            fabric: oneLine(fabric),
          }),
        };
  for (const [part, of] of Object.entries(quilt.finishing ?? {})) {
    const fabric = (of as { readonly fabric?: unknown } | undefined)?.fabric;
    if (typeof fabric === 'string' && !known.fabric.has(fabric))
      return notListed(['quilt', 'finishing', part, 'fabric'], fabric, 'fabrics');
  }
  return null;
}

const idsOf = (named: readonly Named[]): ReadonlySet<string> => new Set(named.map(({ id }) => id));

function sameId(places: readonly Named[], path: Path): Fault | null {
  const first = new Map<string, number>();
  for (const [i, { id }] of places.entries()) {
    const earlier = first.get(id);
    if (earlier !== undefined)
      return {
        path: [...path, i, 'id'],
        predicate: phrase('‘{id}’ is already that of place {earlier}', {
          id: oneLine(id),
          earlier: earlier + 1,
        }),
      };
    first.set(id, i);
  }
  return null;
}

const notListed = (path: Path, id: string, list: 'blocks' | 'fabrics'): Fault => ({
  path,
  predicate: phrase('‘{id}’ is not in the list of {list, select, blocks {blocks} other {fabrics}}', {
    id: oneLine(id),
    list,
  }),
});

interface Naming {
  readonly block?: string | undefined;
  readonly fabric?: string | undefined;
  readonly cornerFabric?: string | undefined;
  readonly sashing?:
    | { readonly fabric?: string | undefined; readonly cornerstoneFabric?: string | undefined }
    | undefined;
  readonly strip?: { readonly fabric?: string | undefined } | undefined;
}

function missing(
  items: readonly Naming[],
  path: Path,
  known: { readonly block: ReadonlySet<string>; readonly fabric: ReadonlySet<string> },
  isSingle = false,
): Fault | null {
  for (const [i, { block, fabric, cornerFabric, sashing, strip }] of items.entries()) {
    const at = isSingle ? path : [...path, i];
    if (block !== undefined && !known.block.has(block)) return notListed([...at, 'block'], block, 'blocks');
    for (const cloth of [fabric, cornerFabric, sashing?.fabric, sashing?.cornerstoneFabric, strip?.fabric])
      if (cloth !== undefined && !known.fabric.has(cloth))
        return notListed([...at, 'fabric'], cloth, 'fabrics');
  }
  return null;
}

/** A border wider than all the quilt, or a quilt larger than any. */
function tooWide(
  { places, borders = [] }: Pick<FileQuilt, 'places' | 'borders'>,
  path: Path,
  outlines: ReadonlyMap<string, Ring>,
): Fault | null {
  if (places.length === 0) return null;
  const corners = places.flatMap(({ at: [x, y], size, block, turn = 0 }): Ring => {
    const { minX, minY, maxX, maxY } = boxOf(size ? [[0, 0], size] : (outlines.get(block!) ?? []));
    // Standing on its point a block reaches no farther than its sides together.
    const [w, h] = [maxX - minX, maxY - minY];
    const [wide, high] =
      turn % 1 !== 0 ? [(w + h) * Math.SQRT1_2, (w + h) * Math.SQRT1_2] : turn % 2 === 1 ? [h, w] : [w, h];
    return [
      [x, y],
      [x + wide, y + high],
    ];
  });
  const { minX, minY, maxX, maxY } = boxOf(corners);
  if (Math.max(maxX - minX, maxY - minY) > MAX_QUILT_IN)
    return {
      path: [...path, 'places'],
      predicate: phrase('reaches over more than {maxQuilt} in', { maxQuilt: MAX_QUILT_IN }),
    };
  const least = Math.min(maxX - minX, maxY - minY);
  const wide = borders.findIndex(({ width }) => width > least);
  return wide < 0
    ? null
    : { path: [...path, 'borders', wide], predicate: phrase('is wider than the quilt itself') };
}
