import { quiltOf } from '../../document/edit-quilt.ts';
import { phrase } from '../../words/phrase.ts';
import type { Command, PartKey } from '../../workspace/command.ts';
import type { Session } from '../../workspace/session.ts';
import { session } from '../../workspace/session.ts';
import {
  choose,
  chosenPlaces,
  emptyPlaces,
  fillEmpty,
  mirrorChosen,
  removeChosen,
  repeatChosen,
  swapChosen,
  turnChosen,
} from './quilt-acts.ts';
import { quiltView } from './quilt-state.ts';

const hasChosen = ({ project }: Session): boolean => chosenPlaces(project, quiltView.getState()).length > 0;

const act = (
  name: string,
  label: string,
  keys: readonly string[],
  enabled: Command['enabled'],
  run: () => void,
): Command => ({ name, label: () => label, keys, enabled, run });

/** What can be done in the Quilt place, wherever the keyboard is. */
export const QUILT_COMMANDS: readonly Command[] = [
  act('turn-place', phrase('Turn to the right'), ['R'], hasChosen, () => turnChosen(1)),
  act('turn-place-back', phrase('Turn to the left'), ['Shift+r'], hasChosen, () => turnChosen(-1)),
  act('mirror-place', phrase('Mirror'), ['M'], hasChosen, mirrorChosen),
  act(
    'swap-places',
    phrase('Swap the two chosen places'),
    ['X'],
    ({ project }) => chosenPlaces(project, quiltView.getState()).length === 2,
    swapChosen,
  ),
  act('repeat-places', phrase('Repeat the chosen over the quilt'), ['P'], hasChosen, repeatChosen),
  act(
    'fill-empty',
    phrase('Fill every empty place'),
    ['F'],
    ({ project }) => quiltView.getState().inHand !== null && emptyPlaces(project).length > 0,
    () => fillEmpty(quiltView.getState().inHand),
  ),
  act('empty-places', phrase('Empty the chosen places'), ['Delete', 'Backspace'], hasChosen, removeChosen),
  act(
    'choose-all-places',
    phrase('Choose every place'),
    ['Mod+a'],
    ({ project }) => quiltOf(project).places.length > 0,
    () =>
      choose(
        quiltOf(session.getState().project)
          .places.filter(({ part }) => part === undefined)
          .map(({ id }) => id),
      ),
  ),
  act(
    'fabric-or-value',
    phrase('Show fabrics or values'),
    ['V'],
    () => true,
    () => quiltView.setState(({ shows }) => ({ shows: shows === 'fabric' ? 'value' : 'fabric' })),
  ),
  act(
    'number-places',
    phrase('Show or hide numbers'),
    ['N'],
    () => true,
    () => quiltView.setState(({ showsNumbers }) => ({ showsNumbers: !showsNumbers })),
  ),
];

/** Keys of the board, for the help; `quilt-board.tsx` carries them out. */
export const QUILT_KEYS: readonly Pick<PartKey, 'shown' | 'does'>[] = [
  { shown: 'Arrows', does: phrase('choose the place beside') },
  { shown: 'Shift+Arrows', does: phrase('choose it as well') },
  { shown: 'Ctrl+Arrows', does: phrase('move by one module') },
  { shown: 'Enter', does: phrase('lay what is in hand') },
  { shown: '1 – 9', does: phrase('lay a block of the tray by its number') },
  { shown: '+ −', does: 'zoom' },
  { shown: '0', does: phrase('show the whole quilt') },
  { shown: 'Esc', does: phrase('choose nothing') },
];
