import { setCutsLocked } from '../document/edit-cuts.ts';
import { MIRRORS, type Turn, turnBlock, turnBy } from '../document/edit-turn.ts';
import { FORMS } from '../editing/forms/forms.ts';
import { addCorner } from '../editing/reshape.ts';
import { joinCuts, splitAtCrossings } from '../editing/split.ts';
import { SYMMETRIES, type Symmetry } from '../editing/symmetry.ts';
import { phrase } from '../words/phrase.ts';
import { edit, select } from '../workspace/actions.ts';
import type { Command } from '../workspace/command.ts';
import { askFor } from '../workspace/dialogs.ts';
import { squareAgain } from '../workspace/under-picture.ts';
import { canDelete, chooseNothing, deleteChosen, openForm, setOnePatch, stepGrid } from './board-acts.ts';
import { announce, board, gridKindOn } from './board-state.ts';
import { zoomBy, zoomToChosen, zoomToFit } from './camera-acts.ts';
import { chooseAll, chooseSameDirection, chooseSameRole } from './choosing.ts';
import { copyChosen, cutOutChosen, duplicateChosen, hasKept, pasteKept } from './clipboard.ts';
import { targetNow } from './target.ts';
import { cancel, takeUp } from './tool-in-hand.ts';
import { TOOLS } from './tools/tools.ts';
import {
  canChangePicture,
  takePictureAway,
  toggleLocked,
  toggleShown,
  tracedBlock,
} from './under-picture-acts.ts';

/** What the board can be told to do, wherever the keyboard is in the Block place. */
export interface BoardCommand extends Command {
  /** What it is for: the whole block, what is chosen, or the board itself. */
  readonly about: 'board' | 'chosen' | 'block';
}

const ZOOM_STEP = 1.25;

const always = (): boolean => true;
const hasBlock = (): boolean => targetNow() !== null;
const hasCuts = (): boolean => (targetNow()?.cuts.length ?? 0) > 0;
const isLocked = (): boolean => targetNow()?.cuts.every(({ locked }) => locked === true) ?? false;

const onBoard = (name: string, label: string, keys: readonly string[], run: () => void): BoardCommand => ({
  name,
  label: () => label,
  keys,
  about: 'board',
  enabled: always,
  run,
});

const onCuts = (name: string, label: string, keys: readonly string[], run: () => void): BoardCommand => ({
  name,
  label: () => label,
  keys,
  about: 'chosen',
  enabled: hasCuts,
  run,
});

/** On cuts with the fabrics they enclose, or on a patch. */
const onPart = (name: string, label: string, keys: readonly string[], run: () => void): BoardCommand => ({
  ...onCuts(name, label, keys, run),
  enabled: () => hasCuts() || targetNow()?.patch != null,
});

const turningBlock = (name: string, label: string, turn: Turn): BoardCommand => ({
  name,
  label: () => label,
  keys: [],
  about: 'block',
  enabled: hasBlock,
  run: () => {
    const target = targetNow();
    if (target === null) return;
    edit(label, (project) => turnBlock(project, target.block.id, turn));
    announce(phrase('{label}: done.', { label }));
  },
});

