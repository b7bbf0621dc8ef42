import { phrase } from '../../words/phrase.ts';
import { type KeyPress, type PartKey, when } from '../../workspace/command.ts';

/** What the list of blocks can do with the block the keyboard is on. */
export interface OnBlock {
  /** The block goes so many places down. */
  readonly move: (by: number) => void;
  readonly rename: () => void;
  readonly remove: () => void;
}

const downBy = ({ key }: KeyPress): number => (key === 'ArrowDown' ? 1 : key === 'ArrowUp' ? -1 : 0);

const isNamed =
  (name: string) =>
  ({ key }: KeyPress): boolean =>
    key === name;

export const BLOCK_LIST_KEYS: readonly PartKey<OnBlock>[] = [
  { shown: '↑ ↓', does: phrase('The block above or below') },
  {
    shown: 'Alt + ↑ ↓',
    does: phrase('Move up or down'),
    run: when(
      (press) => downBy(press) !== 0 && press.altKey,
      (press, { move }) => move(downBy(press)),
    ),
  },
  { shown: 'F2', does: phrase('Rename'), run: when(isNamed('F2'), (_, { rename }) => rename()) },
  {
    shown: 'Delete',
    does: phrase('Delete the block'),
    run: when(isNamed('Delete'), (_, { remove }) => remove()),
  },
];
