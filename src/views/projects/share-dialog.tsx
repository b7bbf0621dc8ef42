import './projects.css';
import { useMemo, useRef, useState } from 'react';
import {
  EASY_LINK_CHARS,
  hasPictures,
  linkOf,
  MAX_LINK_CHARS,
  withoutPictures,
} from '../../document/link.ts';
import { numeral } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import { fileOf, saveToFile } from '../../workspace/files.ts';
import { session } from '../../workspace/session.ts';
import { Dialog } from '../dialog.tsx';
import { saySize } from './say-when.ts';

/** The open project handed on: as a link that holds all of it, or as a file. */
export default function ShareDialog({ onClose }: { readonly onClose: () => void }) {
  const [{ project }] = useState(session.getState);
  const [isPlain, setPlain] = useState(false);
  const [told, setTold] = useState('');
  const field = useRef<HTMLInputElement>(null);
  const link = useMemo(
    () => linkOf(isPlain ? withoutPictures(project) : project, location.href.replace(/#.*$/s, '')),
    [project, isPlain],
  );
  const file = useMemo(() => fileOf(project), [project]);
  const isTooLong = link.length > MAX_LINK_CHARS;
  const canSend = navigator.canShare?.({ files: [file] }) === true;

  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(link);
      setTold(phrase('Copied.'));
    } catch {
      field.current?.select();
      setTold(
        phrase('This browser does not let the page copy. The link is selected: copy it with the keyboard.'),
      );
    }
  };
  const send = async (): Promise<void> => {
    try {
      await navigator.share({ files: [file], title: project.name });
    } catch (trouble) {
      if (!(trouble instanceof DOMException && trouble.name === 'AbortError'))
        setTold(phrase('The file could not be sent from here. Save it, and send it yourself.'));
    }
  };
  return (
    <Dialog
      title={phrase('Share ‘{name}’', { name: project.name })}
      className="share-dialog"
      onClose={onClose}
    >
      <section className="share-way">
        <h3>{phrase('As a link')}</h3>
        <p className="soft">
          {phrase(
            'The link holds the whole project. Whoever opens it gets a copy; nothing is stored on any server, and later changes are not passed on.',
          )}
        </p>
        {hasPictures(project) && (
          <label className="share-plain">
            <input type="checkbox" checked={isPlain} onChange={(event) => setPlain(event.target.checked)} />
            {phrase('Leave out pictures of fabrics and under drawings')}
          </label>
        )}
        {isTooLong ? (
          <p className="share-size" role="status">
            {phrase(
              'This project is too large for a link: it would have {chars} characters, and {most} is the most. Share it as a file.',
              { chars: numeral(link.length), most: numeral(MAX_LINK_CHARS) },
            )}
          </p>
        ) : (
          <>
            <div className="share-link">
              <input
                ref={field}
                className="text-input"
                aria-label={phrase('Link')}
                readOnly
                value={link}
                spellCheck={false}
                onFocus={(event) => event.target.select()}
              />
              <button
                type="button"
                className="button button-main"
                data-first-focus
                onClick={() => void copy()}
              >
                {phrase('Copy link')}
              </button>
            </div>
            <p className="soft share-size">
              {phrase('{chars} characters.', { chars: numeral(link.length) })}{' '}
              {link.length > EASY_LINK_CHARS &&
                phrase(
                  'Some mail and chat programs break links this long. A broken link is noticed when it is opened.',
                )}
            </p>
          </>
        )}
      </section>
      <section className="share-way">
        <h3>{phrase('As a file')}</h3>
        <p className="soft">
          {phrase('‘{name}’, {size}. It holds everything, and Underpaper opens it anywhere.', {
            name: file.name,
            size: saySize(file.size),
          })}
        </p>
        <div className="buttons">
          <button type="button" className="button" onClick={saveToFile}>
            {phrase('Save to a file')}
          </button>
          {canSend && (
            <button type="button" className="button" onClick={() => void send()}>
              {phrase('Send the file…')}
            </button>
          )}
        </div>
      </section>
      <p role="status" className="share-told">
        {told}
      </p>
    </Dialog>
  );
}
