import * as z from 'zod/mini';
import { PLAN_CHOICES } from '../piecing/block.ts';
import { numeral } from '../words/numeral.ts';
import { phrase } from '../words/phrase.ts';
import { clothKeys, fileCutting } from './cloth-schema.ts';
import { checkAcross, isPictureData, MAX_PICTURE_PX, PICTURE_LETTERS } from './fabric-picture.ts';
import {
  BLOCKS_PER_PROJECT,
  CORNERS_PER_OUTLINE,
  CUTS_PER_BLOCK,
  checkSeamAllowance,
  FABRICS_PER_PROJECT,
  isColor,
  MOST_COPIES,
  ORDERS_PER_BLOCK,
  PATCHES_PER_BLOCK,
  PATCHES_PER_ORDER,
} from './limits.ts';
import { fileQuilt } from './quilt-schema.ts';
import { id, list, name, number, otherwise, passes, point, record, text, yesOrNo } from './schema-words.ts';
import { isSquarable, UNDER_PICTURE_LETTERS } from './under-picture.ts';
import { fileWork } from './work-schema.ts';

/**
 * The shape of a version 2 file. Objects are loose, so that keys this version does not know come through.
 */

const color = text.check(z.refine(isColor, phrase('is not written as # and six digits 0-9 or a-f')));
const cut = z.looseObject(
  {
    id,
    from: point,
    to: point,
    role: z.optional(z.enum(['auto', 'join', 'seam'], { error: phrase('is none of auto, join and seam') })),
    locked: z.optional(yesOrNo),
  },
  record,
);

const patch = z.looseObject({ id, at: point, fabric: z.optional(id) }, record);

const outline = list(point, CORNERS_PER_OUTLINE).check(
  z.refine((points) => points.length >= 3, {
    error: ({ input }) =>
      phrase('has fewer than three points ({input})', { input: (input as readonly unknown[]).length }),
  }),
);

const side = z
  .number(otherwise(phrase('is not a number')))
  .check(
    z.refine(
      (pixels) => Number.isInteger(pixels) && pixels >= 1 && pixels <= MAX_PICTURE_PX,
      phrase('is not a whole number from 1 to {maxPicture}', { maxPicture: numeral(MAX_PICTURE_PX) }),
    ),
  );

const pair = z.tuple([number, number], otherwise(phrase('is not a pair of numbers')));

const NOT_PICTURE_DATA = phrase('is not a PNG, JPEG or WebP picture written as data:image/…;base64,…');

const underPicture = z.looseObject(
  {
    data: text
      .check(
        z.maxLength(UNDER_PICTURE_LETTERS, { error: phrase('is larger than the 3 MB allowed'), abort: true }),
      )
      .check(z.refine((data) => isPictureData(data, UNDER_PICTURE_LETTERS), NOT_PICTURE_DATA)),
    width: side,
    height: side,
    corners: z
      .tuple([pair, pair, pair, pair], otherwise(phrase('are not four pairs of numbers')))
      .check(
        z.refine(isSquarable, phrase('do not make a shape with four sides, without dents and crossings')),
      ),
    strength: z.optional(
      z
        .number(otherwise(phrase('is not a number')))
        .check(z.minimum(0, phrase('is not between 0 and 1')))
        .check(z.maximum(1, phrase('is not between 0 and 1'))),
    ),
    shown: z.optional(yesOrNo),
    locked: z.optional(yesOrNo),
  },
  record,
);

const block = z.looseObject(
  {
    id,
    name,
    outline,
    cuts: z.optional(list(cut, CUTS_PER_BLOCK)),
    patches: z.optional(list(patch, PATCHES_PER_BLOCK)),
    plan: z.optional(
      z.enum(PLAN_CHOICES, {
        error: phrase('is none of {planChoices}', { planChoices: PLAN_CHOICES.join(', ') }),
      }),
    ),
    orders: z.optional(list(list(id, PATCHES_PER_ORDER), ORDERS_PER_BLOCK)),
    picture: z.optional(underPicture),
  },
  record,
);

const fabricPicture = z.looseObject(
  {
    data: text
      .check(z.maxLength(PICTURE_LETTERS, { error: phrase('is larger than the 1 MB allowed'), abort: true }))
      .check(z.refine((data) => isPictureData(data), NOT_PICTURE_DATA)),
    width: side,
    height: side,
    across: z.number(otherwise(phrase('is not a number'))).check(z.superRefine(passes(checkAcross))),
  },
  record,
);

const fabric = z.looseObject({ id, name, color, picture: z.optional(fabricPicture), ...clothKeys }, record);

const NO_COPIES = phrase('holds something other than whole numbers from 1 to {mostCopies}', {
  mostCopies: MOST_COPIES,
});

const copies = z
  .number(otherwise(NO_COPIES))
  .check(z.refine((number) => Number.isInteger(number) && number >= 1 && number <= MOST_COPIES, NO_COPIES));

export const fileProject = z.looseObject({
  name,
  unit: z.optional(z.enum(['in', 'mm'], { error: phrase('is neither in nor mm') })),
  seamAllowance: z.optional(
    z.number(otherwise(phrase('is not a number'))).check(z.superRefine(passes(checkSeamAllowance))),
  ),
  fabrics: z.optional(list(fabric, FABRICS_PER_PROJECT)),
  blocks: list(block, BLOCKS_PER_PROJECT),
  severities: z.optional(
    z.record(
      id,
      z.enum(['trouble', 'caution', 'note', 'off'], {
        error: phrase('is none of trouble, caution, note and off'),
      }),
    ),
  ),
  inHand: z.optional(z.record(id, copies, record)),
  quilt: z.optional(fileQuilt),
  cutting: z.optional(fileCutting),
  work: z.optional(fileWork),
});

export type FileProject = z.infer<typeof fileProject>;
