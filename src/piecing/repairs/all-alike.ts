import { snapPoint, TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import type { Block, Cut } from '../block.ts';
import { isSamePlace, type Symmetry, turnsOver } from '../mending/symmetry.ts';

/** What a change does to one cut: where its ends go, or that it goes itself. */
interface CutEdit {
  readonly from?: Point;
  readonly to?: Point;
  readonly role?: Cut['role'];
  readonly isGone?: true;
}

type Edits = ReadonlyMap<string, CutEdit>;

/** A change done at all places of a drawing that look alike. */
export interface AllAlike {
  readonly cuts: readonly Cut[];
  /** Places it is done at, two or more. */
  readonly places: number;
}

/**
 * A change of some cuts done at every place that looks the same, the most places first: under all turns and mirrorings of the
 * drawing, under its turns alone, under each alone. None where the drawing is alike as a picture but not cut by cut, or
 * where the places are in each other's way.
 */
export function atAllPlaces(
  block: Block,
  changed: readonly Cut[],
  symmetries: readonly Symmetry[],
): AllAlike[] {
  const edits = editsBetween(block, changed);
  if (edits === null || edits.size === 0) return [];
  const groups = [
    symmetries,
    symmetries.filter((move) => !turnsOver(move)),
    ...symmetries.filter((move) => isOwnInverse(block, move)).map((move) => [move]),
  ];
  const found: AllAlike[] = [];
  for (const group of groups) {
    const one = together(block, edits, group);
    if (one && !found.some(({ cuts }) => String(cuts.map(endsOf)) === String(one.cuts.map(endsOf))))
      found.push(one);
  }
  return found.sort((a, b) => b.places - a.places);
}

/** Texts that name a change at each place where the drawing looks the same, the change itself first. */
export function namesAtPlaces(
  block: Block,
  changed: readonly Cut[],
  symmetries: readonly Symmetry[],
): readonly string[] {
  const edits = editsBetween(block, changed);
  if (edits === null) return [];
  const images = symmetries.flatMap((move) => imageOf(block, edits, move) ?? []);
  return [edits, ...images].map(nameOf);
}

const endsOf = ({ from, to }: Cut): string => `${from} ${to}`;

const isOwnInverse = ({ outline }: Block, move: Symmetry): boolean =>
  outline.every((corner) => isSamePlace(move(move(corner)), corner));

/** What became of each cut; null where cuts came that were not there. */
function editsBetween(block: Block, changed: readonly Cut[]): Edits | null {
  const now = new Map(changed.map((cut) => [cut.id, cut]));
  const edits = new Map<string, CutEdit>();
  for (const cut of block.cuts) {
    const next = now.get(cut.id);
    now.delete(cut.id);
    if (next === cut) continue;
    if (next === undefined) edits.set(cut.id, { isGone: true });
    else
      edits.set(cut.id, {
        ...(distance(next.from, cut.from) > 0 ? { from: next.from } : {}),
        ...(distance(next.to, cut.to) > 0 ? { to: next.to } : {}),
        ...(next.role === cut.role ? {} : { role: next.role }),
      });
  }
  return now.size > 0 ? null : edits;
}

/** The same edits where a move takes them; null where a cut lies on no cut there, or on a locked one. */
function imageOf(block: Block, edits: Edits, move: Symmetry): Edits | null {
  const image = new Map<string, CutEdit>();
  for (const [id, { from, to, ...rest }] of edits) {
    const cut = block.cuts.find((one) => one.id === id)!;
    const [a, b] = [move(cut.from), move(cut.to)];
    const twin = block.cuts.find(
      (one) =>
        (isSamePlace(one.from, a) && isSamePlace(one.to, b)) ||
        (isSamePlace(one.from, b) && isSamePlace(one.to, a)),
    );
    if (!twin || twin.locked) return null;
    const isTurned = !isSamePlace(twin.from, a);
    const [first, last] = isTurned ? [to, from] : [from, to];
    image.set(twin.id, {
      ...(first ? { from: snapPoint(move(first)) } : {}),
      ...(last ? { to: snapPoint(move(last)) } : {}),
      ...rest,
    });
  }
  return image;
}

function together(block: Block, edits: Edits, moves: readonly Symmetry[]): AllAlike | null {
  const all = new Map<string, CutEdit>(edits);
  const names = new Set([nameOf(edits)]);
  for (const move of moves) {
    const image = imageOf(block, edits, move);
    if (image === null) return null;
    names.add(nameOf(image));
    for (const [id, next] of image) {
      const known = all.get(id);
      if (known && clash(known, next)) return null;
      all.set(id, { ...next, ...known });
    }
  }
  if (names.size < 2) return null;
  const cuts = block.cuts.flatMap((cut) => {
    const { isGone, ...rest } = all.get(cut.id) ?? {};
    return isGone ? [] : all.has(cut.id) ? [{ ...cut, ...rest }] : [cut];
  });
  return { cuts, places: names.size };
}

/** Do two edits of one cut want different things of it? */
function clash(a: CutEdit, b: CutEdit): boolean {
  if (a.isGone !== b.isGone || (a.role ?? b.role) !== (b.role ?? a.role)) return true;
  const differ = (p: Point | undefined, q: Point | undefined): boolean =>
    p !== undefined && q !== undefined && distance(p, q) > 2 * TOUCH_IN;
  return differ(a.from, b.from) || differ(a.to, b.to);
}

const nameOf = (edits: Edits): string => {
  const place = (p: Point | undefined): string =>
    p ? p.map((v) => Math.round(v * 100).toString()).join(' ') : '-';
  return [...edits]
    .map(
      ([id, { from, to, role, isGone }]) =>
        `${id} ${place(from)} ${place(to)} ${role ?? ''}${isGone ? 'x' : ''}`,
    )
    .sort()
    .join(';');
};
