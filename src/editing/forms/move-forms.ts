import { addCuts } from '../../document/edit-cuts.ts';
import { scaleBlock, setOutline } from '../../document/edit-outline.ts';
import {
  copyTurned,
  MIRRORS,
  scaleCuts,
  type Turn,
  turnBy,
  turnCuts,
  turned,
} from '../../document/edit-turn.ts';
import type { Project } from '../../document/project.ts';
import type { Point } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { shifted } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { ALIGNMENTS, type Alignment, alignCuts } from '../align.ts';
import { frameOf, type SizeHandle, spotOf } from '../frame.ts';
import { withCloth } from '../part.ts';
import { moveCornerAttached, moveEdgeAttached, shiftCutsAttached } from '../reshape.ts';
import { middleOf, turns } from '../symmetry.ts';
import { choice, number, refused, text } from './fields.ts';
import type { Form, Target, Values, Work } from './form.ts';

/** Forms that move, turn and copy what is there. */

const ABOUT = choice('about', phrase('About'), [
  ['chosen', phrase('The middle of what is chosen')],
  ['block', phrase('The middle of the block')],
]);

const AS = choice('as', phrase('What becomes of it'), [
  ['move', phrase('Moved')],
  ['copy', phrase('Copied')],
]);

/** Copies of cuts under moves about a point, with the fabrics of what they enclose. */
const copied = (
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  moves: readonly Turn[],
  about: Point,
): Project =>
  withCloth(
    project,
    blockId,
    cutIds,
    moves.map((move) => (at: Point) => turned(move, about, at)),
    (before) => copyTurned(before, blockId, cutIds, moves, about),
  );

/** The point that a turn or mirror keeps. */
function aboutOf({ block, cuts }: Target, values: Values): Point {
  return text(values, 'about') === 'block'
    ? middleOf(block.outline)
    : middleOf(cuts.flatMap(({ from, to }) => [from, to]));
}

function turnedWork(target: Target, values: Values, label: string, turn: Turn): Work {
  const ids = target.cuts.map(({ id }) => id);
  const about = aboutOf(target, values);
  const { id } = target.block;
  return text(values, 'as') === 'copy'
    ? {
        ok: true,
        label: phrase('{label}, copied', { label }),
        selectsNew: true,
        change: (p) => copied(p, id, ids, [turn], about),
      }
    : { ok: true, label, change: (project) => turnCuts(project, id, ids, turn, about) };
}

export const move: Form = {
  name: 'move',
  label: phrase('Move by numbers…'),
  act: phrase('Move'),
  needs: phrase('Choose lines, a corner or an edge first.'),
  fits: ({ cuts, chosen }) => cuts.length > 0 || chosen?.kind === 'corner' || chosen?.kind === 'edge',
  fields: ({ cuts }) => [
    { kind: 'shift', name: 'across', label: phrase('To the right'), initial: 0 },
    { kind: 'shift', name: 'down', label: phrase('Down'), initial: 0 },
    ...(cuts.length > 0 ? [AS] : []),
  ],
  work: ({ block, cuts, chosen }, values) => {
    const by: Point = [number(values, 'across'), number(values, 'down')];
    if (chosen?.kind === 'corner') {
      const at = block.outline[chosen.corner]!;
      const change = (p: Project) => moveCornerAttached(p, block.id, chosen.corner, shifted(at, by));
      return { ok: true, label: phrase('Move corner'), change };
    }
    if (chosen?.kind === 'edge') {
      const change = (p: Project) => moveEdgeAttached(p, block.id, chosen.edge, by);
      return { ok: true, label: phrase('Move edge'), change };
    }
    if (text(values, 'as') === 'copy') {
      if (by[0] === 0 && by[1] === 0) return refused(phrase('A copy on the same spot would not be seen.'));
      const copies = cuts.map(({ from, to, role }) => ({
        from: shifted(from, by),
        to: shifted(to, by),
        role,
      }));
      const ids = cuts.map(({ id }) => id);
      const change = (p: Project) =>
        withCloth(p, block.id, ids, [(at) => shifted(at, by)], (before) => addCuts(before, block.id, copies));
      return { ok: true, label: phrase('Copy lines'), selectsNew: true, change };
    }
    const ids = cuts.map(({ id }) => id);
    return {
      ok: true,
      label: ids.length === 1 ? phrase('Move line') : phrase('Move lines'),
      change: (p) => shiftCutsAttached(p, block.id, ids, by),
    };
  },
};

const anyCut = ({ cuts }: Target): boolean => cuts.length > 0;

export const turn: Form = {
  name: 'turn',
  label: phrase('Turn what is chosen…'),
  act: phrase('Turn'),
  needs: phrase('Choose lines first.'),
  fits: anyCut,
  fields: () => [{ kind: 'degrees', name: 'degrees', label: phrase('By degrees'), initial: 90 }, ABOUT, AS],
  work: (target, values) =>
    turnedWork(target, values, phrase('Turn lines'), turnBy(number(values, 'degrees'))),
};

