import type { Stages } from './stages.ts';

/**
 * Where a paper may stand after some rounds. Which order it is sewn in is left open as long as it can be: a standing
 * is the set of all stages it could have reached, by number. Only what can serve is kept.
 */
export interface Standings {
  readonly stages: Stages;
  readonly start: number;
  readonly done: number;
  /** The standing after a round of a fabric; the same where the round does nothing for it. */
  readonly after: (standing: number, fabric: number) => number;
  /** Rounds it still takes at least, were it the only paper. */
  readonly left: (standing: number) => number;
  /** Rounds of each fabric it still takes at least. */
  readonly leftOf: (standing: number) => Uint8Array;
  readonly stagesAt: (standing: number) => readonly number[];
}

/** So many stages are looked through for what is left; beyond that only the fabrics still to come are counted. */
const MOST_STAGES = 1500;

/** So many stages a standing keeps at most, those with least left first. */
const MOST_KEPT = 6;

interface Left {
  readonly rounds: number;
  readonly of: Uint8Array;
}

export function standingsOf(stages: Stages, fabricCount: number): Standings {
  const { empty, whole, fabrics, sewnAt, withFabric } = stages;
  const used = [...new Set(fabrics)];
  const leftAt = new Map<number, Left>();
  leftAt.set(whole, { rounds: 0, of: new Uint8Array(fabricCount) });
  let isLarge = false;

  const toCome = (stage: number): number[] => {
    const sewn = sewnAt(stage);
    return used.filter((fabric) => fabrics.some((own, p) => own === fabric && sewn[p] === 0));
  };
  const roughly = (stage: number): Left => {
    const of = new Uint8Array(fabricCount);
    const coming = toCome(stage);
    for (const fabric of coming) of[fabric] = 1;
    return { rounds: coming.length, of };
  };
  const leftFrom = (stage: number): Left => {
    const known = leftAt.get(stage);
    if (known) return known;
    if (isLarge || leftAt.size > MOST_STAGES) {
      isLarge = true;
      const rough = roughly(stage);
      leftAt.set(stage, rough);
      return rough;
    }
    let rounds = Number.POSITIVE_INFINITY;
    const of = new Uint8Array(fabricCount).fill(255);
    for (const fabric of toCome(stage))
      for (const next of withFabric(stage, fabric)) {
        const then = leftFrom(next);
        rounds = Math.min(rounds, then.rounds + 1);
        for (let f = 0; f < fabricCount; f++) of[f] = Math.min(of[f]!, then.of[f]! + (f === fabric ? 1 : 0));
      }
    const left = Number.isFinite(rounds) ? { rounds, of } : roughly(stage);
    leftAt.set(stage, left);
    return left;
  };

  const sets: (readonly number[])[] = [];
  const numbers = new Map<string, number>();
  const lefts: Left[] = [];
  const numberFor = (members: readonly number[]): number => {
    const key = members.join();
    const known = numbers.get(key);
    if (known !== undefined) return known;
    const all = members.map(leftFrom);
    const of = all[0]!.of.slice();
    for (const one of all.slice(1))
      for (let f = 0; f < fabricCount; f++) of[f] = Math.min(of[f]!, one.of[f]!);
    lefts.push({ rounds: Math.min(...all.map((one) => one.rounds)), of });
    sets.push(members);
    numbers.set(key, sets.length - 1);
    return sets.length - 1;
  };
  const start = numberFor([empty]);
  const done = numberFor([whole]);

  const isWithin = (a: number, b: number): boolean => {
    const [inner, outer] = [sewnAt(a), sewnAt(b)];
    for (let p = 0; p < inner.length; p++) if (inner[p] === 1 && outer[p] === 0) return false;
    return true;
  };
  /** A stage with more sewn is never behind one with less, but for the choice of position 1, which is still open. */
  const worthKeeping = (members: readonly number[]): number[] => {
    if (members.includes(whole)) return [whole];
    const least = Math.min(...members.map((m) => leftFrom(m).rounds));
    const near = members
      .filter((m) => leftFrom(m).rounds <= least + 1)
      .filter(
        (m, _, all) =>
          (m === empty && !stages.form.startsFromUnit) ||
          !all.some((other) => other !== m && isWithin(m, other)),
      );
    return near
      .sort((a, b) => leftFrom(a).rounds - leftFrom(b).rounds || a - b)
      .slice(0, MOST_KEPT)
      .sort((a, b) => a - b);
  };
  const moves: (Int32Array | undefined)[] = [];
  const after = (standing: number, fabric: number): number => {
    let row = moves[standing];
    if (row === undefined) {
      row = new Int32Array(fabricCount).fill(-1);
      moves[standing] = row;
    }
    if (row[fabric]! >= 0) return row[fabric]!;
    let next = standing;
    if (standing !== done && used.includes(fabric)) {
      const members = sets[standing]!;
      const reached = new Set(members);
      for (const stage of members) for (const end of withFabric(stage, fabric)) reached.add(end);
      if (reached.size > members.length) next = numberFor(worthKeeping([...reached]));
    }
    row[fabric] = next;
    return next;
  };
  return {
    stages,
    start,
    done,
    after,
    left: (standing) => lefts[standing]!.rounds,
    leftOf: (standing) => lefts[standing]!.of,
    stagesAt: (standing) => sets[standing]!,
  };
}