/** Every command of the board, once: its buttons, its keys, the palette and the help read this list. */
export const BOARD_COMMANDS: readonly BoardCommand[] = [
  ...TOOLS.map(({ name, label, key }) => onBoard(name, label, [key], () => takeUp(name))),
  onBoard('zoom-in', phrase('Zoom in'), ['+', '='], () => zoomBy(ZOOM_STEP)),
  onBoard('zoom-out', phrase('Zoom out'), ['-'], () => zoomBy(1 / ZOOM_STEP)),
  onBoard('zoom-fit', phrase('Fit the sheet'), ['0'], zoomToFit),
  onBoard('zoom-chosen', phrase('Zoom to what is chosen'), ['9'], zoomToChosen),
  onBoard('finer-grid', phrase('Finer grid'), ['['], () => stepGrid('finer')),
  onBoard('coarser-grid', phrase('Coarser grid'), [']'], () => stepGrid('coarser')),
  onBoard('grid-kind', phrase('Square or 60° grid'), ['G'], () => {
    const gridKind = gridKindOn(targetNow()?.block ?? null) === 'square' ? 'sixty' : 'square';
    board.setState({ gridKind });
    announce(gridKind === 'square' ? phrase('Square grid') : phrase('60° grid'));
  }),
  onBoard('one-patch', phrase('Line through everything, or one patch only'), ['X'], () =>
    setOnePatch(!board.getState().onePatch),
  ),
  onBoard('symmetry', phrase('Next symmetry'), ['S'], () => {
    const index = SYMMETRIES.findIndex(([symmetry]) => symmetry === board.getState().symmetry);
    const [symmetry, words] = SYMMETRIES[(index + 1) % SYMMETRIES.length] as readonly [Symmetry, string];
    board.setState({ symmetry });
    announce(phrase('Symmetry: {words}', { words }));
  }),
  onBoard('value-view', phrase('Show values or colours'), ['W'], () => {
    const valueView = !board.getState().valueView;
    board.setState({ valueView });
    announce(
      valueView
        ? phrase('Fabrics are shown as greys, by their lightness.')
        : phrase('Fabrics are shown in their colours.'),
    );
  }),
  onBoard('plain', phrase('Show the block plain, or with its marks'), ['K'], () => {
    const plain = !board.getState().plain;
    board.setState({ plain });
    announce(plain ? phrase('The block is shown plain.') : phrase('Numbers, joins and sections are shown.'));
  }),
  {
    ...onBoard('choose-nothing', phrase('Choose nothing'), ['Escape'], () => {
      cancel();
      chooseNothing();
    }),
    enabled: ({ selection }) => selection.length > 0 || board.getState().chosen !== null,
  },
  { ...onBoard('choose-all', phrase('Choose all lines'), ['Mod+a'], chooseAll), enabled: hasBlock },
  {
    ...onBoard('delete-chosen', '', ['Delete', 'Backspace'], deleteChosen),
    label: ({ selection }) =>
      selection.length === 0
        ? phrase('Delete what is chosen')
        : selection.length === 1
          ? phrase('Delete the line')
          : phrase('Delete the lines'),
    enabled: canDelete,
  },
  onPart('copy', phrase('Copy'), ['Mod+c'], copyChosen),
  onPart('duplicate', phrase('Duplicate'), ['Mod+Shift+d'], duplicateChosen),
  onCuts('cut-out', phrase('[[clipboard]] Cut'), ['Mod+x'], cutOutChosen),
  onPart('keep-motif', phrase('Keep as a motif…'), [], () => askFor({ kind: 'motifs' })),
  {
    name: 'motifs',
    label: () => phrase('Motifs…'),
    keys: [],
    about: 'block',
    enabled: hasBlock,
    run: () => askFor({ kind: 'motifs' }),
  },
  {
    ...onBoard('paste', phrase('Paste'), ['Mod+v'], pasteKept),
    byEvent: true,
    enabled: () => hasKept() && hasBlock(),
  },
  onCuts('lock', phrase('Lock or unlock'), ['L'], () => {
    const target = targetNow();
    if (target === null) return;
    const lock = !isLocked();
    const ids = target.cuts.map(({ id }) => id);
    edit(lock ? phrase('Lock lines') : phrase('Unlock lines'), (project) =>
      setCutsLocked(project, target.block.id, ids, lock),
    );
    announce(lock ? phrase('Locked.') : phrase('Unlocked.'));
  }),
  onCuts('split', phrase('Split at crossings'), [], () => {
    const target = targetNow();
    if (target === null) return;
    const before = new Set(target.block.cuts.map(({ id }) => id));
    const chosen = target.cuts.map(({ id }) => id);
    edit(phrase('Split lines'), (project) => splitAtCrossings(project, target.block.id, chosen));
    const more = (targetNow()?.block.cuts ?? []).map(({ id }) => id).filter((id) => !before.has(id));
    // What was chosen stays chosen, now that it is several.
    if (more.length > 0) select([...chosen, ...more]);
    announce(
      more.length === 0
        ? phrase('Nothing crosses there.')
        : phrase('Split: {more} lines chosen.', { more: more.length + chosen.length }),
    );
  }),
  {
    ...onCuts('join', phrase('Join into one line'), ['J'], () => {
      const target = targetNow();
      if (target === null) return;
      const before = target.block.cuts.length;
      edit(phrase('Join lines'), (project) =>
        joinCuts(
          project,
          target.block.id,
          target.cuts.map(({ id }) => id),
        ),
      );
      const fewer = before - (targetNow()?.block.cuts.length ?? before);
      announce(fewer === 0 ? phrase('They do not touch along one straight line.') : phrase('Joined.'));
    }),
    enabled: () => (targetNow()?.cuts.length ?? 0) > 1,
  },
  onCuts('choose-direction', phrase('Choose all in this direction'), [], chooseSameDirection),
  onCuts('choose-role', phrase('Choose all sewn as this'), [], chooseSameRole),
  {
    name: 'add-corner',
    label: () => phrase('Add a corner in the middle'),
    keys: [],
    about: 'chosen',
    enabled: () => targetNow()?.chosen?.kind === 'edge',
    run: () => {
      const target = targetNow();
      if (target?.chosen?.kind !== 'edge') return;
      const { edge } = target.chosen;
      edit(phrase('Add corner'), (project) => addCorner(project, target.block.id, edge));
      board.setState({ chosen: { kind: 'corner', corner: edge + 1 } });
      announce(phrase('Corner added. Move it by dragging, by numbers, or with Alt and the arrow keys.'));
    },
  },
  {
    name: 'follow-picture',
    label: () => phrase('Divide to follow the picture…'),
    keys: [],
    about: 'chosen',
    enabled: () => targetNow()?.patch != null && tracedBlock() !== null,
    run: () => {
      const target = targetNow();
      if (target?.chosen?.kind === 'patch')
        askFor({ kind: 'follow-picture', blockId: target.block.id, at: target.chosen.at });
    },
  },
  turningBlock('turn-left', phrase('Turn the block left'), turnBy(90)),
  turningBlock('turn-right', phrase('Turn the block right'), turnBy(-90)),
  turningBlock('mirror-across', phrase('Mirror the block left and right'), MIRRORS.upright),
  turningBlock('mirror-down', phrase('Mirror the block top and bottom'), MIRRORS.level),
  {
    ...onBoard('show-picture', phrase('Show or hide the picture'), ['U'], toggleShown),
    enabled: () => tracedBlock() !== null,
  },
  {
    ...onBoard('lock-picture', phrase('Lock or unlock the picture'), [], toggleLocked),
    enabled: () => tracedBlock() !== null,
  },
  {
    ...onBoard('square-picture', phrase('Square the picture up again…'), [], squareAgain),
    enabled: canChangePicture,
  },
  {
    ...onBoard('remove-picture', phrase('Take the picture away'), [], takePictureAway),
    enabled: canChangePicture,
  },
  ...FORMS.map(
    ({ name, label, fits }): BoardCommand => ({
      name: `form-${name}`,
      label: () => label,
      keys: [],
      about: name === 'rings' || name === 'rays' || name === 'size' ? 'block' : 'chosen',
      enabled: () => {
        const target = targetNow();
        return target !== null && fits(target);
      },
      run: () => openForm(name),
    }),
  ),
];

export function boardCommand(name: string): BoardCommand {
  const found = BOARD_COMMANDS.find((one) => one.name === name);
  if (found === undefined) throw new Error(`The board has no command named ${name}.`);
  return found;
}
