import { useId, useRef } from 'react';
import { useStore } from 'zustand';
import { setUnit } from '../document/edit-project.ts';
import type { Unit } from '../document/project.ts';
import { currentLanguage, type Language } from '../words/language.ts';
import { phrase } from '../words/phrase.ts';
import { edit, openProjectText, say, setTheme } from '../workspace/actions.ts';
import { keyText } from '../workspace/command.ts';
import { type CommandName, command, runCommand } from '../workspace/commands.ts';
import { chooseLanguage } from '../workspace/language.ts';
import { letterKeys } from '../workspace/letter-keys.ts';
import { session, type Theme } from '../workspace/session.ts';
import { Choice } from './choice.tsx';
import { Icon } from './icons.tsx';
import { isMac } from './platform.ts';
import { openWindowDialog, type WindowDialog } from './window-dialog.ts';

const UNITS: readonly (readonly [Unit, string])[] = [
  ['in', phrase('Inches')],
  ['mm', phrase('Millimetres')],
];

const THEMES: readonly (readonly [Theme, string])[] = [
  ['light', phrase('Light')],
  ['dark', phrase('Dark')],
  ['system', phrase('As the system')],
];

const LETTER_KEYS: readonly (readonly ['on' | 'off', string])[] = [
  ['on', phrase('[[keys]] On')],
  ['off', phrase('[[keys]] Off')],
];

/** Each by its own name, so that whoever reads only that finds it. */
const NAMES: readonly (readonly [Language, string])[] = [
  ['en', 'English'],
  ['de', 'Deutsch'],
];

/** Everything about the project as a whole, and how the app looks. */
export function ProjectMenu() {
  const id = useId();
  const menu = useRef<HTMLDivElement>(null);
  const unit = useStore(session, (state) => state.project.unit);
  const theme = useStore(session, (state) => state.theme);
  const hasLetterKeys = useStore(letterKeys, ({ isOn }) => isOn);
  const hasKeptAside = useStore(session, command('save-kept-aside').enabled);
  const hasBlock = useStore(session, command('take-elsewhere').enabled);
  const close = (): void => menu.current?.hidePopover();
  return (
    <>
      <button
        type="button"
        className="icon-button"
        aria-label={phrase('Menu')}
        title={phrase('Menu')}
        popoverTarget={id}
      >
        <Icon name="menu" />
      </button>
      <div ref={menu} id={id} popover="auto" className="menu">
        <WindowItem text={phrase('Projects…')} open="projects" onRun={close} />
        <WindowItem text={phrase('Earlier states…')} open="earlier" onRun={close} />
        <MenuCommand name="new-project" onRun={close} />
        <MenuCommand name="open" onRun={close} />
        <MenuCommand name="save" onRun={close} />
        <WindowItem text={phrase('Share…')} open="share" onRun={close} />
        <MenuCommand name="bring-in-drawing" onRun={close} />
        {hasBlock && <MenuCommand name="take-elsewhere" onRun={close} />}
        {hasKeptAside && <MenuCommand name="save-kept-aside" onRun={close} />}
        <button
          type="button"
          className="menu-item"
          onClick={() => {
            close();
            void openDemo();
          }}
        >
          {phrase('Open the demo quilt')}
        </button>
        <hr />
        <Choice
          label={phrase('Lengths in')}
          options={UNITS}
          value={unit}
          onChoose={(chosen) => edit(phrase('Change unit'), (project) => setUnit(project, chosen))}
        />
        <Choice label={phrase('Appearance')} options={THEMES} value={theme} onChoose={setTheme} />
        <Choice
          label={phrase('Letter keys')}
          options={LETTER_KEYS}
          value={hasLetterKeys ? 'on' : 'off'}
          onChoose={(chosen) => letterKeys.setState({ isOn: chosen === 'on' })}
        />
        <Choice
          label={phrase('Language')}
          options={NAMES}
          value={currentLanguage()}
          onChoose={chooseLanguage}
        />
      </div>
    </>
  );
}

function MenuCommand({ name, onRun }: { readonly name: CommandName; readonly onRun: () => void }) {
  const { label, keys } = command(name);
  const text = useStore(session, label);
  return (
    <button
      type="button"
      className="menu-item"
      onClick={() => {
        onRun();
        runCommand(name);
      }}
    >
      {text}
      {keys[0] !== undefined && <kbd>{keyText(keys[0], isMac())}</kbd>}
    </button>
  );
}

function WindowItem({
  text,
  open,
  onRun,
}: {
  readonly text: string;
  readonly open: WindowDialog;
  readonly onRun: () => void;
}) {
  return (
    <button
      type="button"
      className="menu-item"
      onClick={() => {
        onRun();
        openWindowDialog(open);
      }}
    >
      {text}
    </button>
  );
}

/** The demo opens as a project of its own; undo goes back to the one before. */
async function openDemo(): Promise<void> {
  const name = 'harbour-sampler.underpaper.json';
  try {
    const response = await fetch(`./demo/${name}`);
    if (!response.ok) throw new Error(response.statusText);
    openProjectText(name, await response.text());
  } catch {
    say('trouble', phrase('The demo quilt could not be fetched. Nothing has changed.'));
  }
}
