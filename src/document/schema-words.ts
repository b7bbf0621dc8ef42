import * as z from 'zod';
import { MAX_COORDINATE_IN } from '../geometry/lattice.ts';
import { type Checked, checkName, ID_LENGTH } from './limits.ts';

/**
 * Parts that the shapes of all records in a file are made of. Every message is a predicate, such as "is not a number":
 * `file-place.ts` puts the subject before it.
 */

/** `is missing` for what is not there, else what is wrong with what is. */
export const otherwise = (predicate: string) => ({
  error: ({ input }: { readonly input?: unknown }) => (input === undefined ? 'is missing' : predicate),
});

export const count = (n: number): string => n.toLocaleString('en');

/** Takes over the check that edits use too; its sentence begins with the subject, which is named elsewhere. */
export const passes =
  <Value>(check: (value: Value) => Checked<Value>) =>
  (value: Value, context: z.RefinementCtx<Value>) => {
    const checked = check(value);
    if (checked.ok) return;
    context.addIssue({
      code: 'custom',
      message: checked.error.replace(/^The (name|seam allowance|width of the piece) |\.$/g, ''),
    });
  };

export const text = z.string(otherwise('is not text'));
export const id = text.min(1, 'is empty').max(ID_LENGTH, `is longer than ${ID_LENGTH} letters`);
export const name = text.superRefine(passes(checkName));
export const record = otherwise('is not a record in braces');
export const number = z.number(otherwise('is not a number'));
export const yesOrNo = z.boolean(otherwise('is neither true nor false'));

const tooFar = `lies farther out than ${count(MAX_COORDINATE_IN)} in`;
const coordinate = number.min(-MAX_COORDINATE_IN, tooFar).max(MAX_COORDINATE_IN, tooFar);
export const point = z.tuple([coordinate, coordinate], otherwise('is not a pair of numbers'));

/** The length is checked before anything in the list, so that a list far too long costs nothing. */
export function list<Item extends z.ZodType>(item: Item, most: number) {
  const short = (items: readonly unknown[]) => items.length <= most;
  return z
    .array(z.unknown(), otherwise('is not a list'))
    .refine(short, {
      error: ({ input }) =>
        `holds ${count((input as readonly unknown[]).length)}, more than the ${count(most)} allowed`,
      abort: true,
    })
    .pipe(z.array(item));
}
