import {
  type Cloth,
  CODE_LENGTH,
  checkPrice,
  checkStockCount,
  checkStockLength,
  checkStockSide,
  checkWidth,
  NOTES_LENGTH,
  PIECES_AT_HAND,
} from './cloth.ts';
import { type CuttingChoices, MARKS_PER_PROJECT, SIZES_PER_PROJECT } from './cutting-choices.ts';
import { removeFabric, replaceFabric } from './edit-fabrics.ts';
import { lightnessOfColor } from './lightness.ts';
import type { Fabric, Project } from './project.ts';

/** What is known of a fabric's cloth; `null` takes a key away, what is not there stays. */
export type ClothChange = { readonly [Key in keyof Cloth]?: Cloth[Key] | null };

/** Changes what is known of a fabric's cloth. If any part cannot be used nothing changes. */
export function updateCloth(project: Project, fabricId: string, change: ClothChange): Project {
  const fabric = project.fabrics.find(({ id }) => id === fabricId);
  if (fabric === undefined || !isUsable(change)) return project;
  const changed: Record<string, unknown> = { ...fabric };
  for (const [key, value] of Object.entries(change)) {
    if (value === undefined) continue;
    if (value === null || value === '' || value === false) delete changed[key];
    else changed[key] = value;
  }
  if (JSON.stringify(changed) === JSON.stringify(fabric)) return project;
  return {
    ...project,
    fabrics: project.fabrics.map((one) => (one === fabric ? (changed as unknown as Fabric) : one)),
  };
}

function isUsable({ code, width, price, atHand, notes }: ClothChange): boolean {
  const pieces = atHand?.pieces ?? [];
  return (
    (code ?? '').length <= CODE_LENGTH &&
    (notes ?? '').length <= NOTES_LENGTH &&
    (width == null || checkWidth(width).ok) &&
    (price == null || checkPrice(price.amount).ok) &&
    (atHand?.length === undefined || checkStockLength(atHand.length).ok) &&
    pieces.length <= PIECES_AT_HAND &&
    pieces.every(
      (piece) =>
        checkStockSide(piece.width).ok && checkStockSide(piece.height).ok && checkStockCount(piece.count).ok,
    )
  );
}

/** Puts a fabric at another place in the list, counted from 0 as it is without it. */
export function moveFabric(project: Project, fabricId: string, to: number): Project {
  const from = project.fabrics.findIndex(({ id }) => id === fabricId);
  const others = project.fabrics.filter((_, i) => i !== from);
  const at = Math.max(0, Math.min(others.length, Math.round(to)));
  if (from < 0 || at === from) return project;
  return { ...project, fabrics: [...others.slice(0, at), project.fabrics[from]!, ...others.slice(at)] };
}

/** Lays one fabric wherever another lay, and takes that one out of the project. */
export function mergeFabric(project: Project, fromId: string, intoId: string): Project {
  const isFabric = (id: string): boolean => project.fabrics.some((fabric) => fabric.id === id);
  if (fromId === intoId || !isFabric(fromId) || !isFabric(intoId)) return project;
  return removeFabric(replaceFabric(project, fromId, intoId), fromId);
}

/** The fabrics from light to dark; equals stay as they were. */
export function orderByValue(project: Project): Project {
  const fabrics = [...project.fabrics].sort((a, b) => lightnessOfColor(b.color) - lightnessOfColor(a.color));
  return fabrics.every((fabric, i) => fabric === project.fabrics[i]) ? project : { ...project, fabrics };
}

/** Chooses how cloth is cut. What is undefined in `change` goes back to the usual. */
export function chooseCutting(project: Project, change: Partial<CuttingChoices>): Project {
  const entries = Object.entries({ ...project.cutting, ...change }).filter(
    ([, value]) => value !== undefined,
  );
  const cutting = Object.fromEntries(entries) as CuttingChoices;
  if (JSON.stringify(cutting) === JSON.stringify(project.cutting ?? {})) return project;
  return withCutting(project, cutting);
}

/** Cuts a patch in a size chosen by hand, inches; null goes back to the size worked out. */
export function chooseSize(
  project: Project,
  block: string,
  patch: string,
  size: { readonly width: number; readonly height: number } | null,
): Project {
  const before = project.cutting?.sizes ?? [];
  const others = before.filter((one) => one.block !== block || one.patch !== patch);
  if (size === null)
    return others.length === before.length
      ? project
      : chooseCutting(project, { sizes: others.length === 0 ? undefined : others });
  const [width, height] = [checkStockSide(size.width), checkStockSide(size.height)];
  if (!width.ok || !height.ok || others.length >= SIZES_PER_PROJECT) return project;
  return chooseCutting(project, {
    sizes: [...others, { block, patch, width: width.value, height: height.value }],
  });
}

/** Notes pieces as cut, or as not cut after all. `marks`: see `cutMark`. */
export function noteCut(project: Project, marks: readonly string[], isCut: boolean): Project {
  const done = new Set(project.cutting?.done ?? []);
  const before = done.size;
  let taken = 0;
  for (const mark of marks) {
    if (isCut) done.add(mark);
    else if (done.delete(mark)) taken++;
  }
  if (isCut ? done.size === before || done.size > MARKS_PER_PROJECT : taken === 0) return project;
  return chooseCutting(project, { done: done.size === 0 ? undefined : [...done] });
}

function withCutting(project: Project, cutting: CuttingChoices): Project {
  if (Object.keys(cutting).length > 0) return { ...project, cutting };
  const { cutting: _cutting, ...rest } = project;
  return rest;
}
