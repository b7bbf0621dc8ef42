import * as z from 'zod/mini';
import { phrase } from '../words/phrase.ts';
import { BORDER_CORNERS, JOININGS, PARTS, SETTING_KINDS } from './quilt.ts';
import { isPlainShape, MAX_QUILT_IN, PLACES_PER_QUILT } from './quilt-limits.ts';
import { id, list, name, number, otherwise, point, record, yesOrNo } from './schema-words.ts';

/** The shape of the key `quilt` of a file. What must hold between its parts is in `quilt-check.ts`. */

const oneOf = <Word extends string>(words: readonly [Word, ...Word[]] | readonly Word[]) =>
  z.enum(words as [Word, ...Word[]], { error: phrase('is none of {words}', { words: words.join(', ') }) });

const length = number
  .check(z.refine((inches) => inches > 0, phrase('is not greater than 0')))
  .check(
    z.refine(
      (inches) => inches <= MAX_QUILT_IN,
      phrase('is more than {maxQuilt} in', { maxQuilt: MAX_QUILT_IN }),
    ),
  );
const extra = number
  .check(z.refine((inches) => inches >= 0, phrase('is less than 0')))
  .check(
    z.refine(
      (inches) => inches <= MAX_QUILT_IN,
      phrase('is more than {maxQuilt} in', { maxQuilt: MAX_QUILT_IN }),
    ),
  );
const size = z.tuple([length, length], otherwise(phrase('is not a pair of numbers')));
const count = number.check(
  z.refine(
    (n) => Number.isInteger(n) && n >= 1 && n <= PLACES_PER_QUILT,
    phrase('is not a whole number from 1 to 2,000'),
  ),
);

const shape = list(point, 100).check(
  z.refine((corners) => corners.length >= 3, phrase('has fewer than three points')),
);

/** Either a block as it lies, or a plain piece with a size. */
const place = z
  .looseObject(
    {
      id,
      at: point,
      part: z.optional(oneOf(PARTS)),
      block: z.optional(id),
      turn: z.optional(
        number.check(
          z.refine(
            (turn) => turn >= 0 && turn < 4 && Number.isInteger(2 * turn),
            phrase('is not 0, 1, 2 or 3, or half way between'),
          ),
        ),
      ),
      mirrored: z.optional(yesOrNo),
      fabric: z.optional(id),
      size: z.optional(size),
      shape: z.optional(shape),
    },
    record,
  )
  .check(
    z.superRefine((given, context) => {
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
    }),
  );

const sashing = z.looseObject(
  {
    width: length,
    fabric: z.optional(id),
    cornerstones: yesOrNo,
    cornerstoneFabric: z.optional(id),
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
    sashing: z.optional(sashing),
    strip: z.optional(z.looseObject({ width: length, fabric: z.optional(id) }, record)),
    fabric: z.optional(id),
  },
  record,
);

const border = z.looseObject(
  {
    width: length,
    corners: oneOf(BORDER_CORNERS),
    fabric: z.optional(id),
    cornerFabric: z.optional(id),
    block: z.optional(id),
  },
  record,
);

const copy = z.looseObject(
  { fabrics: z.record(id, id, record), blocks: z.optional(z.record(id, id, record)) },
  record,
);

const finishing = z.looseObject(
  {
    binding: z.optional(z.looseObject({ width: length, isBias: yesOrNo, fabric: z.optional(id) }, record)),
    backing: z.optional(z.looseObject({ extra, fabric: z.optional(id) }, record)),
    batting: z.optional(z.looseObject({ extra }, record)),
    sleeve: z.optional(z.looseObject({ height: length, fabric: z.optional(id) }, record)),
    label: z.optional(z.looseObject({ size, fabric: z.optional(id) }, record)),
  },
  record,
);

const places = list(place, PLACES_PER_QUILT);
const borders = list(border, 20);

const layout = z.looseObject(
  { name, places, module: z.optional(length), setting: z.optional(setting), borders: z.optional(borders) },
  record,
);

export const fileQuilt = z.looseObject(
  {
    places,
    module: z.optional(length),
    setting: z.optional(setting),
    borders: z.optional(borders),
    joining: z.optional(oneOf(JOININGS)),
    units: z.optional(list(list(id, PLACES_PER_QUILT), PLACES_PER_QUILT)),
    copies: z.optional(list(copy, 100)),
    finishing: z.optional(finishing),
    layouts: z.optional(list(layout, 50)),
  },
  record,
);

export type FileQuilt = z.infer<typeof fileQuilt>;
