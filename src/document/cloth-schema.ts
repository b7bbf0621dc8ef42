import * as z from 'zod';
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
  number.superRefine((value, context) => {
    const checked = check(value);
    if (!checked.ok)
      context.addIssue({
        code: 'custom',
        message: checked.error.replace(/^.*? (is .*?)\.$/, '$1').replace(/^at hand (?=is)/, ''),
      });
  });

const within = (least: number, most: number) =>
  number.refine(
    (value) => value >= least && value <= most,
    phrase('is not from {least} to {most}', { least, most }),
  );

const piecesAtHand = z.looseObject(
  {
    name: text
      .max(CODE_LENGTH, phrase('is longer than {codeLength} letters', { codeLength: CODE_LENGTH }))
      .optional(),
    width: must(checkStockSide),
    height: must(checkStockSide),
    count: must(checkStockCount),
  },
  record,
);

/** Optional keys of each fabric. */
export const clothKeys = {
  code: text
    .max(CODE_LENGTH, phrase('is longer than {codeLength} letters', { codeLength: CODE_LENGTH }))
    .optional(),
  width: must(checkWidth).optional(),
  grain: z.enum(['seam', 'block'], { error: phrase('is neither seam nor block') }).optional(),
  directional: yesOrNo.optional(),
  price: z
    .looseObject(
      {
        amount: must(checkPrice),
        per: z.enum(['yard', 'metre'], { error: phrase('is neither yard nor metre') }),
      },
      record,
    )
    .optional(),
  atHand: z
    .looseObject(
      {
        length: must(checkStockLength).optional(),
        pieces: list(piecesAtHand, PIECES_AT_HAND).optional(),
      },
      record,
    )
    .optional(),
  notes: text
    .max(NOTES_LENGTH, phrase('is longer than {notesLength, number} letters', { notesLength: NOTES_LENGTH }))
    .optional(),
};

export const fileCutting = z.looseObject(
  {
    ease: within(0, MOST_EASE_IN).optional(),
    step: within(LEAST_STEP_IN, MOST_STEP_IN).optional(),
    width: must(checkWidth).optional(),
    savings: z
      .enum(['none', 'squares', 'all'], { error: phrase('is none of none, squares and all') })
      .optional(),
    spare: within(0, MOST_SHARE).optional(),
    shrinkage: within(0, MOST_SHARE).optional(),
    stockFirst: yesOrNo.optional(),
    sizes: list(
      z.looseObject(
        { block: id, patch: id, width: must(checkStockSide), height: must(checkStockSide) },
        record,
      ),
      SIZES_PER_PROJECT,
    ).optional(),
    done: list(text.max(MARK_LENGTH, otherwise(phrase('is too long'))), MARKS_PER_PROJECT).optional(),
  },
  record,
);
