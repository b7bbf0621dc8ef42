import * as z from 'zod/mini';
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

const ring = list(point, 10_000).check(
  z.refine((corners) => corners.length >= 3, phrase('has fewer than three points')),
);
const letters = list(id, 2_000);
const size = number.check(z.refine((n) => n > 0 && n <= 1_000, phrase('is not above 0 and up to 1,000')));
const seconds = number.check(z.refine((n) => n >= 0, phrase('is below 0')));
const count = number.check(z.refine((n) => Number.isInteger(n) && n >= 0, phrase('is not a whole number')));

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
    patches: list(z.looseObject({ id, at: point, fabric: z.optional(id) }, record), PATCHES_PER_BLOCK),
    plan: z.optional(
      z.enum(PLAN_CHOICES, {
        error: phrase('is none of {planChoices}', { planChoices: PLAN_CHOICES.join(', ') }),
      }),
    ),
    orders: z.optional(list(list(id, PATCHES_PER_ORDER), ORDERS_PER_BLOCK)),
  },
  record,
);

const block = z.looseObject(
  {
    id,
    name,
    copies: count.check(
      z.refine(
        (n) => n >= 1 && n <= MOST_COPIES,
        phrase('is not from 1 to {mostCopies}', { mostCopies: MOST_COPIES }),
      ),
    ),
    outline: ring,
    patches: list(
      z.looseObject({ id, fabric: z.optional(id), polygon: ring, cut: z.optional(pieceCut) }, record),
      2_000,
    ),
    sections: list(
      z.looseObject(
        {
          letter: id,
          printedAs: z.optional(id),
          stamp: id,
          outline: ring,
          order: letters,
          startsFrom: z.optional(letters),
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
    drawing: z.optional(drawing),
  },
  record,
);

const take = z.looseObject({ paper: id, patches: letters }, record);
const round = z.looseObject(
  { fabric: z.optional(id), takes: list(take, MOST_PAPERS), batch: z.optional(count) },
  record,
);
const counts = z.record(id, count, record);

const quilt = z.looseObject(
  {
    copies: count.check(
      z.refine(
        (n) => n >= 1 && n <= MOST_COPIES,
        phrase('is not from 1 to {mostCopies}', { mostCopies: MOST_COPIES }),
      ),
    ),
    places: list(z.looseObject({ id, number: count, block: z.optional(id) }, record), 10_000),
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
      stages: z.optional(
        list(
          z.enum(['cut', 'trimmed', 'pressed'], { error: phrase('is none of cut, trimmed and pressed') }),
          3,
        ),
      ),
      partly: z.optional(
        z.record(id, z.enum(['sewn', 'trimmed'], { error: phrase('is neither sewn nor trimmed') }), record),
      ),
      cut: z.optional(list(count, 100_000)),
      pile: z.optional(count.check(z.refine((n) => n >= 1, phrase('is not 1 or more')))),
      days: z.optional(counts),
      time: z.optional(z.looseObject({ seconds, patches: count }, record)),
      quilt: z.optional(quilt),
    },
    record,
  )
  .check(
    z.superRefine((work, context) => {
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
    }),
  );
