import * as z from 'zod';
import { PLAN_CHOICES } from '../piecing/block.ts';
import { phrase } from '../words/phrase.ts';
import {
  CUTS_PER_BLOCK,
  MOST_COPIES,
  ORDERS_PER_BLOCK,
  PATCHES_PER_BLOCK,
  PATCHES_PER_ORDER,
} from './limits.ts';
import { id, list, name, number, otherwise, point, record } from './schema-words.ts';

/** The shape of the key `work` of a file, and what must hold between its parts. */

const MOST_PAPERS = 200_000;

const ring = list(point, 10_000).refine(
  (corners) => corners.length >= 3,
  phrase('has fewer than three points'),
);
const letters = list(id, 2_000);
const size = number.refine((n) => n > 0 && n <= 1_000, phrase('is not above 0 and up to 1,000'));
const seconds = number.refine((n) => n >= 0, phrase('is below 0'));
const count = number.refine((n) => Number.isInteger(n) && n >= 0, phrase('is not a whole number'));

const pieceCut = z.looseObject(
  {
    kind: z.enum(['rectangle', 'half-square', 'quarter-square', 'half-rectangle'], {
      error: phrase('is no way to cut a piece'),
    }),
    width: size,
    height: size,
  },
  record,
);

const drawing = z.looseObject(
  {
    cuts: list(
      z.looseObject(
        {
          id,
          from: point,
          to: point,
          role: z.enum(['auto', 'join', 'seam'], { error: phrase('is none of auto, join and seam') }),
        },
        record,
      ),
      CUTS_PER_BLOCK,
    ),
    patches: list(z.looseObject({ id, at: point, fabric: id.optional() }, record), PATCHES_PER_BLOCK),
    plan: z
      .enum(PLAN_CHOICES, {
        error: phrase('is none of {planChoices}', { planChoices: PLAN_CHOICES.join(', ') }),
      })
      .optional(),
    orders: list(list(id, PATCHES_PER_ORDER), ORDERS_PER_BLOCK).optional(),
  },
  record,
);

const block = z.looseObject(
  {
    id,
    name,
    copies: count.refine(
      (n) => n >= 1 && n <= MOST_COPIES,
      phrase('is not from 1 to {mostCopies}', { mostCopies: MOST_COPIES }),
    ),
    outline: ring,
    patches: list(
      z.looseObject({ id, fabric: id.optional(), polygon: ring, cut: pieceCut.optional() }, record),
      2_000,
    ),
    sections: list(
      z.looseObject(
        {
          letter: id,
          printedAs: id.optional(),
          stamp: id,
          outline: ring,
          order: letters,
          startsFrom: letters.optional(),
        },
        record,
      ),
      2_000,
    ),
    joins: list(
      z.looseObject(
        {
          left: letters,
          right: letters,
          seam: z.tuple([point, point], otherwise(phrase('is not a pair of points'))),
          kind: id,
          points: list(z.looseObject({ label: id, at: point }, record), 10_000),
        },
        record,
      ),
      2_000,
    ),
    drawing: drawing.optional(),
  },
  record,
);

const take = z.looseObject({ paper: id, patches: letters }, record);
const round = z.looseObject(
  { fabric: id.optional(), takes: list(take, MOST_PAPERS), batch: count.optional() },
  record,
);
const counts = z.record(id, count, record);

const quilt = z.looseObject(
  {
    copies: count.refine(
      (n) => n >= 1 && n <= MOST_COPIES,
      phrase('is not from 1 to {mostCopies}', { mostCopies: MOST_COPIES }),
    ),
    places: list(z.looseObject({ id, number: count, block: id.optional() }, record), 10_000),
    steps: list(
      z.looseObject(
        { left: letters, right: letters, length: seconds, kind: id, pins: count, matches: count },
        record,
      ),
      10_000,
    ),
    done: list(list(count, 10_000), MOST_COPIES),
  },
  record,
);

export const fileWork = z
  .looseObject(
    {
      blocks: list(block, 10_000),
      rounds: list(round, 100_000),
      sewn: counts,
      joined: counts,
      trimmed: list(id, MOST_PAPERS),
      stages: list(
        z.enum(['cut', 'trimmed', 'pressed'], { error: phrase('is none of cut, trimmed and pressed') }),
        3,
      ).optional(),
      partly: z
        .record(id, z.enum(['sewn', 'trimmed'], { error: phrase('is neither sewn nor trimmed') }), record)
        .optional(),
      cut: list(count, 100_000).optional(),
      pile: count.refine((n) => n >= 1, phrase('is not 1 or more')).optional(),
      days: counts.optional(),
      time: z.looseObject({ seconds, patches: count }, record).optional(),
      quilt: quilt.optional(),
    },
    record,
  )
  .superRefine((work, context) => {
    const say = (message: string, ...path: (string | number)[]): void => {
      context.addIssue({ code: 'custom', message, path });
    };
    const lengths = new Map<string, number>();
    for (const { id: of, copies, sections } of work.blocks)
      for (const { letter, order } of sections)
        for (let copy = 1; copy <= copies; copy++) lengths.set(`${of}/${letter}/${copy}`, order.length);
    work.rounds.forEach(({ takes }, k) => {
      if (takes.some(({ paper }) => !lengths.has(paper)))
        say(phrase('names a paper that is not in work'), 'rounds', k);
    });
    if (work.cut?.some((round) => round >= work.rounds.length))
      say(phrase('names a round that is not there'), 'cut');
    for (const paper of Object.keys(work.partly ?? {}))
      if (!lengths.has(paper)) say(phrase('names a paper that is not in work'), 'partly');
    const steps = work.quilt?.steps.length ?? 0;
    if (work.quilt?.done.some((done) => done.some((step) => step >= steps)))
      say(phrase('names a step that is not there'), 'quilt', 'done');
    for (const [paper, done] of Object.entries(work.sewn))
      if (done > (lengths.get(paper) ?? -1)) say(phrase('counts more than there is to sew'), 'sewn');
  });
