import { addBlock, duplicateBlock } from '../document/edit-block.ts';
import { findBlock } from '../document/find.ts';
import { nextBlockId } from '../document/ids.ts';
import { outlineOf } from '../document/outline.ts';
import { EMPTY_PROJECT, type Project } from '../document/project.ts';
import { MM_PER_IN } from '../geometry/lattice.ts';
import { midSentence, phrase } from '../words/phrase.ts';
import { edit, redo, replaceProject, undo } from './actions.ts';
import { chooseDrawing } from './bring-in.ts';
import type { Command } from './command.ts';
import { deleteBlock } from './delete-block.ts';
import { askFor } from './dialogs.ts';
import { openFromPicker, saveKeptAside, saveToFile } from './files.ts';
import { redoLabel, type Session, session, undoLabel } from './session.ts';
import { choosePicture } from './under-picture.ts';

export type CommandName =
  | 'undo'
  | 'redo'
  | 'new-project'
  | 'open'
  | 'save'
  | 'save-kept-aside'
  | 'add-block'
  | 'from-the-shelf'
  | 'bring-in-drawing'
  | 'block-from-picture'
  | 'lay-picture'
  | 'take-elsewhere'
  | 'recolour'
  | 'duplicate-block'
  | 'remove-block';

interface AppCommand extends Command {
  readonly name: CommandName;
}

/** Every command that can be given in any place, once, in menu order. */
export const COMMANDS: readonly AppCommand[] = [
  {
    name: 'undo',
    label: (state) => withStep(phrase('Undo'), undoLabel(state)),
    keys: ['Mod+z'],
    enabled: (state) => undoLabel(state) !== null,
    run: undo,
  },
  {
    name: 'redo',
    label: (state) => withStep(phrase('Redo'), redoLabel(state)),
    keys: ['Mod+Shift+z', 'Mod+y'],
    enabled: (state) => redoLabel(state) !== null,
    run: redo,
  },
  {
    name: 'new-project',
    label: () => phrase('New project'),
    keys: ['Mod+Alt+n'],
    whileTyping: true,
    enabled: () => true,
    run: () => replaceProject(phrase('New project'), EMPTY_PROJECT),
  },
  {
    name: 'open',
    label: () => phrase('Open a file…'),
    keys: ['Mod+o'],
    whileTyping: true,
    enabled: () => true,
    run: openFromPicker,
  },
  {
    name: 'save',
    label: () => phrase('Save to a file'),
    keys: ['Mod+s'],
    whileTyping: true,
    enabled: () => true,
    run: saveToFile,
  },
  {
    name: 'save-kept-aside',
    label: () => phrase('Save the work that could not be read'),
    keys: [],
    enabled: (state) => state.keptAside.length > 0,
    run: saveKeptAside,
  },
  {
    name: 'add-block',
    label: () => phrase('Add a block'),
    keys: ['Mod+Alt+b'],
    whileTyping: true,
    enabled: () => true,
    run: addSquareBlock,
  },
  {
    name: 'from-the-shelf',
    label: () => phrase('From the shelf…'),
    keys: [],
    enabled: () => true,
    run: () => askFor({ kind: 'shelf' }),
  },
  {
    name: 'bring-in-drawing',
    label: () => phrase('Import a drawing (SVG)…'),
    keys: [],
    enabled: () => true,
    run: chooseDrawing,
  },
  {
    name: 'block-from-picture',
    label: () => phrase('Make a block from a picture…'),
    keys: [],
    enabled: () => true,
    run: () => askFor({ kind: 'from-picture', file: null }),
  },
  {
    name: 'lay-picture',
    label: () => phrase('Lay a picture under the drawing…'),
    keys: [],
    enabled: hasOpenBlock,
    run: choosePicture,
  },
  {
    name: 'take-elsewhere',
    label: () => phrase('Export the block…'),
    keys: [],
    enabled: hasOpenBlock,
    run: () => askFor({ kind: 'elsewhere' }),
  },
  {
    name: 'recolour',
    label: () => phrase('Replace or swap fabrics…'),
    keys: [],
    enabled: (state) => hasOpenBlock(state) && state.project.fabrics.length > 1,
    run: () => askFor({ kind: 'recolour' }),
  },
  {
    name: 'duplicate-block',
    label: () => phrase('Duplicate the block'),
    keys: ['Mod+d'],
    whileTyping: true,
    enabled: hasOpenBlock,
    run: () => {
      const { project, blockId } = session.getState();
      if (blockId === null) return;
      edit(phrase('Duplicate block'), (before) => duplicateBlock(before, blockId), {
        openBlock: nextBlockId(project),
        select: [],
      });
    },
  },
  {
    name: 'remove-block',
    label: () => phrase('Delete the block'),
    keys: [],
    enabled: hasOpenBlock,
    run: () => {
      const { blockId } = session.getState();
      if (blockId !== null) deleteBlock(blockId);
    },
  },
];

export function command(name: CommandName): AppCommand {
  const found = COMMANDS.find((one) => one.name === name);
  if (found === undefined) throw new Error(`No command is named ${name}.`);
  return found;
}

/** Runs a command if it is enabled now. */
export function runCommand(name: CommandName): void {
  const { enabled, run } = command(name);
  if (enabled(session.getState())) void run();
}

/** Adds a square of a common block size (6 in, or 150 mm in a metric project) and opens it. */
export function addSquareBlock(): void {
  const { project } = session.getState();
  const side = project.unit === 'mm' ? 150 / MM_PER_IN : 6;
  edit(
    phrase('Add block'),
    (before) =>
      addBlock(before, { name: freeBlockName(before), outline: outlineOf({ kind: 'square', side }) }),
    { openBlock: nextBlockId(project), select: [] },
  );
}

/** `Block 3` for the third block, or the next number that no block is named by. */
export function freeBlockName(project: Project): string {
  const taken = new Set(project.blocks.map(({ name }) => name));
  let n = project.blocks.length + 1;
  while (taken.has(phrase('Block {n}', { n }))) n++;
  return phrase('Block {n}', { n });
}

function hasOpenBlock({ project, blockId }: Session): boolean {
  return blockId !== null && findBlock(project, blockId) !== null;
}

const withStep = (verb: string, step: string | null): string =>
  step === null ? verb : phrase('[[undo or redo what]] {verb} {step}', { verb, step: midSentence(step) });
