import { useState } from 'react';
import { phrase } from '../../words/phrase.ts';
import { runCommand } from '../../workspace/commands.ts';
import { Icon } from '../icons.tsx';
import { NewBlockDialog } from './new-block.ts';

/** What to do when there is no block yet. */
export function EmptySheetNote() {
  const [isOpen, setOpen] = useState(false);
  return (
    <div className="empty-note">
      <h2>{phrase('Begin with a block')}</h2>
      <p>{phrase('Choose its shape and size, then draw the lines that divide it into patches.')}</p>
      <div className="buttons">
        <button type="button" className="button button-main" onClick={() => setOpen(true)}>
          <Icon name="plus" size={18} />
          {phrase('Add a block')}
        </button>
        <button type="button" className="button" onClick={() => runCommand('from-the-shelf')}>
          <Icon name="shelf" size={18} />
          {phrase('Take a traditional one')}
        </button>
      </div>
      <p className="soft">
        {phrase('Or drop a project file anywhere on this window. The demo quilt is in the menu.')}
      </p>
      {isOpen && <NewBlockDialog onClose={() => setOpen(false)} />}
    </div>
  );
}
