import * as z from 'zod';
import { PLAN_CHOICES } from '../piecing/block.ts';
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
import {
  count,
  id,
  list,
  name,
  number,
  otherwise,
  passes,
  point,
  record,
  text,
  yesOrNo,
} from './schema-words.ts';
import { isSquarable, UNDER_PICTURE_LETTERS } from './under-picture.ts';
import { fileWork } from './work-schema.ts';

/**
 * The shape of a version 2 file. Objects are loose, so that keys this version does not know come through.
 */

const color = text.refine(isColor, 'is not written as # and six digits 0-9 or a-f');
const cut = z.looseObject(
  {
    id,
    from: point,
    to: point,
    role: z.enum(['auto', 'join', 'seam'], { error: phrase('is none of auto, join and seam') }).optional(),
    locked: yesOrNo.optional(),
  },
  record,
);

const patch = z.looseObject({ id, at: point, fabric: id.optional() }, record);

const outline = list(point, CORNERS_PER_OUTLINE).refine((points) => points.length >= 3, {
  error: ({ input }) =>
    phrase('has fewer than three points ({input})', { input: (input as readonly unknown[]).length }),
});

const side = z
  .number(otherwise(phrase('is not a number')))
  .refine(
    (pixels) => Number.isInteger(pixels) && pixels >= 1 && pixels <= MAX_PICTURE_PX,
    phrase('is not a whole number from 1 to {maxPicture}', { maxPicture: count(MAX_PICTURE_PX) }),
  );

const pair = z.tuple([number, number], otherwise(phrase('is not a pair of numbers')));

const NOT_PICTURE_DATA = phrase('is not a PNG, JPEG or WebP picture written as data:image/…;base64,…');

const underPicture = z.looseObject(
  {
    data: text
      .max(UNDER_PICTURE_LETTERS, { error: phrase('is larger than the 3 MB allowed'), abort: true })
      .refine((data) => isPictureData(data, UNDER_PICTURE_LETTERS), NOT_PICTURE_DATA),
    width: side,
    height: side,
    corners: z
      .tuple([pair, pair, pair, pair], otherwise(phrase('are not four pairs of numbers')))
      .refine(isSquarable, phrase('do not make a shape with four sides, without dents and crossings')),
    strength: z
      .number(otherwise(phrase('is not a number')))
      .min(0, phrase('is not between 0 and 1'))
      .max(1, phrase('is not between 0 and 1'))
      .optional(),
    shown: yesOrNo.optional(),
    locked: yesOrNo.optional(),
  },
  record,
);

const block = z.looseObject(
  {
    id,
    name,
    outline,
    cuts: list(cut, CUTS_PER_BLOCK).optional(),
    patches: list(patch, PATCHES_PER_BLOCK).optional(),
    plan: z
      .enum(PLAN_CHOICES, {
        error: phrase('is none of {planChoices}', { planChoices: PLAN_CHOICES.join(', ') }),
      })
      .optional(),
    orders: list(list(id, PATCHES_PER_ORDER), ORDERS_PER_BLOCK).optional(),
    picture: underPicture.optional(),
  },
  record,
);

const fabricPicture = z.looseObject(
  {
    data: text
      .max(PICTURE_LETTERS, { error: phrase('is larger than the 1 MB allowed'), abort: true })
      .refine((data) => isPictureData(data), NOT_PICTURE_DATA),
    width: side,
    height: side,
    across: z.number(otherwise(phrase('is not a number'))).superRefine(passes(checkAcross)),
  },
  record,
);

const fabric = z.looseObject({ id, name, color, picture: fabricPicture.optional(), ...clothKeys }, record);

const NO_COPIES = phrase('holds something other than whole numbers from 1 to {mostCopies}', {
  mostCopies: MOST_COPIES,
});

const copies = z
  .number(otherwise(NO_COPIES))
  .refine((number) => Number.isInteger(number) && number >= 1 && number <= MOST_COPIES, NO_COPIES);

export const fileProject = z.looseObject({
  name,
  unit: z.enum(['in', 'mm'], { error: phrase('is neither in nor mm') }).optional(),
  seamAllowance: z
    .number(otherwise(phrase('is not a number')))
    .superRefine(passes(checkSeamAllowance))
    .optional(),
  fabrics: list(fabric, FABRICS_PER_PROJECT).optional(),
  blocks: list(block, BLOCKS_PER_PROJECT),
  severities: z
    .record(
      id,
      z.enum(['trouble', 'caution', 'note', 'off'], {
        error: phrase('is none of trouble, caution, note and off'),
      }),
    )
    .optional(),
  inHand: z.record(id, copies, record).optional(),
  quilt: fileQuilt.optional(),
  cutting: fileCutting.optional(),
  work: fileWork.optional(),
});

export type FileProject = z.infer<typeof fileProject>;
