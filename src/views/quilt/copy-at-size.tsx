import { useState } from 'react';
import { useStore } from 'zustand';
import { duplicateBlock, renameBlock } from '../../document/edit-block.ts';
import { scaleBlock } from '../../document/edit-outline.ts';
import { nextBlockId } from '../../document/ids.ts';
import { sizeAsLaid } from '../../document/place-polygon.ts';
import type { Block } from '../../document/project.ts';
import { clothLength, sizeWords } from '../../quilt/words.ts';
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
    edit('Copy at another size', (project) =>
      renameBlock(
        scaleBlock(duplicateBlock(project, block.id), id, factor),
        id,
        `${block.name} ${sizeWords([read.inches, height], unit)}`,
      ),
    );
    quiltView.setState({ inHand: { block: id, turn: 0, mirrored: false } });
    say('done', `A copy of ‘${block.name}’ at ${sizeWords([read.inches, height], unit)} is in hand.`);
    onClose();
  };
  return (
    <Dialog title="Copy at another size" onClose={onClose}>
      <form
        className="quilt-form"
        onSubmit={(event) => {
          event.preventDefault();
          make();
        }}
      >
        <p>
          ‘{block.name}’ is {sizeWords([w, h], unit)}. The copy is a block of its own, drawn larger or
          smaller; its seam allowance stays what it is.
        </p>
        <LengthField label="Width of the copy" text={text} unit={unit} onChange={setText} />
        <p className="soft">{read.ok ? `It will be ${sizeWords([read.inches, height], unit)}.` : ''}</p>
        <div className="buttons">
          <button type="submit" className="button button-main" aria-disabled={!read.ok}>
            Make the copy
          </button>
          <button type="button" className="button" onClick={onClose}>
            Cancel
          </button>
        </div>
      </form>
    </Dialog>
  );
}
