import { useEffect } from 'react';
import { useStore } from 'zustand';
import { renameProject } from '../document/edit-project.ts';
import { phrase } from '../words/phrase.ts';
import { edit, goTo } from '../workspace/actions.ts';
import { keyText } from '../workspace/command.ts';
import { type CommandName, command, runCommand } from '../workspace/commands.ts';
import { firstScreen } from '../workspace/first-screen.ts';
import { type SaveState, session } from '../workspace/session.ts';
import { Icon, type IconName, MarkIcon } from './icons.tsx';
import { NameField } from './name-field.tsx';
import { loadScreen } from './place-view.tsx';
import { PLACES, type Place, placeNamed } from './places.ts';
import { isMac } from './platform.ts';
import { ProjectMenu } from './project-menu.tsx';
import { openWindowDialog } from './window-dialog.ts';

const SAVE_WORDS: Readonly<Record<SaveState, string>> = {
  saved: phrase('Saved in this browser'),
  saving: phrase('Saving …'),
  'not-saved': phrase('Not saved'),
};

/** What is always in sight: the project's name, whether it is kept, the places, undo, redo, the menu and help. */
export function TopBar() {
  const name = useStore(session, (state) => state.project.name);
  const save = useStore(session, (state) => state.save);
  useEffect(() => {
    document.title = `${name} – Underpaper`;
  }, [name]);
  // The work is on show: what the other places will show of it is got ready.
  useEffect(() => {
    void firstScreen.then(() => {
      for (const { prepare } of PLACES) prepare?.();
    });
  }, []);
  return (
    <header className="top-bar">
      <div className="top-project">
        <h1 className="only-heard">Underpaper</h1>
        <MarkIcon />
        <NameField
          label={phrase('Project name')}
          name={name}
          className="project-name"
          onRename={(text) => edit(phrase('Rename project'), (project) => renameProject(project, text))}
        />
        <span className={`save-state save-${save}`}>
          <Icon name={save === 'not-saved' ? 'caution' : 'good'} size={16} />
          <span>{SAVE_WORDS[save]}</span>
        </span>
      </div>
      <nav className="places" aria-label={phrase('Places')}>
        {PLACES.map((place) => (
          <PlaceButton key={place.name} place={place} />
        ))}
      </nav>
      <div className="top-acts">
        <CommandButton name="undo" icon="undo" />
        <CommandButton name="redo" icon="redo" />
        <ProjectMenu />
        <button
          type="button"
          className="icon-button"
          aria-label={phrase('Help')}
          title={phrase('Help')}
          onClick={() => openWindowDialog('help')}
        >
          <Icon name="help" />
        </button>
      </div>
    </header>
  );
}

function PlaceButton({ place }: { readonly place: Place }) {
  const isHere = useStore(session, (state) => placeNamed(state.place) === place);
  const { name, label, key, icon, prepare } = place;
  // Someone is about to go there.
  const comeNear = (): void => {
    void loadScreen(place);
    prepare?.();
  };
  return (
    <button
      type="button"
      className="place"
      aria-current={isHere ? 'page' : undefined}
      title={`${label} (${keyText(key, isMac())})`}
      onPointerEnter={comeNear}
      onFocus={comeNear}
      onClick={() => {
        if (!isHere) goTo(name);
      }}
    >
      <Icon name={icon} size={18} />
      {label}
    </button>
  );
}

function CommandButton({ name, icon }: { readonly name: CommandName; readonly icon: IconName }) {
  const { label, keys } = command(name);
  const text = useStore(session, label);
  const isEnabled = useStore(session, command(name).enabled);
  const key = keys[0] === undefined ? '' : ` (${keyText(keys[0], isMac())})`;
  return (
    <button
      type="button"
      className="icon-button"
      aria-label={text}
      title={`${text}${key}`}
      aria-disabled={!isEnabled}
      onClick={() => runCommand(name)}
    >
      <Icon name={icon} />
    </button>
  );
}
