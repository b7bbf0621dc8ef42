import type { Segment } from '../../src/geometry/point.ts';
import type { Form } from '../../src/rounds/form.ts';
import type { Paper } from '../../src/rounds/papers.ts';

/** A paper that leaves no choice: strips sewn one to the next on to a unit, a letter a fabric. */
export function rigidPaper(id: string, letters: string): Paper {
  const side = (k: number): Segment[] => [
    [
      [k, 0],
      [k, 1],
    ],
  ];
  const form: Form = {
    patches: [...letters].map((_, k) => `A${k + 2}`),
    fabrics: [...letters],
    startsFromUnit: true,
    contacts: [...letters].map((_, k) => [
      { other: k - 1, edges: side(k) },
      ...(k + 1 < letters.length ? [{ other: k + 1, edges: side(k + 1) }] : []),
    ]),
  };
  return { id, block: id, section: 'A', copy: 1, form, waitsFor: [] };
}
