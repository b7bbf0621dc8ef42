import { type PointerEvent, useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { takeFabric } from '../../board/board-acts.ts';
import { board } from '../../board/board-state.ts';
import type { Fabric } from '../../document/project.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { swatchStyle, usePictures } from '../fabric-fills.tsx';
import { scrollWithin } from '../scroll-within.ts';
import { useNarrow } from '../use-media.ts';

/** Where the shelf of fabrics lies far below the drawing: the fabrics in a row at the drawing. */
export function FabricStrip() {
  const hasFabrics = useStore(session, (state) => state.project.fabrics.length > 0);
  return useNarrow() && hasFabrics ? <OpenStrip /> : null;
}

/** A slow finger is held longer than a click lasts: it takes the fabric when it is lifted, unless it drew the row along. */
const takes = (fabric: Fabric | null) => ({
  onClick: () => takeFabric(fabric),
  onPointerUp: ({ pointerType }: PointerEvent) => {
    if (pointerType === 'touch') takeFabric(fabric);
  },
});

function OpenStrip() {
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const chosenId = useStore(board, (state) => state.fabricId);
  const isPainting = useStore(board, ({ tool }) => tool === 'paint');
  const row = useRef<HTMLFieldSetElement>(null);
  usePictures();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the fabric in hand comes into view when it changes.
  useEffect(() => {
    if (row.current !== null)
      scrollWithin(row.current, row.current.querySelector<HTMLElement>('[aria-pressed="true"]'));
  }, [chosenId]);
  return (
    <fieldset ref={row} className="fabric-strip">
      <legend className="only-heard">{phrase('Fabric to lay')}</legend>
      {fabrics.map((fabric) => (
        <button
          key={fabric.id}
          type="button"
          className="swatch"
          style={swatchStyle(fabric)}
          aria-label={phrase('Lay {fabric}', { fabric: fabric.name })}
          title={phrase('Lay {fabric}', { fabric: fabric.name })}
          aria-pressed={isPainting && fabric.id === chosenId}
          {...takes(fabric)}
        />
      ))}
      <button
        type="button"
        className="swatch swatch-none"
        aria-label={phrase('Lay no fabric: take it off')}
        title={phrase('Lay no fabric: take it off')}
        aria-pressed={isPainting && chosenId === null}
        {...takes(null)}
      />
    </fieldset>
  );
}
