import { type KeyboardEvent, useCallback, useEffect, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { duplicateBlock, moveBlock, renameBlock } from '../../document/edit-block.ts';
import { nextBlockId } from '../../document/ids.ts';
import type { Block, Project } from '../../document/project.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import { edit, openBlock } from '../../workspace/actions.ts';
import { takeKey } from '../../workspace/command.ts';
import { runCommand } from '../../workspace/commands.ts';
import { deleteBlock } from '../../workspace/delete-block.ts';
import { type Session, session } from '../../workspace/session.ts';
import { ActButton } from '../act-button.tsx';
import { Icon } from '../icons.tsx';
import { LongList } from '../long-list.tsx';
import { NameField } from '../name-field.tsx';
import { scrollWithin } from '../scroll-within.ts';
import { useRestingPlan } from '../use-plan.ts';
import { BLOCK_LIST_KEYS } from './block-list-keys.ts';
import { BlockPicture } from './block-picture.tsx';
import { NewBlockDialog } from './new-block.ts';

/** The project as the list shows it: a line under the hand is not followed, a colour that is being chosen is. */
const listedProject = ({ project, draft }: Session): Project =>
  draft !== null && draft.fabrics !== project.fabrics ? draft : project;

/** The blocks of the project, with their pictures; the open one can be renamed, copied, moved and deleted. */
export function BlockList() {
  const { blocks, fabrics } = useStore(session, listedProject);
  const openId = useStore(session, (state) => state.blockId);
  // The open block is in sight, also where it has just been added below many.
  useEffect(() => {
    if (openId !== null && list.current !== null)
      scrollWithin(list.current, list.current.querySelector<HTMLElement>('.block-item-open'));
  }, [openId]);
  const [isAdding, setAdding] = useState(false);
  const [renaming, setRenaming] = useState<string | null>(null);
  const list = useRef<HTMLUListElement | null>(null);
  const keepList = useCallback((element: HTMLUListElement | null): void => {
    list.current = element;
  }, []);

  const focusOn = (index: number): void => {
    const buttons = list.current?.querySelectorAll<HTMLButtonElement>('.block-open');
    buttons?.[Math.max(0, Math.min(index, buttons.length - 1))]?.focus();
  };

  const onKey = (event: KeyboardEvent, block: Block, index: number): void => {
    const isTaken = takeKey(BLOCK_LIST_KEYS, event, {
      move: (by) => {
        move(block, index + by);
        requestAnimationFrame(() => focusOn(index + by));
      },
      rename: () => setRenaming(block.id),
      remove: () => remove(block),
    });
    if (!isTaken) return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <section className="blocks" aria-labelledby="blocks-title">
      <div className="shelf-head">
        <h2 id="blocks-title">{phrase('Blocks')}</h2>
        <div className="shelf-acts">
          <button
            type="button"
            className="icon-button"
            aria-label={phrase('From the shelf')}
            title={phrase('From the shelf: traditional blocks to begin with')}
            onClick={() => runCommand('from-the-shelf')}
          >
            <Icon name="shelf" />
          </button>
          <button
            type="button"
            className="icon-button"
            aria-label={phrase('Import a drawing')}
            title={phrase('Import a drawing: an SVG file of straight lines')}
            onClick={() => runCommand('bring-in-drawing')}
          >
            <Icon name="bring-in" />
          </button>
          <button
            type="button"
            className="icon-button"
            aria-label={phrase('Make a block from a picture')}
            title={phrase('Make a block from a picture: a photo becomes patches that can be sewn')}
            onClick={() => runCommand('block-from-picture')}
          >
            <Icon name="photo" />
          </button>
          <button
            type="button"
            className="icon-button"
            aria-label={phrase('Add a block')}
            title={phrase('Add a block')}
            onClick={() => setAdding(true)}
          >
            <Icon name="plus" />
          </button>
        </div>
      </div>
      <LongList
        items={blocks}
        className="block-list"
        kept={blocks.findIndex(({ id }) => id === openId)}
        onList={keepList}
      >
        {(block, index, place) => {
          const isOpen = block.id === openId;
          return (
            <li key={block.id} {...place} className={isOpen ? 'block-item block-item-open' : 'block-item'}>
              {renaming === block.id ? (
                <div className="block-open">
                  <BlockPicture block={block} fabrics={fabrics} size={52} />
                  <NameField
                    label={phrase('Block name')}
                    name={block.name}
                    takesFocus
                    onRename={(name) =>
                      edit(phrase('Rename block'), (project) => renameBlock(project, block.id, name))
                    }
                    onLeave={() => {
                      setRenaming(null);
                      requestAnimationFrame(() => focusOn(index));
                    }}
                  />
                </div>
              ) : (
                <button
                  type="button"
                  className="block-open"
                  aria-current={isOpen ? 'true' : undefined}
                  aria-keyshortcuts="F2 Alt+ArrowUp Alt+ArrowDown Delete"
                  onClick={() => openBlock(block.id)}
                  onDoubleClick={() => setRenaming(block.id)}
                  onKeyDown={(event) => onKey(event, block, index)}
                >
                  <BlockPicture block={block} fabrics={fabrics} size={52} />
                  <span className="block-words">
                    <span className="block-name">{block.name}</span>
                    <InNumbers block={block} />
                  </span>
                </button>
              )}
              {isOpen && renaming !== block.id && (
                <div className="block-acts">
                  <ActButton
                    size={18}
                    icon="rename"
                    label={phrase('Rename {block}', { block: block.name })}
                    act={() => setRenaming(block.id)}
                  />
                  <ActButton
                    size={18}
                    icon="duplicate"
                    label={phrase('Duplicate {block}', { block: block.name })}
                    act={() => duplicate(block)}
                  />
                  <ActButton
                    size={18}
                    icon="up"
                    label={phrase('Move {block} up', { block: block.name })}
                    isOff={index === 0}
                    act={() => move(block, index - 1)}
                  />
                  <ActButton
                    size={18}
                    icon="down"
                    label={phrase('Move {block} down', { block: block.name })}
                    isOff={index === blocks.length - 1}
                    act={() => move(block, index + 1)}
                  />
                  <ActButton
                    size={18}
                    icon="delete"
                    label={phrase('Delete {block}', { block: block.name })}
                    act={() => remove(block)}
                  />
                </div>
              )}
            </li>
          );
        }}
      </LongList>
      {isAdding && <NewBlockDialog onClose={() => setAdding(false)} />}
    </section>
  );
}

const duplicate = (block: Block): void => {
  const openAfter = nextBlockId(session.getState().project);
  edit(phrase('Duplicate block'), (project) => duplicateBlock(project, block.id), {
    openBlock: openAfter,
    select: [],
  });
};

const move = (block: Block, index: number): void =>
  edit(phrase('Move block'), (project) => moveBlock(project, block.id, index));

const remove = (block: Block): void => deleteBlock(block.id);

function InNumbers({ block }: { readonly block: Block }) {
  const plan = useRestingPlan(block);
  const [first, second] = plan === null ? [phrase('being worked out')] : inNumbers(plan);
  return (
    <span className="soft">
      {first} {second !== undefined && <span className="block-papers">{second}</span>}
    </span>
  );
}

/** `13 patches,` `3 foundations`, or what stands in the way: a short line breaks between the two. */
function inNumbers({ verdict, patches, sections }: PiecingPlan): readonly [string, string?] {
  const count = phrase('{patches, plural, one {# patch} other {# patches}},', { patches: patches.length });
  switch (verdict) {
    case 'broken':
      return [phrase('no usable outline')];
    case 'undivided':
      return [phrase('not divided yet')];
    case 'set-in-seams':
      return [count, phrase('set-in seams')];
    default:
      return [
        count,
        phrase('{sections, plural, one {# foundation} other {# foundations}}', { sections: sections.length }),
      ];
  }
}
