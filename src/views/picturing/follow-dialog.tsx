import './picturing.css';
import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import type { UnderPicture } from '../../document/project.ts';
import { cornersOfBox } from '../../document/under-picture.ts';
import { seen, viewOf } from '../../geometry/homography.ts';
import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { type Box, boxOf } from '../../geometry/ring.ts';
import { numeral } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import {
  divideByPicture,
  dropPicturing,
  makeFromPicture,
  picturing,
  stopPicturing,
} from '../../workspace/picturing.ts';
import { planOf } from '../../workspace/plans.ts';
import { session } from '../../workspace/session.ts';
import { Choice } from '../choice.tsx';
import { Dialog } from '../dialog.tsx';
import { LengthField, readSize } from '../length-field.tsx';
import { convexShape } from './convex-shape.ts';
import { MadeBlock } from './made-block.tsx';
import { fineSize, halved } from './pixels-of.ts';
import { Range } from './range.tsx';

interface FollowDialogProps {
  readonly blockId: string;
  /** A spot in the patch that is divided, inches. */
  readonly at: Point;
  readonly onClose: () => void;
}

/** So long after a change, ms: a slider that is still moved starts nothing. */
const QUIET_MS = 160;

/** One patch of a drawing is divided so that it follows the picture under it; every line that is there stays. */
export default function FollowDialog({ blockId, at, onClose }: FollowDialogProps) {
  const project = useStore(session, (state) => state.project);
  const { unit, fabrics } = project;
  const { news, isBusy, failure } = useStore(picturing);
  const block = project.blocks.find(({ id }) => id === blockId);
  const [patch] = useState(() => block && planOf(block).patches.find((one) => holdsPoint(one, at)));
  const shape = useMemo(
    () =>
      patch && patch.holes.length === 0 ? convexShape({ name: patch.id, outline: patch.polygon }) : null,
    [patch],
  );
  const picture = block?.picture;
  const pixels = usePixelsUnder(
    picture,
    block ? boxOf(block.outline) : null,
    patch ? boxOf(patch.polygon) : null,
  );
  const [patches, setPatches] = useState(8);
  const [colors, setColors] = useState(4);
  const [from, setFrom] = useState<'new' | 'at-hand'>('at-hand');
  const [least, setLeast] = useState(unit === 'mm' ? '12 mm' : '1/2 in');
  const [angle, setAngle] = useState(20);
  const [ease, setEase] = useState(0.4);
  const [seed, setSeed] = useState(1);
  const narrowest = readSize(least, unit);

  useEffect(() => dropPicturing, []);
  const width = narrowest.ok ? narrowest.inches : null;
  useEffect(() => {
    if (!pixels || !shape || width === null) return;
    const timer = setTimeout(() => {
      void makeFromPicture({
        fine: pixels,
        coarse: halved(pixels),
        weights: null,
        places: null,
        width: shape.size[0],
        height: shape.size[1],
        outline: shape.outline,
        isMirrored: false,
        wish: {
          patches,
          fabrics: colors,
          width,
          angle,
          ease,
          seed,
          ...(from === 'at-hand' && fabrics.length > 0 && { atHand: fabrics.map(({ color }) => color) }),
        },
      });
    }, QUIET_MS);
    return () => clearTimeout(timer);
  }, [pixels, shape, width, patches, colors, angle, ease, seed, from, fabrics]);

  const finish = (): void => {
    if (!news || !patch) return;
    const { minX, minY } = boxOf(patch.polygon);
    divideByPicture(
      blockId,
      news.block,
      [minX, minY],
      fabrics.map(({ id }) => id),
    );
    onClose();
  };
  return (
    <Dialog title={phrase('Divide a patch to follow the picture')} className="picturing" onClose={onClose}>
      {shape === null ? (
        <p role="alert">
          {phrase(
            'Only a patch without dents and islands can be divided so. Draw a line across it first, and divide its halves.',
          )}
        </p>
      ) : (
        <div className="picturing-columns picturing-follow">
          <section aria-label={phrase('The patch')} className="picturing-column" aria-busy={isBusy}>
            {news ? (
              <>
                <MadeBlock
                  block={news.block}
                  width={shape.size[0]}
                  height={shape.size[1]}
                  label={phrase('The patch, divided')}
                />
                <p className="picturing-counts">
                  {phrase(
                    '{patches, plural, one {# patch} other {# patches}} in {fabrics, plural, one {# fabric} other {# fabrics}} in place of one',
                    { patches: news.patches, fabrics: news.block.fabrics.length },
                  )}
                </p>
              </>
            ) : (
              <p role="status">{phrase('Looking at the picture…')}</p>
            )}
            {failure !== null && <p role="alert">{failure}</p>}
            <div className="picturing-progress">
              {isBusy && news ? (
                <>
                  <progress max={1} value={news.done} aria-label={phrase('Growing closer to the picture')} />
                  <button type="button" className="button" onClick={stopPicturing}>
                    {phrase('Stop here')}
                  </button>
                </>
              ) : (
                <button type="button" className="button" onClick={() => setSeed(seed + 1)}>
                  {phrase('Another version')}
                </button>
              )}
            </div>
          </section>
          <section aria-label={phrase('What is wished')} className="picturing-column">
            <Range
              label={phrase('Patches')}
              low={2}
              high={60}
              step={1}
              value={patches}
              onValue={setPatches}
              shown={numeral(patches)}
            />
            <Choice
              label={phrase('Fabrics')}
              options={[
                ['at-hand', phrase('From this project')],
                ['new', phrase('New ones')],
              ]}
              value={from}
              onChoose={setFrom}
            />
            <Range
              label={phrase('Fabrics at most')}
              low={1}
              high={16}
              step={1}
              value={colors}
              onValue={setColors}
              shown={numeral(colors)}
            />
            <Range
              label={phrase('Closest to the picture')}
              end={phrase('easiest to sew')}
              low={0}
              high={1}
              step={0.05}
              value={ease}
              onValue={setEase}
            />
            <Range
              label={phrase('Sharpest corner')}
              low={8}
              high={45}
              step={1}
              value={angle}
              onValue={setAngle}
              shown={`${numeral(angle)}°`}
            />
            <LengthField label={phrase('Narrowest patch')} text={least} unit={unit} onChange={setLeast} />
          </section>
        </div>
      )}
      <div className="buttons">
        <button type="button" className="button" onClick={onClose}>
          {phrase('Cancel')}
        </button>
        {shape !== null && (
          <button type="button" className="button button-main" disabled={!news} onClick={finish}>
            {phrase('Divide the patch')}
          </button>
        )}
      </div>
    </Dialog>
  );
}