export const resize: Form = {
  name: 'resize',
  label: phrase('Resize what is chosen…'),
  act: phrase('Resize'),
  needs: phrase('Choose lines that do not all lie on one line first.'),
  fits: ({ cuts }) => frameOf(cuts) !== null,
  fields: ({ cuts }) => {
    const { minX, minY, maxX, maxY } = frameOf(cuts)!;
    return [
      { kind: 'length', name: 'width', label: 'Width', initial: maxX - minX },
      { kind: 'length', name: 'height', label: 'Height', initial: maxY - minY },
      choice('stays', phrase('Fixed point'), [
        ['middle', phrase('Their middle')],
        ['upper-left', phrase('Their upper left corner')],
        ['lower-right', phrase('Their lower right corner')],
      ]),
      AS,
    ];
  },
  work: ({ block, cuts }, values) => {
    const box = frameOf(cuts)!;
    const across = number(values, 'width') / (box.maxX - box.minX);
    const down = number(values, 'height') / (box.maxY - box.minY);
    const about = spotOf(box, STAYS[text(values, 'stays')] ?? [0, 0]);
    const ids = cuts.map(({ id }) => id);
    return text(values, 'as') === 'copy'
      ? {
          ok: true,
          label: phrase('Resize lines, copied'),
          selectsNew: true,
          change: (p) => copied(p, block.id, ids, [[across, 0, 0, down]], about),
        }
      : {
          ok: true,
          label: phrase('Resize lines'),
          change: (p) => scaleCuts(p, block.id, ids, across, down, about),
        };
  },
};

const STAYS: Readonly<Record<string, SizeHandle>> = {
  middle: [0, 0],
  'upper-left': [-1, -1],
  'lower-right': [1, 1],
};

export const mirror: Form = {
  name: 'mirror',
  label: phrase('Mirror what is chosen…'),
  act: phrase('Mirror'),
  needs: phrase('Choose lines first.'),
  fits: anyCut,
  fields: () => [
    choice('axis', phrase('In a line'), [
      ['upright', phrase('Vertical')],
      ['level', phrase('Horizontal')],
      ['falling', phrase('Falling to the right')],
      ['rising', phrase('Rising to the right')],
    ]),
    ABOUT,
    AS,
  ],
  work: (target, values) =>
    turnedWork(target, values, phrase('Mirror lines'), MIRRORS[text(values, 'axis') as keyof typeof MIRRORS]),
};

export const repeat: Form = {
  name: 'repeat',
  label: phrase('Repeat what is chosen round the middle…'),
  act: phrase('Repeat'),
  needs: phrase('Choose lines first.'),
  fits: anyCut,
  fields: () => [
    choice('fold', phrase('Times'), [
      ['4', phrase('Four, a quarter turn each')],
      ['2', phrase('Two, half a turn')],
      ['6', phrase('Six')],
      ['8', phrase('Eight')],
    ]),
  ],
  work: ({ block, cuts }, values) => ({
    ok: true,
    label: phrase('Repeat lines'),
    selectsNew: true,
    change: (project) =>
      copied(
        project,
        block.id,
        cuts.map(({ id }) => id),
        turns(number(values, 'fold')).slice(1),
        middleOf(block.outline),
      ),
  }),
};

export const align: Form = {
  name: 'align',
  label: phrase('Align what is chosen…'),
  act: phrase('Align'),
  needs: phrase('Choose two lines or more first.'),
  fits: ({ cuts }) => cuts.length > 1,
  fields: () => [choice('to', phrase('Align by'), ALIGNMENTS)],
  work: ({ block, cuts }, values) => ({
    ok: true,
    label: phrase('Align lines'),
    change: (project) =>
      alignCuts(
        project,
        block.id,
        cuts.map(({ id }) => id),
        text(values, 'to') as Alignment,
      ),
  }),
};

export const size: Form = {
  name: 'size',
  label: phrase('Resize the block…'),
  act: phrase('Resize'),
  needs: phrase('Open a block first.'),
  fits: () => true,
  fields: ({ block }) => {
    const { minX, minY, maxX, maxY } = boxOf(block.outline);
    return [
      { kind: 'length', name: 'width', label: 'Width', initial: maxX - minX },
      { kind: 'length', name: 'height', label: 'Height', initial: maxY - minY },
      choice('drawing', phrase('The drawing in it'), [
        ['along', phrase('Grows along')],
        ['stays', phrase('Stays as it is')],
      ]),
    ];
  },
  work: ({ block }, values) => {
    const { minX, minY, maxX, maxY } = boxOf(block.outline);
    const across = number(values, 'width') / (maxX - minX);
    const down = number(values, 'height') / (maxY - minY);
    if (!Number.isFinite(across) || !Number.isFinite(down))
      return refused(phrase('The outline has no width or height.'));
    if (text(values, 'drawing') === 'along')
      return {
        ok: true,
        label: phrase('Resize block'),
        change: (p) => scaleBlock(p, block.id, across, down),
      };
    const outline = block.outline.map(
      ([x, y]): Point => [minX + (x - minX) * across, minY + (y - minY) * down],
    );
    return {
      ok: true,
      label: phrase('Resize outline'),
      change: (project) => setOutline(project, block.id, outline),
    };
  },
};
