import { type FormEvent, useEffect, useMemo, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { givePicture, removePicture } from '../../document/edit-fabrics.ts';
import { checkAcross, checkRoom, isMoving } from '../../document/fabric-picture.ts';
import { fabricsIn } from '../../document/harmony.ts';
import type { Block, Fabric, FabricPicture, Project, Unit } from '../../document/project.ts';
import { MM_PER_IN } from '../../geometry/lattice.ts';
import { formatLength } from '../../geometry/length.ts';
import { edit, say } from '../../workspace/actions.ts';
import {
  colorOfPicture,
  type Frame,
  framed,
  WHOLE_FRAME,
  withAcross,
} from '../../workspace/fabric-pictures.ts';
import { readPicture } from '../../workspace/read-picture.ts';
import { session, shownBlock } from '../../workspace/session.ts';
import { Dialog } from '../dialog.tsx';
import { usePictures } from '../fabric-fills.tsx';
import { Icon } from '../icons.tsx';
import { LengthField, readSize } from '../length-field.tsx';
import { SmallBlock } from '../small-block.tsx';
import { BlockPicture } from './block-picture.tsx';
import './picture-dialog.css';
import { phrase } from '../../words/phrase.ts';
import { PictureFrame } from './picture-frame.tsx';

interface PictureDialogProps {
  readonly fabricId: string;
  /** A file that was dropped on the fabric or pasted, to begin with. */
  readonly file: Blob | null;
  readonly onClose: () => void;
}

/** The picture of a fabric: chosen, framed, and told how much of the cloth it shows. */
export default function PictureDialog({ fabricId, file, onClose }: PictureDialogProps) {
  const project = useStore(session, (state) => state.project);
  const block = useStore(session, shownBlock);
  const fabric = project.fabrics.find(({ id }) => id === fabricId);
  return fabric === undefined ? null : (
    <PictureForm fabric={fabric} file={file} project={project} block={block} onClose={onClose} />
  );
}

interface PictureFormProps {
  readonly fabric: Fabric;
  readonly file: Blob | null;
  readonly project: Project;
  readonly block: Block | null;
  readonly onClose: () => void;
}

/** A picture that is being framed. */
interface Source {
  readonly image: HTMLImageElement;
  /** The fabric's own picture, where that is it: left as it is while the frame holds all of it. */
  readonly own: FabricPicture | null;
}

/** So long that a frame over a quarter of it still gives a full picture, pixels. */
const SOURCE_PX = 2048;

/** How wide a piece is thought to be until it is said, inches and millimetres. */
const usualAcross = (unit: Unit): number => (unit === 'mm' ? 100 / MM_PER_IN : 4);

function PictureForm({ fabric, file, project, block, onClose }: PictureFormProps) {
  const { unit } = project;
  const [source, setSource] = useState<Source | null>(null);
  const [isReading, setReading] = useState(false);
  const [note, setNote] = useState('');
  const [frame, setFrame] = useState<Frame>(WHOLE_FRAME);
  const [size, setSize] = useState(() => formatLength(fabric.picture?.across ?? usualAcross(unit), unit));
  const [takesColour, setTakesColour] = useState(fabric.picture === undefined);
  const chooser = useRef<HTMLInputElement>(null);
  usePictures();

  const show = async (data: string, own: FabricPicture | null): Promise<void> => {
    const image = new Image();
    image.src = data;
    await image.decode();
    setSource({ image, own });
    setFrame(WHOLE_FRAME);
  };

  /** Reads a file; what was there before stays when it cannot be used. */
  const take = async (chosen: Blob): Promise<void> => {
    setReading(true);
    const read = await readPicture(chosen, SOURCE_PX);
    setReading(false);
    if (!read.ok) {
      setNote(read.error);
      return;
    }
    const moves = isMoving(new Uint8Array(await chosen.slice(0, 65_536).arrayBuffer()));
    setNote(moves ? phrase('The picture is animated: only its first frame is used.') : '');
    await show(read.picture.data, null);
    setTakesColour(true);
  };

  // What the dialog was opened with, once.
  // biome-ignore lint/correctness/useExhaustiveDependencies: later changes come from this dialog itself
  useEffect(() => {
    if (file !== null) void take(file);
    else if (fabric.picture !== undefined)
      show(fabric.picture.data, fabric.picture).catch(() =>
        setNote(phrase('The picture of this fabric cannot be shown. Choose another.')),
      );
  }, []);

  const read = readSize(size, unit);
  const across = read.ok ? checkAcross(read.inches) : read;
  const cut = useMemo(() => {
    if (source === null) return null;
    if (source.own !== null && frame === WHOLE_FRAME) return source.own;
    const made = framed(source.image, frame);
    return made === null ? null : { ...made, across: 1 };
  }, [source, frame]);
  const inches = read.ok && across.ok ? read.inches : null;
  const picture = useMemo(
    () => (cut === null || inches === null ? null : withAcross(cut, inches)),
    [cut, inches],
  );
  const average = cut === null ? null : colorOfPicture(cut);
  const room = picture === null ? null : checkRoom(project, fabric.id, picture);
  const isSound = picture !== null && room?.ok === true && !isReading;

  const save = (event: FormEvent): void => {
    event.preventDefault();
    if (!isSound) return;
    const color = takesColour ? (average ?? undefined) : undefined;
    onClose();
    edit(phrase('Add picture to fabric'), (before) => givePicture(before, fabric.id, picture, color));
    say('done', phrase('‘{fabric}’ is shown by its picture now.', { fabric: fabric.name }));
  };

  const takeOff = (): void => {
    onClose();
    edit(phrase('Take the picture away'), (before) => removePicture(before, fabric.id));
    say(
      'done',
      phrase('‘{fabric}’ is shown by its colour again. Undo brings the picture back.', {
        fabric: fabric.name,
      }),
    );
  };

  return (
    <Dialog
      title={phrase('Picture of ‘{fabric}’', { fabric: fabric.name })}
      className="fabric-picture"
      onClose={onClose}
    >
      <form
        className="picture-form"
        onSubmit={save}
        onPaste={(event) => {
          const pasted = event.clipboardData.files[0];
          if (pasted === undefined) return;
          event.preventDefault();
          void take(pasted);
        }}
        onDragOver={(event) => event.preventDefault()}
        onDrop={(event) => {
          event.preventDefault();
          const dropped = event.dataTransfer.files[0];
          if (dropped !== undefined) void take(dropped);
        }}
      >
        <input
          ref={chooser}
          type="file"
          hidden
          accept="image/png,image/jpeg,image/webp"
          aria-label={phrase('Picture file')}
          onChange={(event) => {
            const chosen = event.target.files?.[0];
            event.target.value = '';
            if (chosen !== undefined) void take(chosen);
          }}
        />
        {source === null ? (
          <p className="picture-empty">
            {phrase(
              'A photo or scan of the cloth itself, laid flat and seen straight from above. Choose a PNG, JPEG or WebP file, drop it here, or paste it.',
            )}
          </p>
        ) : (
          <div className="dialog-parts">
            <figure>
              <PictureFrame address={source.image.src} frame={frame} onFrame={setFrame} />
              <figcaption className="soft">
                {phrase(
                  'Drag the sides of the frame to leave out what is not cloth. Where the print repeats, frame one repeat.',
                )}
              </figcaption>
            </figure>
            <div className="picture-fields">
              <figure>
                <Laid fabric={fabric} picture={picture} block={block} fabrics={project.fabrics} />
              </figure>
              <LengthField
                label={phrase('Width of the cloth in the frame')}
                unit={unit}
                text={size}
                onChange={setSize}
              />
              <p className="soft">
                {phrase(
                  'Measured on the cloth, from side to side of the frame: so the print is as large in the block as in the quilt.',
                )}
              </p>
              <label className="check-line">
                <input
                  type="checkbox"
                  checked={takesColour}
                  onChange={(event) => setTakesColour(event.target.checked)}
                />
                {phrase('Take the colour from the picture')}
                {average !== null && <span className="row-swatch" style={{ backgroundColor: average }} />}
              </label>
              <p className="soft">
                {phrase(
                  'The colour stands for the fabric on foundations, where a picture would cost ink, and says how light it is.',
                )}
              </p>
            </div>
          </div>
        )}
        <p className="picture-note" role="status">
          {isReading ? phrase('Reading the picture …') : noteOf(note, across, room)}
        </p>
        <div className="buttons">
          {source !== null && (
            <button type="submit" className="button button-main" aria-disabled={!isSound}>
              {phrase('Use picture')}
            </button>
          )}
          <button
            type="button"
            className={source === null ? 'button button-main' : 'button'}
            data-first-focus={source === null ? true : undefined}
            onClick={() => chooser.current?.click()}
          >
            <Icon name="cloth" size={18} />
            {source === null ? phrase('Choose a picture…') : phrase('Another picture…')}
          </button>
          {fabric.picture !== undefined && (
            <button type="button" className="button" onClick={takeOff}>
              {phrase('Take the picture away')}
            </button>
          )}
          <button type="button" className="button" onClick={onClose}>
            {phrase('Cancel')}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

type Told = { readonly ok: true } | { readonly ok: false; readonly error: string };

/** What is to be said below the fields. What is wrong with the text itself stands beside it already. */
function noteOf(note: string, across: Told, room: Told | null): string {
  if (note !== '') return note;
  if (room?.ok === false) return room.error;
  return across.ok ? '' : across.error;
}

interface LaidProps {
  readonly fabric: Fabric;
  readonly picture: FabricPicture | null;
  readonly block: Block | null;
  readonly fabrics: readonly Fabric[];
}

const LAID_PX = 172;

/** A square to try a print on, inches. */
const TRY_IN = 6;
const TRY_SQUARE = [
  [0, 0],
  [TRY_IN, 0],
  [TRY_IN, TRY_IN],
  [0, TRY_IN],
] as const;

/** The print at its size: in the open block where the fabric lies in it, else on a square of its own. */
function Laid({ fabric, picture, block, fabrics }: LaidProps) {
  const unit = useStore(session, ({ project }) => project.unit);
  const shown = fabrics.map((one) => (one.id === fabric.id && picture !== null ? { ...one, picture } : one));
  if (block !== null && fabricsIn(block, fabrics).some(({ id }) => id === fabric.id))
    return (
      <>
        <BlockPicture block={block} fabrics={shown} size={LAID_PX} />
        <figcaption className="soft">{phrase('In ‘{block}’', { block: block.name })}</figcaption>
      </>
    );
  const piece = { key: 0, rings: [TRY_SQUARE], fabric: fabric.id, bare: 'var(--sheet)' };
  return (
    <>
      <SmallBlock outline={TRY_SQUARE} pieces={[piece]} fabrics={shown} size={LAID_PX} />
      <figcaption className="soft">
        {phrase('On a square of {side}', { side: formatLength(TRY_IN, unit) })}
      </figcaption>
    </>
  );
}