/** What the picture under a block shows in a part of it, straightened; null until it is decoded. */
function usePixelsUnder(
  picture: UnderPicture | undefined,
  whole: Box | null,
  part: Box | null,
): ImageData | null {
  const [pixels, setPixels] = useState<ImageData | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what lies under the block when the dialog is opened.
  useEffect(() => {
    if (picture === undefined || whole === null || part === null) return;
    let isWanted = true;
    const image = new Image();
    image.src = picture.data;
    image.decode().then(
      () => {
        if (isWanted) setPixels(straightened(image, picture, whole, part));
      },
      () => undefined,
    );
    return () => {
      isWanted = false;
    };
  }, []);
  return pixels;
}

function straightened(image: HTMLImageElement, picture: UnderPicture, whole: Box, part: Box): ImageData {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [picture.width, picture.height];
  const ctx = canvas.getContext('2d', { willReadFrequently: true })!;
  ctx.drawImage(image, 0, 0, picture.width, picture.height);
  const { data } = ctx.getImageData(0, 0, picture.width, picture.height);
  const [across, down] = [part.maxX - part.minX, part.maxY - part.minY];
  const [width, height] = fineSize([across, down]);
  const made = new ImageData(width, height);
  const view = viewOf(cornersOfBox(whole), picture.corners);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const spot: Point = [part.minX + ((x + 0.5) * across) / width, part.minY + ((y + 0.5) * down) / height];
      const [px, py] = seen(view, spot).map(Math.floor) as [number, number];
      if (px < 0 || py < 0 || px >= picture.width || py >= picture.height) continue;
      const at = (py * picture.width + px) * 4;
      made.data.set(data.subarray(at, at + 4), (y * width + x) * 4);
    }
  return made;
}
