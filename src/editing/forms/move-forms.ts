import { addCuts } from '../../document/edit-cuts.ts';
import { scaleBlock, setOutline } from '../../document/edit-outline.ts';
import { copyTurned, MIRRORS, scaleCuts, type Turn, turnBy, turnCuts } from '../../document/edit-turn.ts';
import type { Project } from '../../document/project.ts';
import type { Point } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { shifted } from '../../geometry/segments.ts';
import { ALIGNMENTS, type Alignment, alignCuts } from '../align.ts';
import { frameOf, type SizeHandle, spotOf } from '../frame.ts';
import { moveCornerAttached, moveEdgeAttached, shiftCutsAttached } from '../reshape.ts';
import { middleOf, turns } from '../symmetry.ts';
import { choice, number, refused, text } from './fields.ts';
import type { Form, Target, Values, Work } from './form.ts';

/** Forms that move, turn and copy what is there. */

const ABOUT = choice('about', 'About', [
  ['chosen', 'The middle of what is chosen'],
  ['block', 'The middle of the block'],
]);

const AS = choice('as', 'What becomes of it', [
  ['move', 'Moved'],
  ['copy', 'Copied'],
]);

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
        label: `${label}, copied`,
        selectsNew: true,
        change: (p) => copyTurned(p, id, ids, [turn], about),
      }
    : { ok: true, label, change: (project) => turnCuts(project, id, ids, turn, about) };
}

export const move: Form = {
  name: 'move',
  label: 'Move by numbers…',
  act: 'Move',
  needs: 'Choose cuts, a corner or an edge first.',
  fits: ({ cuts, chosen }) => cuts.length > 0 || chosen?.kind === 'corner' || chosen?.kind === 'edge',
  fields: ({ cuts }) => [
    { kind: 'shift', name: 'across', label: 'To the right', initial: 0 },
    { kind: 'shift', name: 'down', label: 'Down', initial: 0 },
    ...(cuts.length > 0 ? [AS] : []),
  ],
  work: ({ block, cuts, chosen }, values) => {
    const by: Point = [number(values, 'across'), number(values, 'down')];
    if (chosen?.kind === 'corner') {
      const at = block.outline[chosen.corner]!;
      const change = (p: Project) => moveCornerAttached(p, block.id, chosen.corner, shifted(at, by));
      return { ok: true, label: 'Move corner', change };
    }
    if (chosen?.kind === 'edge') {
      const change = (p: Project) => moveEdgeAttached(p, block.id, chosen.edge, by);
      return { ok: true, label: 'Move edge', change };
    }
    if (text(values, 'as') === 'copy') {
      if (by[0] === 0 && by[1] === 0) return refused('A copy on the same spot would not be seen.');
      const copies = cuts.map(({ from, to, role }) => ({
        from: shifted(from, by),
        to: shifted(to, by),
        role,
      }));
      const change = (p: Project) => addCuts(p, block.id, copies);
      return { ok: true, label: 'Copy cuts', selectsNew: true, change };
    }
    const ids = cuts.map(({ id }) => id);
    return {
      ok: true,
      label: ids.length === 1 ? 'Move cut' : 'Move cuts',
      change: (p) => shiftCutsAttached(p, block.id, ids, by),
    };
  },
};

const anyCut = ({ cuts }: Target): boolean => cuts.length > 0;

export const turn: Form = {
  name: 'turn',
  label: 'Turn what is chosen…',
  act: 'Turn',
  needs: 'Choose cuts first.',
  fits: anyCut,
  fields: () => [{ kind: 'degrees', name: 'degrees', label: 'By degrees', initial: 90 }, ABOUT, AS],
  work: (target, values) => turnedWork(target, values, 'Turn cuts', turnBy(number(values, 'degrees'))),
};

export const resize: Form = {
  name: 'resize',
  label: 'Resize what is chosen…',
  act: 'Resize',
  needs: 'Choose cuts that do not all lie on one line first.',
  fits: ({ cuts }) => frameOf(cuts) !== null,
  fields: ({ cuts }) => {
    const { minX, minY, maxX, maxY } = frameOf(cuts)!;
    return [
      { kind: 'length', name: 'width', label: 'Width', initial: maxX - minX },
      { kind: 'length', name: 'height', label: 'Height', initial: maxY - minY },
      choice('stays', 'What stays', [
        ['middle', 'Their middle'],
        ['upper-left', 'Their upper left corner'],
        ['lower-right', 'Their lower right corner'],
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
          label: 'Resize cuts, copied',
          selectsNew: true,
          change: (p) => copyTurned(p, block.id, ids, [[across, 0, 0, down]], about),
        }
      : {
          ok: true,
          label: 'Resize cuts',
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
  label: 'Mirror what is chosen…',
  act: 'Mirror',
  needs: 'Choose cuts first.',
  fits: anyCut,
  fields: () => [
    choice('axis', 'In a line', [
      ['upright', 'Upright'],
      ['level', 'Level'],
      ['falling', 'Falling to the right'],
      ['rising', 'Rising to the right'],
    ]),
    ABOUT,
    AS,
  ],
  work: (target, values) =>
    turnedWork(target, values, 'Mirror cuts', MIRRORS[text(values, 'axis') as keyof typeof MIRRORS]),
};

export const repeat: Form = {
  name: 'repeat',
  label: 'Repeat what is chosen round the middle…',
  act: 'Repeat',
  needs: 'Choose cuts first.',
  fits: anyCut,
  fields: () => [
    choice('fold', 'Times', [
      ['4', 'Four, a quarter turn each'],
      ['2', 'Two, half a turn'],
      ['6', 'Six'],
      ['8', 'Eight'],
    ]),
  ],
  work: ({ block, cuts }, values) => ({
    ok: true,
    label: 'Repeat cuts',
    selectsNew: true,
    change: (project) =>
      copyTurned(
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
  label: 'Align what is chosen…',
  act: 'Align',
  needs: 'Choose two cuts or more first.',
  fits: ({ cuts }) => cuts.length > 1,
  fields: () => [choice('to', 'On their', ALIGNMENTS)],
  work: ({ block, cuts }, values) => ({
    ok: true,
    label: 'Align cuts',
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
  label: 'Resize the block…',
  act: 'Resize',
  needs: 'Open a block first.',
  fits: () => true,
  fields: ({ block }) => {
    const { minX, minY, maxX, maxY } = boxOf(block.outline);
    return [
      { kind: 'length', name: 'width', label: 'Width', initial: maxX - minX },
      { kind: 'length', name: 'height', label: 'Height', initial: maxY - minY },
      choice('drawing', 'The drawing in it', [
        ['along', 'Grows along'],
        ['stays', 'Stays as it is'],
      ]),
    ];
  },
  work: ({ block }, values) => {
    const { minX, minY, maxX, maxY } = boxOf(block.outline);
    const across = number(values, 'width') / (maxX - minX);
    const down = number(values, 'height') / (maxY - minY);
    if (!Number.isFinite(across) || !Number.isFinite(down))
      return refused('The outline has no width or height.');
    if (text(values, 'drawing') === 'along')
      return { ok: true, label: 'Resize block', change: (p) => scaleBlock(p, block.id, across, down) };
    const outline = block.outline.map(
      ([x, y]): Point => [minX + (x - minX) * across, minY + (y - minY) * down],
    );
    return { ok: true, label: 'Resize outline', change: (project) => setOutline(project, block.id, outline) };
  },
};
