import * as z from 'zod/mini';
import { phrase } from '../words/phrase.ts';
import {
  CODE_LENGTH,
  checkPrice,
  checkStockCount,
  checkStockLength,
  checkStockSide,
  checkWidth,
  NOTES_LENGTH,
  PIECES_AT_HAND,
} from './cloth.ts';
import {
  LEAST_STEP_IN,
  MARK_LENGTH,
  MARKS_PER_PROJECT,
  MOST_EASE_IN,
  MOST_SHARE,
  MOST_STEP_IN,
  SIZES_PER_PROJECT,
} from './cutting-choices.ts';
import type { Checked } from './limits.ts';
import { id, list, number, otherwise, record, text, yesOrNo } from './schema-words.ts';

/** The shape of what a file says about cloth and about cutting. */

/** Takes over a check that edits use too; what follows its subject is the predicate. */
const must = (check: (value: number) => Checked<number>) =>
  number.check(
    z.superRefine((value, context) => {
      const checked = check(value);
      if (!checked.ok)
        context.addIssue({
          code: 'custom',
          message: checked.error.replace(/^.*? (is .*?)\.$/, '$1').replace(/^at hand (?=is)/, ''),
        });
    }),
  );

const within = (least: number, most: number) =>
  number.check(
    z.refine(
      (value) => value >= least && value <= most,
      phrase('is not from {least} to {most}', { least, most }),
    ),
  );

const piecesAtHand = z.looseObject(
  {
    name: z.optional(
      text.check(
        z.maxLength(CODE_LENGTH, phrase('is longer than {codeLength} letters', { codeLength: CODE_LENGTH })),
      ),
    ),
    width: must(checkStockSide),
    height: must(checkStockSide),
    count: must(checkStockCount),
  },
  record,
);

/** Optional keys of each fabric. */
export const clothKeys = {
  code: z.optional(
    text.check(
      z.maxLength(CODE_LENGTH, phrase('is longer than {codeLength} letters', { codeLength: CODE_LENGTH })),
    ),
  ),
  width: z.optional(must(checkWidth)),
  grain: z.optional(z.enum(['seam', 'block'], { error: phrase('is neither seam nor block') })),
  directional: z.optional(yesOrNo),
  price: z.optional(
    z.looseObject(
      {
        amount: must(checkPrice),
        per: z.enum(['yard', 'metre'], { error: phrase('is neither yard nor metre') }),
      },
      record,
    ),
  ),
  atHand: z.optional(
    z.looseObject(
      {
        length: z.optional(must(checkStockLength)),
        pieces: z.optional(list(piecesAtHand, PIECES_AT_HAND)),
      },
      record,
    ),
  ),
  notes: z.optional(
    text.check(
      z.maxLength(
        NOTES_LENGTH,
        phrase('is longer than {notesLength, number} letters', { notesLength: NOTES_LENGTH }),
      ),
    ),
  ),
};

export const fileCutting = z.looseObject(
  {
    ease: z.optional(within(0, MOST_EASE_IN)),
    step: z.optional(within(LEAST_STEP_IN, MOST_STEP_IN)),
    width: z.optional(must(checkWidth)),
    savings: z.optional(
      z.enum(['none', 'squares', 'all'], { error: phrase('is none of none, squares and all') }),
    ),
    spare: z.optional(within(0, MOST_SHARE)),
    shrinkage: z.optional(within(0, MOST_SHARE)),
    stockFirst: z.optional(yesOrNo),
    sizes: z.optional(
      list(
        z.looseObject(
          { block: id, patch: id, width: must(checkStockSide), height: must(checkStockSide) },
          record,
        ),
        SIZES_PER_PROJECT,
      ),
    ),
    done: z.optional(
      list(text.check(z.maxLength(MARK_LENGTH, otherwise(phrase('is too long')))), MARKS_PER_PROJECT),
    ),
  },
  record,
);
