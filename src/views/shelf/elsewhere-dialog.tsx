import { type FormEvent, useId, useState } from 'react';
import { useStore } from 'zustand';
import { type BlockDrawing, drawBlock, type PictureKind } from '../../document/export-block.ts';
import type { Fabric, FabricPicture } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import type { Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { session, shownBlock } from '../../workspace/session.ts';
import {
  MAX_PIXELS,
  MIN_PIXELS,
  pixelHeight,
  saveBlockPng,
  saveBlockSvg,
} from '../../workspace/take-elsewhere.ts';
import { Choice } from '../choice.tsx';
import { Dialog } from '../dialog.tsx';
import { useFabricFills } from '../fabric-fills.tsx';
import { LengthField, readSize } from '../length-field.tsx';

type FileKind = 'svg' | 'png';

const FILES: readonly (readonly [FileKind, string])[] = [
  ['svg', phrase('SVG, measures true')],
  ['png', phrase('PNG picture')],
];

const KINDS: readonly (readonly [PictureKind, string])[] = [
  ['lines', phrase('Lines only')],
  ['colours', phrase('In its colours')],
];

/** The open block as a drawing or a picture for other programs. */
export default function ElsewhereDialog({ onClose }: { readonly onClose: () => void }) {
  const block = useStore(session, shownBlock);
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const unit = useStore(session, (state) => state.project.unit);
  const [file, setFile] = useState<FileKind>('svg');
  const [kind, setKind] = useState<PictureKind>('lines');
  const box = boxOf(block?.outline ?? []);
  const [size, setSize] = useState(() =>
    block === null ? '' : formatLength(Math.round((box.maxX - box.minX) * 64) / 64, unit),
  );
  const [pixels, setPixels] = useState('1200');
  const pixelsId = useId();
  if (block === null) return null;
  const read = readSize(size, unit);
  const width = /^\d{1,5}$/.test(pixels.trim()) ? Number(pixels) : 0;
  const height = width > 0 ? pixelHeight(block, width) : 0;
  const pixelFault =
    width < MIN_PIXELS || width > MAX_PIXELS || height > MAX_PIXELS
      ? phrase(
          'Type a whole number from {minPixels} to {maxPixels, number}{isHeight, select, true {, fewer for a block as tall as this} other {}}.',
          { minPixels: MIN_PIXELS, maxPixels: MAX_PIXELS, isHeight: height > MAX_PIXELS },
        )
      : '';
  const isSound = file === 'svg' ? read.ok : pixelFault === '';

  const save = (event: FormEvent): void => {
    event.preventDefault();
    if (!isSound) return;
    onClose();
    if (file === 'png') void saveBlockPng(block, fabrics, kind, width);
    else if (read.ok) saveBlockSvg(block, fabrics, kind, read.inches);
  };

  return (
    <Dialog title={phrase('Export ‘{block}’', { block: block.name })} className="elsewhere" onClose={onClose}>
      <form className="elsewhere-form" onSubmit={save}>
        <Picture drawing={drawBlock(block, fabrics, kind, 6)} fabrics={fabrics} />
        <div className="elsewhere-fields">
          <Choice label={phrase('File')} options={FILES} value={file} onChoose={setFile} />
          <Choice label={phrase('Drawn')} options={KINDS} value={kind} onChoose={setKind} />
          {file === 'svg' ? (
            <LengthField label={phrase('Finished width')} unit={unit} text={size} onChange={setSize} />
          ) : (
            <div className="length-field">
              <label htmlFor={pixelsId}>{phrase('Width in pixels')}</label>
              <input
                id={pixelsId}
                className="text-input"
                inputMode="numeric"
                autoComplete="off"
                value={pixels}
                aria-invalid={pixelFault !== ''}
                aria-describedby={`${pixelsId}-fault`}
                onChange={(event) => setPixels(event.target.value)}
              />
              <span id={`${pixelsId}-fault`} className="field-fault">
                {pixelFault}
              </span>
            </div>
          )}
          <p className="soft elsewhere-note">
            {file === 'svg'
              ? phrase(
                  'The front of the block, without seam allowance. Foundations to sew from are printed in Paper.',
                )
              : phrase(
                  'The front of the block on white{isPixelFault, select, true {, {width, number} by {height, number} pixels} other {}}.',
                  { isPixelFault: pixelFault === '', width, height },
                )}
          </p>
        </div>
        <div className="buttons">
          <button type="submit" className="button button-main" aria-disabled={!isSound}>
            {phrase('Save')}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {phrase('Cancel')}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

interface PictureProps {
  readonly drawing: BlockDrawing;
  readonly fabrics: readonly Fabric[];
}

const PICTURE_PX = 180;

/** What the file will show. */
function Picture({ drawing, fabrics }: PictureProps) {
  const { width, height, outline, cuts, fills, scale, origin } = drawing;
  const extent = Math.max(width, height);
  const line = extent / 150;
  const printOf = (picture: FabricPicture | undefined): string | undefined =>
    picture && fabrics.find((fabric) => fabric.picture === picture)?.id;
  const used = new Set(fills.flatMap(({ picture }) => printOf(picture) ?? []));
  const { defs, fillOf } = useFabricFills(fabrics, used, {
    pxPerIn: (scale * PICTURE_PX) / extent,
    scale,
    origin,
  });
  const path = (ring: Ring): string => `M${ring.map((p) => p.join(' ')).join('L')}Z`;
  return (
    <svg
      className="block-picture"
      width={PICTURE_PX}
      height={PICTURE_PX}
      viewBox={`${(width - extent) / 2 - line} ${(height - extent) / 2 - line} ${extent + 2 * line} ${extent + 2 * line}`}
      aria-hidden="true"
      focusable="false"
    >
      <path d={path(outline)} fill="var(--sheet)" />
      {defs}
      {fills.map(({ color, picture, rings }) => (
        <path
          key={rings.map(path).join('')}
          d={rings.map(path).join('')}
          fill={fillOf(printOf(picture)) ?? color}
          fillRule="evenodd"
        />
      ))}
      <path
        d={`${path(outline)}${cuts.map(([a, b]) => `M${a.join(' ')}L${b.join(' ')}`).join('')}`}
        fill="none"
        stroke="var(--sheet-ink)"
        strokeWidth={line}
        strokeLinejoin="round"
      />
    </svg>
  );
}
