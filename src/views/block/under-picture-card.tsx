import { useId } from 'react';
import { useStore } from 'zustand';
import { boardCommand } from '../../board/board-commands.ts';
import { fadePicture } from '../../document/edit-picture.ts';
import type { Block } from '../../document/project.ts';
import { edit, endMerge } from '../../workspace/actions.ts';
import { session, shownBlock } from '../../workspace/session.ts';
import './under-picture.css';
import { phrase } from '../../words/phrase.ts';

const CARD_ID = 'under-picture-card';

/** Shows the card of the picture, once it is there. */
export function openPictureCard(): void {
  requestAnimationFrame(() => {
    const card = document.getElementById(CARD_ID);
    if (card !== null && !card.matches(':popover-open')) card.showPopover();
  });
}

/** What can be done with the picture under the drawing, in a card of its own; nothing where there is none. */
export function UnderPictureCard() {
  const block = useStore(session, shownBlock);
  if (block?.picture === undefined) return null;
  const { shown, locked } = block.picture;
  return (
    <>
      <button
        type="button"
        className="aids-button"
        popoverTarget={CARD_ID}
        data-on={shown}
        title={phrase('The picture under the drawing')}
      >
        {phrase('Picture')}
        {!shown && <span>{phrase(': hidden')}</span>}
      </button>
      <section
        id={CARD_ID}
        popover="auto"
        className="menu aids picture-card"
        aria-label={phrase('Picture under the drawing')}
      >
        <h3>{phrase('Picture under the drawing')}</h3>
        <Fade block={block} strength={block.picture.strength} />
        <ToggleLine name="show-picture" label={phrase('Shown')} isOn={shown} />
        <ToggleLine name="lock-picture" label={phrase('Locked')} isOn={locked} />
        <div className="buttons">
          <ActButton name="square-picture" label={phrase('Square up again…')} />
          <ActButton name="remove-picture" label={phrase('Take it away')} />
        </div>
        {locked && <p className="soft">{phrase('Locked: it stays as it is until it is unlocked.')}</p>}
      </section>
    </>
  );
}

function Fade({ block, strength }: { readonly block: Block; readonly strength: number }) {
  const id = useId();
  return (
    <div className="number-field">
      <label htmlFor={id}>{phrase('Opacity')}</label>
      <div className="fade-line">
        <input
          id={id}
          type="range"
          min={5}
          max={100}
          step={5}
          value={Math.round(strength * 100)}
          aria-valuetext={phrase('{round}%', { round: Math.round(strength * 100) })}
          onChange={(event) =>
            edit(
              phrase('Change opacity'),
              (project) => fadePicture(project, block.id, Number(event.target.value) / 100),
              { merge: `fade ${block.id}` },
            )
          }
          onPointerUp={endMerge}
          onBlur={endMerge}
        />
        <output htmlFor={id}>{Math.round(strength * 100)} %</output>
      </div>
    </div>
  );
}

interface ToggleLineProps {
  readonly name: string;
  readonly label: string;
  readonly isOn: boolean;
}

function ToggleLine({ name, label, isOn }: ToggleLineProps) {
  const { keys, run } = boardCommand(name);
  return (
    <label className="check-line">
      <input type="checkbox" checked={isOn} onChange={run} />
      <span>{label}</span>
      {keys[0] !== undefined && <kbd>{keys[0]}</kbd>}
    </label>
  );
}

/** One that opens a dialog or takes the card's subject away closes the card first. */
function ActButton({ name, label }: { readonly name: string; readonly label: string }) {
  const { enabled, run } = boardCommand(name);
  const isEnabled = enabled(session.getState());
  return (
    <button
      type="button"
      className="button"
      aria-disabled={!isEnabled}
      onClick={() => {
        if (!isEnabled) return;
        document.getElementById(CARD_ID)?.hidePopover();
        run();
      }}
    >
      {label}
    </button>
  );
}
