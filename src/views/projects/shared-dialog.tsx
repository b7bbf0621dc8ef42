import './projects.css';
import { useEffect, useState } from 'react';
import type { OpenedFile } from '../../document/file.ts';
import { isLink, openLink } from '../../document/link.ts';
import { phrase } from '../../words/phrase.ts';
import { takeOpened } from '../../workspace/actions.ts';
import { Dialog } from '../dialog.tsx';
import { ProjectPicture } from './project-picture.tsx';

/** What a link brings: looked at first, then added as a project of its own, or not. */
export default function SharedDialog({ onClose }: { readonly onClose: () => void }) {
  const [opened] = useState<OpenedFile>(() => openLink(location.hash));
  useEffect(() => {
    // Taken from the address: loading the page anew, or a bookmark, does not ask again.
    if (isLink(location.hash)) history.replaceState(history.state, '', location.pathname + location.search);
  }, []);
  if (!opened.ok)
    return (
      <Dialog title={phrase('A link to a project')} onClose={onClose}>
        <p>{opened.error.message}</p>
        <p className="soft">{phrase('Nothing has changed in your own projects.')}</p>
        <div className="buttons">
          <button type="button" className="button button-main" data-first-focus onClick={onClose}>
            {phrase('Close')}
          </button>
        </div>
      </Dialog>
    );
  const { project } = opened;
  return (
    <Dialog title={phrase('A project was shared with you')} className="shared-dialog" onClose={onClose}>
      <div className="shared-look">
        <ProjectPicture project={project} size={200} />
        <p>
          <b>{project.name}</b>
          <br />
          {phrase(
            '{blocks, plural, one {# block} other {# blocks}}, {fabrics, plural, one {# fabric} other {# fabrics}}',
            { blocks: project.blocks.length, fabrics: project.fabrics.length },
          )}
        </p>
      </div>
      <p className="soft">
        {phrase('It is added as a copy of your own, beside your other projects. None of them is changed.')}
      </p>
      <div className="buttons">
        <button
          type="button"
          className="button button-main"
          data-first-focus
          onClick={() => {
            onClose();
            takeOpened(project.name, opened);
          }}
        >
          {phrase('Add to my projects')}
        </button>
        <button type="button" className="button" onClick={onClose}>
          {phrase('Cancel')}
        </button>
      </div>
    </Dialog>
  );
}
