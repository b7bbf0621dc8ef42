import { useEffect, useMemo, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { announce } from '../../board/board-state.ts';
import { pixelsOf, smaller } from '../../board/draw/under-picture-pixels.ts';
import { layPicture, squarePicture } from '../../document/edit-picture.ts';
import { findBlock } from '../../document/find.ts';
import type { Block } from '../../document/project.ts';
import { cornersOfBox, isSquarable, NOT_SQUARABLE, USUAL_STRENGTH } from '../../document/under-picture.ts';
import { type Quad, viewOf } from '../../geometry/homography.ts';
import type { Point } from '../../geometry/point.ts';
import { type Box, boxOf } from '../../geometry/ring.ts';
import { type Pixels, warpRows } from '../../geometry/warp.ts';
import { edit } from '../../workspace/actions.ts';
import type { ReadPicture } from '../../workspace/read-picture.ts';
import { session } from '../../workspace/session.ts';
import { Dialog } from '../dialog.tsx';
import { openPictureCard } from './under-picture-card.tsx';
import './under-picture.css';
import { phrase } from '../../words/phrase.ts';
import { UnderPictureCorners } from './under-picture-corners.tsx';

interface UnderPictureDialogProps {
  readonly blockId: string;
  /** A picture to be laid; null for the one that lies there, to be squared up anew. */
  readonly picture: ReadPicture | null;
  readonly onClose: () => void;
}

/** Where the corners of the block are in a picture: four handles on it, and what comes of them beside it. */
export default function UnderPictureDialog({ blockId, picture, onClose }: UnderPictureDialogProps) {
  const block = useStore(session, (state) => findBlock(state.project, blockId));
  const shown = picture ?? block?.picture ?? null;
  return block === null || shown === null ? null : (
    <SquareUp block={block} picture={shown} isNew={picture !== null} onClose={onClose} />
  );
}

/** So far from the sides of a new picture its corners are looked for first, as a share. */
const INSET = 0.1;

const insetCorners = ({ width, height }: ReadPicture, share: number): Quad =>
  cornersOfBox({
    minX: width * share,
    minY: height * share,
    maxX: width * (1 - share),
    maxY: height * (1 - share),
  });

interface SquareUpProps {
  readonly block: Block;
  readonly picture: ReadPicture;
  readonly isNew: boolean;
  readonly onClose: () => void;
}

function SquareUp({ block, picture, isNew, onClose }: SquareUpProps) {
  const [corners, setCorners] = useState<Quad>(() =>
    isNew ? insetCorners(picture, INSET) : (block.picture?.corners ?? insetCorners(picture, INSET)),
  );
  const [frame] = useState(() => boxOf([...insetCorners(picture, 0), ...corners]));
  const isSound = isSquarable(corners);

  const move = (corner: number, to: Point): void =>
    setCorners((before) => before.map((one, k) => (k === corner ? to : one)) as unknown as Quad);

  const lay = (): void => {
    if (!isSound) return;
    onClose();
    if (isNew) {
      const laid = { ...picture, corners, strength: USUAL_STRENGTH, shown: true, locked: false };
      edit(phrase('Lay picture under'), (project) => layPicture(project, block.id, laid));
      announce(
        phrase(
          'The picture lies under the drawing. Picture, below the drawing, changes its opacity, hides and locks it.',
        ),
      );
    } else {
      edit(phrase('Square picture'), (project) => squarePicture(project, block.id, corners));
      announce(phrase('The picture is squared up anew.'));
    }
    openPictureCard();
  };

  return (
    <Dialog title={phrase('Square the picture to the block')} className="square-up" onClose={onClose}>
      <div className="dialog-parts">
        <UnderPictureCorners
          address={picture.data}
          width={picture.width}
          height={picture.height}
          frame={frame}
          corners={corners}
          isSound={isSound}
          onMove={move}
        />
        <div className="dialog-asked">
          <p>
            {phrase(
              'Put the four handles on the corners of the block in the picture. It is straightened so that they lie on the corners of ‘{block}’.',
              { block: block.name },
            )}
          </p>
          <Straightened block={block} picture={picture} corners={isSound ? corners : null} />
          <p className="field-fault" role="status">
            {isSound ? '' : NOT_SQUARABLE}
          </p>
          <div className="buttons">
            <button type="button" className="button" onClick={() => setCorners(insetCorners(picture, 0))}>
              {phrase('Whole picture')}
            </button>
            <button
              type="button"
              className="button"
              onClick={() => setCorners(([a, b, c, d]) => [d, a, b, c])}
            >
              {phrase('Turn it')}
            </button>
          </div>
        </div>
      </div>
      <div className="buttons">
        <button type="button" className="button button-main" aria-disabled={!isSound} onClick={lay}>
          {isNew ? phrase('Lay it under') : phrase('Square it up')}
        </button>
        <button type="button" className="button" onClick={onClose}>
          {phrase('Cancel')}
        </button>
      </div>
    </Dialog>
  );
}

/** The longer side of what comes of it, pixels; it is shown at half that size, sharp on fine screens too. */
const SEEN_PX = 440;

interface StraightenedProps {
  readonly block: Block;
  readonly picture: ReadPicture;
  /** Null while they cannot be squared up: what came of them last stays, faint. */
  readonly corners: Quad | null;
}

/** The picture straightened, with the lines of the block over it. */
function Straightened({ block, picture, corners }: StraightenedProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [pixels, setPixels] = useState<Pixels | null>(null);
  const [isLost, setLost] = useState(false);
  const box = useMemo(() => boxOf(block.outline), [block.outline]);
  const [across, down] = [box.maxX - box.minX, box.maxY - box.minY];
  const perInch = SEEN_PX / Math.max(across, down);
  const [width, height] = [
    Math.max(1, Math.round(across * perInch)),
    Math.max(1, Math.round(down * perInch)),
  ];

  useEffect(() => {
    let isCurrent = true;
    pixelsOf(picture).then(
      (all) => isCurrent && setPixels(smaller(all, SEEN_PX)),
      () => isCurrent && setLost(true),
    );
    return () => {
      isCurrent = false;
    };
  }, [picture]);

  useEffect(() => {
    const pen = canvas.current?.getContext('2d');
    if (pixels === null || corners === null || pen == null) return;
    const scale = pixels.width / picture.width;
    const scaled = corners.map(([x, y]) => [x * scale, y * scale]) as unknown as Quad;
    const target = new ImageData(width, height);
    const whole: Box = { minX: 0, minY: 0, maxX: width, maxY: height };
    warpRows(pixels, target, viewOf(cornersOfBox(whole), scaled), 0, height);
    pen.putImageData(target, 0, 0);
  }, [pixels, corners, picture, width, height]);

  if (isLost) return <p className="soft">{phrase('The browser cannot show this picture.')}</p>;
  const lines = [
    `M${block.outline.map((point) => point.join(' ')).join('L')}Z`,
    ...block.cuts.map(({ from, to }) => `M${from.join(' ')}L${to.join(' ')}`),
  ].join('');
  const quarters = [1, 2, 3].flatMap((k) => [
    `M${box.minX + (across * k) / 4} ${box.minY}V${box.maxY}`,
    `M${box.minX} ${box.minY + (down * k) / 4}H${box.maxX}`,
  ]);
  return (
    <figure className="straightened" data-sound={corners !== null}>
      <div style={{ aspectRatio: `${width} / ${height}`, width: `${(width / SEEN_PX) * 100}%` }}>
        <canvas ref={canvas} width={width} height={height} />
        <svg viewBox={`${box.minX} ${box.minY} ${across} ${down}`} aria-hidden="true">
          <path className="corner-halo" d={lines} />
          <path className="quarter" d={quarters.join('')} />
          <path d={lines} />
        </svg>
      </div>
      <figcaption className="soft">{phrase('Straightened, with the lines of the block')}</figcaption>
    </figure>
  );
}
