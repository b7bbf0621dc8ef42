import { useState } from 'react';
import { useStore } from 'zustand';
import { duplicateBlock, renameBlock } from '../../document/edit-block.ts';
import { scaleBlock } from '../../document/edit-outline.ts';
import { nextBlockId } from '../../document/ids.ts';
import { sizeAsLaid } from '../../document/place-polygon.ts';
import type { Block } from '../../document/project.ts';
import { clothLength, sizeWords } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { edit, say } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { Dialog } from '../dialog.tsx';
import { LengthField, readSize } from '../length-field.tsx';
import { quiltView } from './quilt-state.ts';

/** Makes a copy of a block drawn at another size: paper is never scaled, only the drawing is. */
export function CopyAtSize({ block, onClose }: { readonly block: Block; readonly onClose: () => void }) {
  const unit = useStore(session, (state) => state.project.unit);
  const [w, h] = sizeAsLaid(block.outline, 0);
  const [text, setText] = useState(clothLength(w / 2, unit));
  const read = readSize(text, unit);
  const height = read.ok ? (h * read.inches) / w : 0;
  const make = (): void => {
    if (!read.ok) return;
    const factor = read.inches / w;
    const before = session.getState().project;
    const id = nextBlockId(before);
    edit(phrase('Copy at another size'), (project) =>
      renameBlock(
        scaleBlock(duplicateBlock(project, block.id), id, factor),
        id,
        `${block.name} ${sizeWords([read.inches, height], unit)}`,
      ),
    );
    quiltView.setState({ inHand: { block: id, turn: 0, mirrored: false } });
    say(
      'done',
      phrase('A copy of ‘{block}’ at {sizeWords} is in hand.', {
        block: block.name,
        sizeWords: sizeWords([read.inches, height], unit),
      }),
    );
    onClose();
  };
  return (
    <Dialog title={phrase('Copy at another size')} onClose={onClose}>
      <form
        className="quilt-form"
        onSubmit={(event) => {
          event.preventDefault();
          make();
        }}
      >
        <p>
          {phrase(
            '‘{block}’ is {sizeWords}. The copy is a block of its own, drawn larger or smaller; its seam allowance stays what it is.',
            { block: block.name, sizeWords: sizeWords([w, h], unit) },
          )}
        </p>
        <LengthField label={phrase('Width of the copy')} text={text} unit={unit} onChange={setText} />
        <p className="soft">
          {read.ok
            ? phrase('It will be {sizeWords}.', { sizeWords: sizeWords([read.inches, height], unit) })
            : ''}
        </p>
        <div className="buttons">
          <button type="submit" className="button button-main" aria-disabled={!read.ok}>
            {phrase('Make the copy')}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {phrase('Cancel')}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
