import { useStore } from 'zustand';
import { takeFabric } from '../../board/board-acts.ts';
import { board } from '../../board/board-state.ts';
import { session } from '../../workspace/session.ts';
import { swatchStyle, usePictures } from '../fabric-fills.tsx';

/** Where the shelf of fabrics lies far below the drawing: the fabrics at the drawing, while they are laid. */
export function FabricStrip() {
  const isInHand = useStore(board, ({ tool }) => tool === 'paint');
  return isInHand ? <OpenStrip /> : null;
}

function OpenStrip() {
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const chosenId = useStore(board, (state) => state.fabricId);
  usePictures();
  if (fabrics.length === 0) return null;
  return (
    <fieldset className="tool-options fabric-strip">
      <legend className="only-heard">Fabric to lay</legend>
      {fabrics.map((fabric) => (
        <button
          key={fabric.id}
          type="button"
          className="swatch"
          style={swatchStyle(fabric)}
          aria-label={fabric.name}
          title={fabric.name}
          aria-pressed={fabric.id === chosenId}
          onClick={() => takeFabric(fabric)}
        />
      ))}
      <button
        type="button"
        className="swatch swatch-none"
        aria-label="No fabric: take it off"
        title="No fabric: take it off"
        aria-pressed={chosenId === null}
        onClick={() => takeFabric(null)}
      />
    </fieldset>
  );
}
