import { formatLength, type LengthUnit } from '../../geometry/length.ts';
import { phrase } from '../../words/phrase.ts';

/** What a person could do about a finding where no change that was tried helps, by its code. Common practice. */
const byHandIn = (length: (inches: number) => string): Readonly<Record<string, string>> => ({
  ring: phrase(
    'Sew it as it is: pin one stretch at a time, stop at each corner with the needle down, turn, and sew on. Or choose a plan with a partial seam, where there is one.',
  ),
  island: phrase(
    'Set the inner patch in by hand, or lay it on the finished patch and sew round it; or extend one of its lines to the edge.',
  ),
  'pin-refused': phrase(
    'Let the line be a join or a seam as the plan needs it, or draw it so that it runs right across.',
  ),
  'order-refused': phrase('Let the plan choose the order, or begin with another patch.'),
  'loose-end': phrase(
    'Take the line in hand by its end and extend it to another line, or pull it back to one.',
  ),
  'idle-cut': phrase('Extend the line to others at both ends, or delete it.'),
  'overlapping-cut': phrase('Delete one of the two lines, or move it clear of the other.'),
  'drawn-twice': phrase('Delete one of the two lines, or move them at least {apart} apart.', {
    apart: length(1 / 4),
  }),
  'short-cut': phrase('Delete it: there is nothing of it to see.'),
  'outside-cut': phrase('Delete it, or move it into the block.'),
  'near-miss': phrase(
    'Move one end onto the other so that the seams meet, or at least {away} away from it so that the jog looks meant.',
    { away: length(1 / 2) },
  ),
  sliver: phrase(
    'Move a line so that the patch is at least {wide} wide, or let its lines meet in a point. As it is, both its seam allowances lie on each other: use a short stitch, and trim them to a bare {trimmed}.',
    { wide: length(1 / 4), trimmed: length(1 / 8) },
  ),
  'sharp-angle': phrase(
    'Let the point end on a line a little sooner, or turn a line. As it is, sew slowly towards the point, and trim the tip of the allowance.',
  ),
  'inward-corner': phrase(
    'Draw a line on from the corner, so that two patches of one fabric take its place; or sew to the corner, snip the allowance, turn, and sew on.',
  ),
  'many-seams': phrase(
    'Move some of the lines so that fewer than eight meet there. As it is, press these seams open and pin through the spot.',
  ),
  'many-patches': phrase('Mark a line as a join, so that the foundation becomes two.'),
  oversize: phrase('Mark a line as a join, choose a larger page, or let the paper be tiled.'),
});

/** A plain sentence of advice; null where there is none to give. */
export const byHand = (code: string, unit: LengthUnit): string | null =>
  byHandIn((inches) => formatLength(inches, unit))[code] ?? null;
