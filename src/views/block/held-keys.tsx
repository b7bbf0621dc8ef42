import { useStore } from 'zustand';
import { announce, board } from '../../board/board-state.ts';
import { phrase } from '../../words/phrase.ts';

/** What a held key does for a mouse, as switches: for a finger, a pen, or one hand. */
const SWITCHES = [
  { name: 'steps', sign: '15°', word: '15° steps', label: phrase('15° steps for every line'), key: 'Shift' },
  {
    name: 'adds',
    sign: phrase('Add'),
    word: phrase('Add'),
    label: phrase('Add to what is chosen'),
    key: 'Shift',
  },
  {
    name: 'free',
    sign: phrase('Free'),
    word: phrase('Free'),
    label: phrase('Free: no snapping'),
    key: 'Alt',
  },
] as const;

/** Shift and Alt to be pressed once instead of held. */
export function HeldKeys({ at }: { readonly at: 'aids' | 'strip' | 'line' }) {
  const steps = useStore(board, (state) => state.steps);
  const adds = useStore(board, (state) => state.adds);
  const free = useStore(board, (state) => state.free);
  const isOn = { steps, adds, free };
  return (
    <fieldset className={`held-keys held-keys-${at}`}>
      <legend className={at === 'aids' ? undefined : 'only-heard'}>{phrase('Without holding a key')}</legend>
      {SWITCHES.map(({ name, sign, word, label, key }) => (
        <button
          key={name}
          type="button"
          className={at === 'strip' ? 'tool' : 'aids-button'}
          aria-pressed={isOn[name]}
          data-on={isOn[name]}
          aria-label={label}
          title={phrase('{label} (instead of holding {key})', { label, key })}
          onClick={() => {
            board.setState({ [name]: !isOn[name] });
            announce(phrase('{label}: {isOn, select, true {off} other {on}}.', { label, isOn: isOn[name] }));
          }}
        >
          {at === 'aids' ? word : sign}
        </button>
      ))}
    </fieldset>
  );
}
