import { keyOf } from '../piecing/region.ts';
import { contactRule, type Form } from './form.ts';

/** Stages of one foundation: which sets of its patches can have been sewn at some moment, by number. */
export interface Stages {
  readonly form: Form;
  /** Number of the stage before anything is sewn, and of the one when all is. */
  readonly empty: number;
  readonly whole: number;
  /** 1 for each patch that is sewn at a stage. */
  readonly sewnAt: (stage: number) => Uint8Array;
  /**
   * The stages a paper can be left at when one fabric is out, taking as many of its patches one after another as it
   * can: more than one where the choice of the first shuts out others, none where it can take nothing.
   */
  readonly withFabric: (stage: number, fabric: number) => readonly number[];
  /** The patches taken between two stages when a fabric is out, in an order that sews; one of another fabric first. */
  readonly between: (from: number, to: number, fabric: number) => number[];
  /** Number of the fabric of each patch. */
  readonly fabrics: Int32Array;
}

export interface StageOptions {
  /** Positions 1 and 2 are cut together: a paper may be begun with any patch in the round of its second. */
  readonly isFirstPairCut?: boolean;
}

/** So many stages are gone through for one fabric; from there on the first way is followed to its end. */
const MOST_WAYS = 24;

/**
 * All the freedom there is in sewing one foundation. A set of patches is a stage when it can be sewn by the rule (each
 * patch meets the earlier ones along one straight stretch) and the rest can be sewn on to it. Whether the rest can is
 * found by peeling: taking off one patch never spoils another, so no order has to be tried. Stages are found as they
 * are asked for.
 */
export function stagesOf(
  form: Form,
  fabricNumbers: ReadonlyMap<string | null, number>,
  { isFirstPairCut = false }: StageOptions = {},
): Stages {
  const n = form.patches.length;
  const meets = contactRule(form);
  const fabrics = Int32Array.from(form.fabrics, (fabric) => fabricNumbers.get(fabric)!);
  const sets: Uint8Array[] = [];
  const numbers = new Map<string, number>();
  const numberFor = (set: Uint8Array): number => {
    const key = keyOf(set);
    const known = numbers.get(key);
    if (known !== undefined) return known;
    sets.push(set);
    numbers.set(key, sets.length - 1);
    return sets.length - 1;
  };
  const empty = numberFor(new Uint8Array(n));
  const whole = numberFor(new Uint8Array(n).fill(1));

  const holds = (sewn: Uint8Array, skipped: number): boolean => {
    if (form.startsFromUnit) return holdsFrom(sewn, skipped, -1);
    for (let p = 0; p < n; p++) if (sewn[p] === 1 && p !== skipped) return holdsFrom(sewn, skipped, p);
    return true;
  };
  /** Do all sewn patches but one hang together with `first` (or with the unit)? */
  const holdsFrom = (sewn: Uint8Array, skipped: number, first: number): boolean => {
    const reached = new Uint8Array(n);
    const stack: number[] = [];
    const reach = (p: number): void => {
      if (p < 0 || p === skipped || sewn[p] !== 1 || reached[p] === 1) return;
      reached[p] = 1;
      stack.push(p);
    };
    if (first >= 0) reach(first);
    else for (let p = 0; p < n; p++) if (form.contacts[p]!.some(({ other }) => other < 0)) reach(p);
    while (stack.length > 0) for (const { other } of form.contacts[stack.pop()!]!) reach(other);
    for (let p = 0; p < n; p++) if (sewn[p] === 1 && p !== skipped && reached[p] !== 1) return false;
    return true;
  };
  const completable = new Map<string, boolean>();
  const canComplete = (target: Uint8Array): boolean => {
    const key = keyOf(target);
    const known = completable.get(key);
    if (known !== undefined) return known;
    const left = new Uint8Array(n).fill(1);
    let over = n - target.reduce((sum, v) => sum + v, 0);
    for (let moved = true; moved && over > 0; ) {
      moved = false;
      for (let p = n - 1; p >= 0; p--) {
        if (left[p] !== 1 || target[p] === 1) continue;
        left[p] = 0;
        if (meets(p, left) && holds(left, -1)) {
          over--;
          moved = true;
        } else left[p] = 1;
      }
    }
    completable.set(key, over === 0);
    return over === 0;
  };
  const isFirst = (set: Uint8Array): boolean => !form.startsFromUnit && set.indexOf(1) < 0;
  /** The stage with one patch more, or -1. */
  const onward = new Map<number, number>();
  const plus = (stage: number, p: number): number => {
    const at = stage * n + p;
    const known = onward.get(at);
    if (known !== undefined) return known;
    const set = sets[stage]!;
    let next = -1;
    if (set[p] === 0 && (isFirst(set) || meets(p, set))) {
      const more = set.slice();
      more[p] = 1;
      if (canComplete(more)) next = numberFor(more);
    }
    onward.set(at, next);
    return next;
  };

  const ways = new Map<number, readonly number[]>();
  const fabricCount = fabricNumbers.size;
  const withFabric = (stage: number, fabric: number): readonly number[] => {
    const at = stage * fabricCount + fabric;
    const known = ways.get(at);
    if (known !== undefined) return known;
    const next = (here: number): number[] => {
      const found: number[] = [];
      for (let p = 0; p < n; p++) {
        const to = fabrics[p] === fabric ? plus(here, p) : -1;
        if (to >= 0) found.push(to);
      }
      return found;
    };
    const open = [stage];
    if (isFirstPairCut && stage === empty && !form.startsFromUnit)
      for (let p = 0; p < n; p++) if (fabrics[p] !== fabric) open.push(...begunWith(p, next));
    const seen = new Set(open);
    const ends: number[] = [];
    while (open.length > 0) {
      let here = open.pop()!;
      const onward = next(here);
      if (onward.length === 0 && here !== stage) ends.push(here);
      if (seen.size < MOST_WAYS)
        for (const to of onward) {
          if (seen.has(to)) continue;
          seen.add(to);
          open.push(to);
        }
      else if (onward.length > 0) {
        for (let more = onward; more.length > 0; more = next(here)) here = more[0]!;
        if (!ends.includes(here)) ends.push(here);
      }
    }
    ways.set(at, ends);
    return ends;
  };

  /** The stages after a first patch in another fabric and a second in this one. */
  const begunWith = (p: number, next: (stage: number) => number[]): number[] => {
    const begun = plus(empty, p);
    return begun < 0 ? [] : next(begun);
  };

  const between = (from: number, to: number, fabric: number): number[] => {
    const goal = sets[to]!;
    // Every stage inside `to` that can be reached from `from` goes on to it: no way back is needed.
    const taken: number[] = [];
    const wanted = [...goal.keys()].filter((p) => goal[p] === 1 && sets[from]![p] === 0);
    wanted.sort((p, q) => Number(fabrics[p] === fabric) - Number(fabrics[q] === fabric) || p - q);
    const walk = (stage: number): boolean => {
      if (stage === to) return true;
      for (const p of wanted) {
        if (sets[stage]![p] === 1) continue;
        const next = plus(stage, p);
        if (next < 0) continue;
        taken.push(p);
        if (walk(next)) return true;
        taken.pop();
      }
      return false;
    };
    walk(from);
    return taken;
  };
  return { form, empty, whole, sewnAt: (stage) => sets[stage]!, withFabric, between, fabrics };
}
