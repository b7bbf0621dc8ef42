import * as z from 'zod';
import { MOST_COPIES } from './limits.ts';
import { id, list, name, number, otherwise, point, record } from './schema-words.ts';

/** The shape of the key `work` of a file, and what must hold between its parts. */

const MOST_PAPERS = 200_000;

const ring = list(point, 10_000).refine((corners) => corners.length >= 3, 'has fewer than three points');
const letters = list(id, 2_000);
const count = number.refine((n) => Number.isInteger(n) && n >= 0, 'is not a whole number');

const block = z.looseObject(
  {
    id,
    name,
    copies: count.refine((n) => n >= 1 && n <= MOST_COPIES, `is not from 1 to ${MOST_COPIES}`),
    outline: ring,
    patches: list(z.looseObject({ id, fabric: id.optional(), polygon: ring }, record), 2_000),
    sections: list(
      z.looseObject(
        { letter: id, stamp: id, outline: ring, order: letters, startsFrom: letters.optional() },
        record,
      ),
      2_000,
    ),
    joins: list(
      z.looseObject(
        {
          left: letters,
          right: letters,
          seam: z.tuple([point, point], otherwise('is not a pair of points')),
          kind: id,
          points: list(z.looseObject({ label: id, at: point }, record), 10_000),
        },
        record,
      ),
      2_000,
    ),
  },
  record,
);

const take = z.looseObject({ paper: id, patches: letters }, record);
const round = z.looseObject({ fabric: id.optional(), takes: list(take, MOST_PAPERS) }, record);
const counts = z.record(id, count, record);

export const fileWork = z
  .looseObject(
    {
      blocks: list(block, 10_000),
      rounds: list(round, 100_000),
      sewn: counts,
      joined: counts,
      trimmed: list(id, MOST_PAPERS),
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
        say('names a paper that is not in work', 'rounds', k);
    });
    for (const [paper, done] of Object.entries(work.sewn))
      if (done > (lengths.get(paper) ?? -1)) say('counts more than there is to sew', 'sewn');
  });
