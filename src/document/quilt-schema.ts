import * as z from 'zod';
import { phrase } from '../words/phrase.ts';
import { BORDER_CORNERS, JOININGS, PARTS, SETTING_KINDS } from './quilt.ts';
import { isPlainShape, MAX_QUILT_IN, PLACES_PER_QUILT } from './quilt-limits.ts';
import { id, list, name, number, otherwise, point, record, yesOrNo } from './schema-words.ts';

/** The shape of the key `quilt` of a file. What must hold between its parts is in `quilt-check.ts`. */

const oneOf = <Word extends string>(words: readonly [Word, ...Word[]] | readonly Word[]) =>
  z.enum(words as [Word, ...Word[]], { error: phrase('is none of {words}', { words: words.join(', ') }) });

const length = number
  .refine((inches) => inches > 0, phrase('is not greater than 0'))
  .refine(
    (inches) => inches <= MAX_QUILT_IN,
    phrase('is more than {maxQuilt} in', { maxQuilt: MAX_QUILT_IN }),
  );
const extra = number
  .refine((inches) => inches >= 0, phrase('is less than 0'))
  .refine(
    (inches) => inches <= MAX_QUILT_IN,
    phrase('is more than {maxQuilt} in', { maxQuilt: MAX_QUILT_IN }),
  );
const size = z.tuple([length, length], otherwise(phrase('is not a pair of numbers')));
const count = number.refine(
  (n) => Number.isInteger(n) && n >= 1 && n <= PLACES_PER_QUILT,
  phrase('is not a whole number from 1 to 2,000'),
);

const shape = list(point, 100).refine(
  (corners) => corners.length >= 3,
  phrase('has fewer than three points'),
);

/** Either a block as it lies, or a plain piece with a size. */
const place = z
  .looseObject(
    {
      id,
      at: point,
      part: oneOf(PARTS).optional(),
      block: id.optional(),
      turn: number
        .refine(
          (turn) => turn >= 0 && turn < 4 && Number.isInteger(2 * turn),
          phrase('is not 0, 1, 2 or 3, or half way between'),
        )
        .optional(),
      mirrored: yesOrNo.optional(),
      fabric: id.optional(),
      size: size.optional(),
      shape: shape.optional(),
    },
    record,
  )
  .superRefine((given, context) => {
    const say = (message: string, ...path: string[]): void => {
      context.addIssue({ code: 'custom', message, path });
    };
    if (given.block !== undefined) {
      if (given.size !== undefined) say(phrase('has both a block and a size of its own'));
      if (given.fabric !== undefined) say(phrase('has both a block and a fabric'));
      return;
    }
    if (given.size === undefined) say(phrase('has neither a block nor a size'));
    else if (given.shape !== undefined && !isPlainShape(given.shape, given.size))
      say(phrase('is no outline, or reaches beyond its size'), 'shape');
  });

const sashing = z.looseObject(
  {
    width: length,
    fabric: id.optional(),
    cornerstones: yesOrNo,
    cornerstoneFabric: id.optional(),
    outside: yesOrNo,
  },
  record,
);

const setting = z.looseObject(
  {
    kind: oneOf(SETTING_KINDS),
    columns: count,
    rows: count,
    cell: size,
    sashing: sashing.optional(),
    strip: z.looseObject({ width: length, fabric: id.optional() }, record).optional(),
    fabric: id.optional(),
  },
  record,
);

const border = z.looseObject(
  {
    width: length,
    corners: oneOf(BORDER_CORNERS),
    fabric: id.optional(),
    cornerFabric: id.optional(),
    block: id.optional(),
  },
  record,
);

const copy = z.looseObject(
  { fabrics: z.record(id, id, record), blocks: z.record(id, id, record).optional() },
  record,
);

const finishing = z.looseObject(
  {
    binding: z.looseObject({ width: length, isBias: yesOrNo, fabric: id.optional() }, record).optional(),
    backing: z.looseObject({ extra, fabric: id.optional() }, record).optional(),
    batting: z.looseObject({ extra }, record).optional(),
    sleeve: z.looseObject({ height: length, fabric: id.optional() }, record).optional(),
    label: z.looseObject({ size, fabric: id.optional() }, record).optional(),
  },
  record,
);

const places = list(place, PLACES_PER_QUILT);
const borders = list(border, 20);

const layout = z.looseObject(
  { name, places, module: length.optional(), setting: setting.optional(), borders: borders.optional() },
  record,
);

export const fileQuilt = z.looseObject(
  {
    places,
    module: length.optional(),
    setting: setting.optional(),
    borders: borders.optional(),
    joining: oneOf(JOININGS).optional(),
    units: list(list(id, PLACES_PER_QUILT), PLACES_PER_QUILT).optional(),
    copies: list(copy, 100).optional(),
    finishing: finishing.optional(),
    layouts: list(layout, 50).optional(),
  },
  record,
);

export type FileQuilt = z.infer<typeof fileQuilt>;
