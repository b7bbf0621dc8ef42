import type { SewingPlan } from '../plan.ts';
import type { Boundary } from './boundary.ts';

/** Sections already joined, and the numbers of their patches. */
export interface Unit {
  sections: number;
  patches: readonly number[];
}

/** The units of a plan as its joins go on. At first each section is one. */
export interface Units {
  /** The unit a patch is in. */
  readonly unitOf: (patch: number) => Unit;
  /** The unit that is made of just the sections with these letters; null when there is none yet. */
  readonly madeOf: (letters: readonly string[]) => Unit | null;
  /** Every section that starts from a unit takes it in, where it is there. */
  readonly sewOn: () => void;
  readonly unite: (one: Unit, other: Unit) => void;
  /** How many units there are. */
  readonly count: () => number;
}

export function startingUnits({ sections, patches }: SewingPlan, { numberOfPatch }: Boundary): Units {
  const numberOf = new Map(sections.map(({ letter }, s) => [letter, s]));
  const sectionOf = Int32Array.from(patches, ({ section }) => numberOf.get(section) ?? -1);
  /** A unit that no patch of a section is in. */
  const nowhere: Unit = { sections: 0, patches: [] };
  const unitAt = sections.map(
    ({ order }): Unit => ({ sections: 1, patches: order.flatMap((id) => numberOfPatch.get(id) ?? []) }),
  );
  let waiting = sections.flatMap(({ startsFrom }, s) => (startsFrom.length > 0 ? [s] : []));
  let count = sections.length;

  function madeOf(letters: readonly string[]): Unit | null {
    const unit = unitAt[numberOf.get(letters[0]!) ?? -1];
    if (!unit || unit.sections !== letters.length) return null;
    return letters.every((letter) => unitAt[numberOf.get(letter) ?? -1] === unit) ? unit : null;
  }

  function unite(one: Unit, other: Unit): void {
    one.sections += other.sections;
    one.patches = [...one.patches, ...other.patches];
    for (let s = 0; s < unitAt.length; s++) if (unitAt[s] === other) unitAt[s] = one;
    count--;
  }

  function sewOn(): void {
    for (const section of waiting) {
      const unit = madeOf(sections[section]!.startsFrom);
      if (unit === null || unit === unitAt[section]) continue;
      unite(unit, unitAt[section]!);
      waiting = waiting.filter((one) => one !== section);
      sewOn();
      return;
    }
  }

  return {
    unitOf: (patch) => unitAt[sectionOf[patch]!] ?? nowhere,
    madeOf,
    sewOn,
    unite,
    count: () => count,
  };
}
