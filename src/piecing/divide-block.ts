import { divide } from '../geometry/division.ts';
import { MAX_COORDINATE_IN } from '../geometry/lattice.ts';
import { outlineFault } from '../geometry/outline.ts';
import type { Point } from '../geometry/point.ts';
import { straightGroups } from '../geometry/straight.ts';
import { phrase } from '../words/phrase.ts';
import type { Block } from './block.ts';
import { outlineMessage } from './broken.ts';
import { type Pattern, patternOf } from './pattern.ts';

/** More patches than this and no order is looked for: far beyond any block that is sewn from paper. */
export const MAX_PATCHES = 2_000;

/** A block divided into patches that have no names yet, or why it cannot be. */
export type DividedBlock =
  | {
      readonly ok: true;
      /** Every edge `auto`: roles are put to it by the assembly. */
      readonly pattern: Pattern;
    }
  | { readonly ok: false; readonly code: string; readonly at: Point; readonly message: string };

/** What a division hangs on, as a text: the same for two drawings of the same lines. */
export const divisionKey = ({ outline, cuts }: Pick<Block, 'outline' | 'cuts'>): string =>
  `${outline.join(' ')} | ${cuts.map(({ from, to }) => `${from} ${to}`).join(' ')}`;

/** Divides a block by its cuts. Never throws on any drawing. */
export function divideBlock({ outline, cuts }: Pick<Block, 'outline' | 'cuts'>): DividedBlock {
  const fault = outlineFault(outline);
  if (fault)
    return { ok: false, code: `outline-${fault.kind}`, at: fault.at, message: outlineMessage(fault) };
  const at = outline[0]!;
  const refuse = (code: string, message: string): DividedBlock => ({ ok: false, code, at, message });
  const far = cuts.findIndex((cut) => [...cut.from, ...cut.to].some((v) => Math.abs(v) > MAX_COORDINATE_IN));
  if (far >= 0)
    return refuse(
      'cut-too-far',
      phrase('Line {far} reaches farther out than {maxCoordinate, number} in.', {
        far: far + 1,
        maxCoordinate: MAX_COORDINATE_IN,
      }),
    );
  const divided = divide(
    outline,
    cuts.map((cut) => [cut.from, cut.to]),
  );
  if (!divided.ok)
    return divided.fault === 'too-many'
      ? refuse(
          'too-many-crossings',
          phrase(
            'The lines are too dense for a block: more than 50,000 crossings, or more than 200 lines through one spot.',
          ),
        )
      : refuse(
          'tangled',
          phrase('Some lines lie so close together that their patches cannot be told apart.'),
        );
  const { division } = divided;
  if (division.faces.length > MAX_PATCHES)
    return refuse(
      'too-many-patches',
      phrase('The lines make {faces, number} patches; a block may have {maxPatches, number}.', {
        faces: division.faces.length,
        maxPatches: MAX_PATCHES,
      }),
    );
  return { ok: true, pattern: patternOf(division, straightGroups(division)) };
}
