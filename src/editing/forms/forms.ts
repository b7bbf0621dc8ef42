import { bend, divide, parallel, rays, rings, shape } from './draw-forms.ts';
import type { Form } from './form.ts';
import { align, mirror, move, repeat, resize, size, turn } from './move-forms.ts';

/** Every form, once, in the order in which cards and the palette show them. */
export const FORMS: readonly Form[] = [
  move,
  parallel,
  bend,
  divide,
  shape,
  rays,
  rings,
  turn,
  resize,
  mirror,
  repeat,
  align,
  size,
];

export const formNamed = (name: string): Form | null => FORMS.find((form) => form.name === name) ?? null;
