import { type PointerEvent, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { toBoard } from '../../board/camera.ts';
import type { Filling } from '../../document/edit-quilt.ts';
import { sizeAsLaid } from '../../document/place-polygon.ts';
import type { Block, Fabric } from '../../document/project.ts';
import { isBlockPlace } from '../../document/quilt.ts';
import type { Point } from '../../geometry/point.ts';
import { sizeWords } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { goTo } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { swatchStyle, usePictures } from '../fabric-fills.tsx';
import { Icon } from '../icons.tsx';
import { LongList, type RowPlace } from '../long-list.tsx';
import { oneStop } from '../one-stop.ts';
import { SmallBlock } from '../small-block.tsx';
import { CopyAtSize } from './copy-at-size.tsx';
import { paintedPieces } from './painted-pieces.ts';
import { dropFromTray } from './quilt-gestures.ts';
import { quiltView } from './quilt-state.ts';

const PICTURE_PX = 52;

/** What the quilt is set from: the blocks and the fabrics, taken in hand or dragged on to the board. */
export function Tray() {
  const blocks = useStore(session, (state) => state.project.blocks);
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const quilt = useStore(session, (state) => state.project.quilt);
  const inHand = useStore(quiltView, (state) => state.inHand);
  const [copying, setCopying] = useState<string | null>(null);
  const counts = useMemo(() => {
    const found = new Map<string, number>();
    for (const place of quilt?.places ?? [])
      if (isBlockPlace(place)) found.set(place.block, (found.get(place.block) ?? 0) + 1);
    return found;
  }, [quilt]);
  usePictures();
  const blockInHand = inHand !== null && 'block' in inHand ? inHand.block : null;
  const copied = blocks.find(({ id }) => id === copying);
  return (
    <aside className="quilt-tray" aria-label={phrase('Tray')}>
      <div className="quilt-head">
        <h2>{phrase('Blocks')}</h2>
        {blockInHand !== null && (
          <button
            type="button"
            className="icon-button"
            aria-label={phrase('Make a copy of this block at another size')}
            title={phrase('Make a copy of this block at another size')}
            onClick={() => setCopying(blockInHand)}
          >
            <Icon name="duplicate" />
          </button>
        )}
      </div>
      {blocks.length === 0 && (
        <div className="quilt-hint">
          <p>{phrase('There is no block yet.')}</p>
          <button type="button" className="button" onClick={() => goTo('block')}>
            {phrase('Draw a block')}
          </button>
        </div>
      )}
      <LongList
        items={blocks}
        className="tray-blocks"
        kept={blocks.findIndex(({ id }) => id === blockInHand)}
      >
        {(block, k, place) => (
          <TrayBlock
            key={block.id}
            place={place}
            block={block}
            fabrics={fabrics}
            number={k + 1}
            count={counts.get(block.id) ?? 0}
            isInHand={blockInHand === block.id}
          />
        )}
      </LongList>
      <div className="quilt-head">
        <h2>{phrase('Plain cloth')}</h2>
      </div>
      <ul ref={oneStop} className="tray-cloth">
        {fabrics.map((fabric) => {
          const isChosen = inHand !== null && 'fabric' in inHand && inHand.fabric === fabric.id;
          return (
            <li key={fabric.id}>
              <button
                type="button"
                className="tray-swatch"
                style={swatchStyle(fabric)}
                aria-pressed={isChosen}
                aria-label={fabric.name}
                title={fabric.name}
                {...carries({ fabric: fabric.id }, isChosen)}
              />
            </li>
          );
        })}
      </ul>
      <p className="quilt-hint soft">
        {inHand === null
          ? phrase('Drag on to the quilt, or take in hand with a click and lay it with another.')
          : phrase('In hand: click a place to lay it. Esc puts it back.')}
      </p>
      {copied && <CopyAtSize block={copied} onClose={() => setCopying(null)} />}
    </aside>
  );
}

interface TrayBlockProps {
  readonly block: Block;
  readonly fabrics: readonly Fabric[];
  readonly number: number;
  readonly count: number;
  readonly isInHand: boolean;
  readonly place: RowPlace;
}

function TrayBlock({ block, fabrics, number, count, isInHand, place }: TrayBlockProps) {
  const unit = useStore(session, (state) => state.project.unit);
  const pieces = useMemo(() => paintedPieces(block), [block]);
  const size = sizeAsLaid(block.outline, 0);
  return (
    <li {...place}>
      <button
        type="button"
        className="tray-block"
        aria-pressed={isInHand}
        {...carries({ block: block.id, turn: 0, mirrored: false }, isInHand)}
      >
        <SmallBlock outline={block.outline} pieces={pieces} fabrics={fabrics} size={PICTURE_PX} />
        <span className="tray-words">
          <span className="tray-name">{block.name}</span>
          <span className="soft">{sizeWords(size, unit)}</span>
        </span>
        <span className="tray-count" title={phrase('In {count} places of the quilt', { count })}>
          {count === 0 ? '' : `× ${count}`}
          {number <= 9 && <kbd>{number}</kbd>}
        </span>
      </button>
    </li>
  );
}

/** So far a press moves before it is a drag, pixels. */
const SLACK_PX = 5;

/** What makes something of the tray go in hand with a press, and on to the board with a drag. */
function carries(filling: Exclude<Filling, null>, isInHand: boolean) {
  let from: Point | null = null;
  let isDrag = false;
  const spot = (event: PointerEvent): { readonly at: Point; readonly isOver: boolean } => {
    const board = document.querySelector('.quilt-board')?.getBoundingClientRect();
    const screen: Point = [event.clientX - (board?.left ?? 0), event.clientY - (board?.top ?? 0)];
    const isOver =
      board !== undefined &&
      screen[0] >= 0 &&
      screen[1] >= 0 &&
      screen[0] <= board.width &&
      screen[1] <= board.height;
    return { at: toBoard(quiltView.getState().camera, screen), isOver };
  };
  return {
    onPointerDown: (event: PointerEvent) => {
      if (event.button !== 0) return;
      from = [event.clientX, event.clientY];
      isDrag = false;
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent) => {
      if (from === null) return;
      if (!isDrag && Math.hypot(event.clientX - from[0], event.clientY - from[1]) < SLACK_PX) return;
      isDrag = true;
      const { at, isOver } = spot(event);
      quiltView.setState({ carried: isOver ? { kind: 'new', filling, to: at } : null });
    },
    onPointerUp: (event: PointerEvent) => {
      if (isDrag && spot(event).isOver) dropFromTray(spot(event).at);
      from = null;
    },
    onPointerCancel: () => {
      from = null;
      quiltView.setState({ carried: null });
    },
    onClick: () => {
      // A drag ends with a click as well.
      if (isDrag) isDrag = false;
      else quiltView.setState({ inHand: isInHand ? null : filling });
    },
  };
}
