import { useEffect } from 'react';
import { useStore } from 'zustand';
import { board, onEmptySheet } from '../../board/board-state.ts';
import { DrawingBoard } from '../../board/drawing-board.tsx';
import { takeUp } from '../../board/tool-in-hand.ts';
import { phrase } from '../../words/phrase.ts';
import { session, shownBlock } from '../../workspace/session.ts';
import { Rehearsal } from '../rehearsal/rehearsal.tsx';
import { RehearsalStage } from '../rehearsal/rehearsal-stage.tsx';
import { rehearsal } from '../rehearsal/rehearsal-state.ts';
import { AskedDialog } from '../shelf/asked-dialog.tsx';
import { useNarrow } from '../use-media.ts';
import { BlockList } from './block-list.tsx';
import { BoardLine } from './board-line.tsx';
import { ChosenCard } from './chosen-card.tsx';
import { DrawingList } from './drawing-list.tsx';
import { EmptySheetNote } from './empty-sheet-note.tsx';
import { FabricShelf } from './fabric-shelf.tsx';
import { FabricStrip } from './fabric-strip.tsx';
import { PointerMenu } from './pointer-menu.tsx';
import { ProposalLine } from './proposal-line.tsx';
import { SeamCheck } from './seam-check.tsx';
import { ToolStrip } from './tool-strip.tsx';

/** The Block place: what there is at the left, the drawing in the middle, what the check says at the right. */
export default function BlockPlace() {
  // Its name alone: the block is another with every move of a gesture, and this is the whole screen.
  const blockName = useStore(session, (state) => shownBlock(state)?.name ?? null);
  const isEmptySheet = useStore(board, onEmptySheet);
  const isStaged = useStore(rehearsal, (state) => state.step !== null);
  useEffect(followNewBlocks, []);
  const hasSheet = blockName !== null || isEmptySheet;
  return (
    <main className="block-place">
      <div className="shelf">
        <BlockList />
        <FabricShelf />
      </div>
      <div className="desk-column" data-drawing="">
        <section className="desk" aria-label={phrase('Drawing')}>
          <div className="under-stage" inert={isStaged}>
            <DrawingBoard
              name={
                isEmptySheet || blockName === null
                  ? phrase('Empty sheet')
                  : phrase('Drawing of {blockName}', { blockName })
              }
              describedBy="board-help"
            />
            <p id="board-help" className="only-heard">
              {phrase(
                'Arrow keys move a crosshair by the grid, N and P jump between corners and crossings, Enter works with the tool in hand, Esc takes back. With Line or Outline, T types a place. The lists after the drawing hold every line, patch, joint, corner and edge.',
              )}
            </p>
            {hasSheet ? <ToolStrip /> : <EmptySheetNote />}
            {hasSheet && <BoardLine />}
            {hasSheet && <FabricStrip />}
            <CardAtDrawing />
            <PointerMenu />
            <ProposalLine />
          </div>
          <Spoken />
          <RehearsalStage />
        </section>
        <Rehearsal />
      </div>
      <CheckPanel />
      <AskedDialog />
    </main>
  );
}

/** A new block has the keyboard on its drawing, however it came. Returns a stop function. */
const followNewBlocks = (): (() => void) =>
  session.subscribe(({ blockId, opening }, before) => {
    if (blockId === null || blockId === before.blockId || opening !== before.opening) return;
    if (before.project.blocks.some(({ id }) => id === blockId)) return;
    requestAnimationFrame(() => document.querySelector<HTMLElement>('.drawing-board')?.focus());
  });

/** In a narrow window what is chosen is told at the drawing: the panel lies below it, out of sight. */
function CardAtDrawing() {
  const isNarrow = useNarrow();
  const block = useStore(session, shownBlock);
  const isEmptySheet = useStore(board, onEmptySheet);
  return isNarrow && block !== null && !isEmptySheet ? <ChosenCard block={block} /> : null;
}

/** The panel at the right: what the check says, the drawing in words, what is chosen. */
function CheckPanel() {
  const isNarrow = useNarrow();
  const block = useStore(session, shownBlock);
  const isEmptySheet = useStore(board, onEmptySheet);
  return (
    <div className="check-panel">
      <div className="check-scroll">
        {block === null || isEmptySheet ? (
          <section aria-labelledby="no-check-title">
            <h2 id="no-check-title" className="panel-title">
              {phrase('Seam check')}
            </h2>
            <p className="soft no-check">
              {isEmptySheet
                ? phrase('Close the outline on its first corner, and the check begins.')
                : phrase('As soon as a block is on the board, this says whether and how it can be sewn.')}
            </p>
            {isEmptySheet && (
              <button type="button" className="button no-check" onClick={() => takeUp('select')}>
                {phrase('Stop drawing')}
              </button>
            )}
          </section>
        ) : (
          <>
            <SeamCheck block={block} />
            <DrawingList block={block} />
          </>
        )}
      </div>
      {!isNarrow && block !== null && !isEmptySheet && <ChosenCard block={block} />}
    </div>
  );
}

/** What the board tells in words. */
function Spoken() {
  const announced = useStore(board, (state) => state.announced);
  return (
    <p className="only-heard" role="status">
      {announced}
    </p>
  );
}
