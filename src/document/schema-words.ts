import * as z from 'zod/mini';
import { MAX_COORDINATE_IN } from '../geometry/lattice.ts';
import { numeral } from '../words/numeral.ts';
import { phrase } from '../words/phrase.ts';
import { type Checked, checkName, ID_LENGTH } from './limits.ts';

/**
 * Parts that the shapes of all records in a file are made of. Every message is a predicate, such as "is not a number":
 * `file-place.ts` puts the subject before it.
 */

/** `is missing` for what is not there, else what is wrong with what is. */
export const otherwise = (predicate: string) => ({
  error: ({ input }: { readonly input?: unknown }) =>
    input === undefined ? phrase('is missing') : predicate,
});

/** Takes over the check that edits use too; its sentence begins with the subject, which is named elsewhere. */
export const passes =
  <Value>(check: (value: Value) => Checked<Value>) =>
  (value: Value, context: z.core.$RefinementCtx<Value>) => {
    const checked = check(value);
    if (checked.ok) return;
    context.addIssue({
      code: 'custom',
      message: checked.error.replace(/^The (name|seam allowance|width of the piece) |\.$/g, ''),
    });
  };

export const text = z.string(otherwise(phrase('is not text')));
export const id = text
  .check(z.minLength(1, phrase('is empty')))
  .check(z.maxLength(ID_LENGTH, phrase('is longer than {idLength} letters', { idLength: ID_LENGTH })));
export const name = text.check(z.superRefine(passes(checkName)));
export const record = otherwise(phrase('is not a record in braces'));
export const number = z.number(otherwise(phrase('is not a number')));
export const yesOrNo = z.boolean(otherwise(phrase('is neither true nor false')));

const tooFar = phrase('lies farther out than {maxCoordinate} in', {
  maxCoordinate: numeral(MAX_COORDINATE_IN),
});
const coordinate = number
  .check(z.minimum(-MAX_COORDINATE_IN, tooFar))
  .check(z.maximum(MAX_COORDINATE_IN, tooFar));
export const point = z.tuple([coordinate, coordinate], otherwise(phrase('is not a pair of numbers')));

/** The length is checked before anything in the list, so that a list far too long costs nothing. */
export function list<Item extends z.ZodMiniType>(item: Item, most: number) {
  const short = (items: readonly unknown[]) => items.length <= most;
  return z.pipe(
    z.array(z.unknown(), otherwise(phrase('is not a list'))).check(
      z.refine(short, {
        error: ({ input }) =>
          phrase('holds {input}, more than the {most} allowed', {
            input: numeral((input as readonly unknown[]).length),
            most: numeral(most),
          }),
        abort: true,
      }),
    ),
    z.array(item),
  );
}
