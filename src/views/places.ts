import type { ComponentType } from 'react';
import { BOARD_COMMANDS } from '../board/board-commands.ts';
import { BOARD_KEYS } from '../board/board-keys.ts';
import { phrase } from '../words/phrase.ts';
import { goTo } from '../workspace/actions.ts';
import type { Command, PartKeys } from '../workspace/command.ts';
import { BLOCK_LIST_KEYS } from './block/block-list-keys.ts';
import type { IconName } from './icons.tsx';
import { QUILT_COMMANDS, QUILT_KEYS } from './quilt/quilt-commands.ts';
import { REHEARSAL_KEYS } from './rehearsal/rehearsal-keys.ts';

/** A place of the window: one step of the work, with a screen of its own. */
export interface Place {
  /** What the session and the work kept in the browser know it by. */
  readonly name: string;
  readonly label: string;
  /** The key that goes there, as commands write theirs. */
  readonly key: string;
  readonly icon: IconName;
  /** What can be done there and nowhere else. */
  readonly commands: readonly Command[];
  /** Keys of parts of its screen, for the help. */
  readonly partKeys: readonly PartKeys[];
  /** Its screen, fetched when it is first opened: what is loaded exports it by default. */
  readonly load: () => Promise<{ readonly default: ComponentType }>;
  /** Gets ready what it will show: once the work is open, and whenever someone is about to go there. */
  readonly prepare?: () => void;
}

/**
 * Every place, in the order of the work. The bar at the top, the keys, the palette and the help read this list; a new
 * place is an entry here and a folder beside this file.
 */
export const PLACES: readonly Place[] = [
  {
    name: 'block',
    label: phrase('Block'),
    key: 'Alt+1',
    icon: 'block',
    commands: BOARD_COMMANDS,
    partKeys: [
      { title: phrase('On the drawing board'), keys: BOARD_KEYS },
      { title: phrase('In the list of blocks'), keys: BLOCK_LIST_KEYS },
      { title: phrase('In the sewing rehearsal'), keys: REHEARSAL_KEYS },
    ],
    load: () => import('./block/block-place.tsx'),
  },
  {
    name: 'quilt',
    label: phrase('Quilt'),
    key: 'Alt+2',
    icon: 'quilt',
    commands: QUILT_COMMANDS,
    partKeys: [{ title: phrase('On the quilt'), keys: QUILT_KEYS }],
    load: () => import('./quilt/quilt-place.tsx'),
  },
  {
    name: 'fabric',
    label: phrase('Fabric'),
    key: 'Alt+3',
    icon: 'cloth',
    commands: [],
    partKeys: [],
    load: () => import('./fabric/fabric-place.tsx'),
  },
  {
    name: 'paper',
    label: phrase('Paper'),
    key: 'Alt+4',
    icon: 'sheets',
    commands: [],
    partKeys: [],
    load: () => import('./paper/paper-place.tsx'),
    prepare: () =>
      void import('./paper/warm-paper.ts').then(
        ({ warmPaper }) => warmPaper(),
        () => undefined,
      ),
  },
  {
    name: 'sew',
    label: phrase('Sew'),
    key: 'Alt+5',
    icon: 'sew',
    commands: [],
    partKeys: [],
    load: () => import('./sew/sew-place.tsx'),
  },
];

/** The place of a name; the first for a name that none has, such as one kept by another version. */
export const placeNamed = (name: string): Place => PLACES.find((place) => place.name === name) ?? PLACES[0]!;

/** A command for each place that goes there. */
export const GO_TO_PLACES: readonly Command[] = PLACES.map((place) => ({
  name: `go-to-${place.name}`,
  label: () => phrase('Go to {label}', { label: place.label }),
  keys: [place.key],
  whileTyping: true,
  enabled: (state) => placeNamed(state.place) !== place,
  run: () => goTo(place.name),
}));
