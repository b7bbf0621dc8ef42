/** A sum's term: a whole number for each way of choosing for a few things. */
export interface Term {
  /** The things it depends on, each once. */
  readonly things: readonly number[];
  /** For each way of choosing, the choice for the last thing turning fastest. */
  readonly costs: Float64Array;
}

export interface LeastSum {
  /** No choice comes to less. */
  readonly sum: number;
  /** The value chosen for each thing. It comes to `sum`, unless some table had to be split. */
  readonly chosen: readonly number[];
}

/** Entries of a table at most; larger ones are split, and the sum found may then be too low, never too high. */
const MOST_ENTRIES = 1024;

interface Table extends Term {
  isUsed: boolean;
}

/** The best choice for a thing, for each way of choosing for those about it. */
interface Settled {
  readonly thing: number;
  readonly things: readonly number[];
  readonly best: Uint8Array;
}

/**
 * The least sum of terms over all choices: thing t is given one of `choices[t]` values. Things are settled one by one,
 * the one with the fewest others about it first; what its best choice costs becomes a term of those others.
 *
 * Cost: O(things × entries). Source: variable elimination as in Bertelè and Brioschi, Nonserial Dynamic Programming
 * (1972); tables too large are split as in mini-buckets (Dechter and Rish, Journal of the ACM 50(2), 2003).
 */
export function leastSum(choices: readonly number[], terms: readonly Term[]): LeastSum {
  const tablesOf: Table[][] = choices.map(() => []);
  let sum = 0;
  const enter = ({ things, costs }: Term): void => {
    if (things.length === 0) {
      sum += costs[0]!;
      return;
    }
    const table: Table = { things, costs, isUsed: false };
    for (const t of things) tablesOf[t]!.push(table);
  };
  for (const term of terms) enter(term);
  const isSettled = new Uint8Array(choices.length);
  const entries = choices.map((_, t) => entriesAbout(choices, tablesOf[t]!, t));
  const settled: Settled[] = [];
  for (let count = choices.length; count > 0; count--) {
    let thing = -1;
    for (let t = 0; t < choices.length; t++)
      if (isSettled[t] === 0 && (thing < 0 || entries[t]! < entries[thing]!)) thing = t;
    isSettled[thing] = 1;
    const tables = tablesOf[thing]!;
    const stale: number[] = [];
    const parts = entries[thing]! <= MOST_ENTRIES ? [tables] : split(choices, tables, thing);
    parts.forEach((part, k) => {
      const { term, best } = settle(choices, part, thing);
      for (const table of part) table.isUsed = true;
      enter(term);
      for (const t of term.things) if (!stale.includes(t)) stale.push(t);
      if (k === 0) settled.push({ thing, things: term.things, best });
    });
    for (const t of stale) {
      tablesOf[t] = tablesOf[t]!.filter(({ isUsed }) => !isUsed);
      entries[t] = entriesAbout(choices, tablesOf[t]!, t);
    }
  }
  const chosen = choices.map(() => 0);
  for (const { thing, things, best } of settled.reverse())
    chosen[thing] = best[things.reduce((entry, t) => entry * choices[t]! + chosen[t]!, 0)]!;
  return { sum, chosen };
}

/** The other things some tables depend on. */
function thingsBeside(tables: readonly Table[], thing: number): number[] {
  const found: number[] = [];
  for (const { things } of tables)
    for (const t of things) if (t !== thing && !found.includes(t)) found.push(t);
  return found;
}

function entriesAbout(choices: readonly number[], tables: readonly Table[], thing: number): number {
  let product = choices[thing]!;
  for (const t of thingsBeside(tables, thing)) product *= choices[t]!;
  return product;
}

/** Tables in groups of which none grows too large; each then makes its own best choice for the thing. */
function split(choices: readonly number[], tables: readonly Table[], thing: number): Table[][] {
  const parts: Table[][] = [];
  for (const table of tables) {
    const part = parts.find((p) => entriesAbout(choices, [...p, table], thing) <= MOST_ENTRIES);
    if (part) part.push(table);
    else parts.push([table]);
  }
  return parts;
}

/** What the best choice for a thing is and costs, for each way of choosing for the others. */
function settle(
  choices: readonly number[],
  tables: readonly Table[],
  thing: number,
): { term: Term; best: Uint8Array } {
  const things = thingsBeside(tables, thing);
  const depth = things.length;
  let size = 1;
  for (const t of things) size *= choices[t]!;
  // How far a step of each thing moves in each table; a thing a table does not depend on moves nothing in it.
  const width = depth + 1;
  const steps = new Int32Array(tables.length * width);
  for (let j = 0; j < tables.length; j++) {
    const own = tables[j]!.things;
    let step = 1;
    for (let k = own.length - 1; k >= 0; k--) {
      const t = own[k]!;
      steps[j * width + (t === thing ? depth : things.indexOf(t))] = step;
      step *= choices[t]!;
    }
  }
  const costs = new Float64Array(size);
  const best = new Uint8Array(size);
  const chosen = new Int32Array(depth);
  const at = new Int32Array(tables.length);
  const values = choices[thing]!;
  for (let entry = 0; entry < size; entry++) {
    let least = Number.POSITIVE_INFINITY;
    for (let value = 0; value < values; value++) {
      let cost = 0;
      for (let j = 0; j < tables.length; j++)
        cost += tables[j]!.costs[at[j]! + value * steps[j * width + depth]!]!;
      if (cost < least) {
        least = cost;
        best[entry] = value;
      }
    }
    costs[entry] = least;
    for (let d = depth - 1; d >= 0; d--) {
      const most = choices[things[d]!]!;
      const isCarried = ++chosen[d]! === most;
      const by = isCarried ? 1 - most : 1;
      for (let j = 0; j < tables.length; j++) at[j]! += by * steps[j * width + d]!;
      if (!isCarried) break;
      chosen[d] = 0;
    }
  }
  return { term: { things, costs }, best };
}
