import { addCuts } from '../../document/edit-cuts.ts';
import type { Segment } from '../../geometry/point.ts';
import type { Field, Target, Values, Work } from './form.ts';

/** What forms are made of. */

const MOST_LINES = 99;

export const number = (values: Values, name: string): number => Number(values[name]);
export const text = (values: Values, name: string): string => String(values[name]);

export const refused = (error: string): Work => ({ ok: false, error });

export function drawn(target: Target, label: string, lines: readonly Segment[], none: string): Work {
  if (lines.length === 0) return refused(none);
  const cuts = lines.map(([from, to]) => ({ from, to }));
  return { ok: true, label, selectsNew: true, change: (project) => addCuts(project, target.block.id, cuts) };
}

export const count = (name: string, label: string, initial: number, least = 2): Field => ({
  kind: 'count',
  name,
  label,
  initial,
  least,
  most: MOST_LINES,
});

export const choice = (
  name: string,
  label: string,
  options: readonly (readonly [string, string])[],
): Field => ({
  kind: 'choice',
  name,
  label,
  options,
});
