import './picturing.css';
import { useEffect, useMemo, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { freeNameLike } from '../../document/add-drawn-block.ts';
import { oneLine } from '../../document/file-place.ts';
import { formatLength } from '../../geometry/length.ts';
import { numeral } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import {
  dropPicturing,
  makeFromPicture,
  type PicturingNews,
  picturing,
  stopPicturing,
  takePictureBlock,
} from '../../workspace/picturing.ts';
import { type ReadPicture, readPicture } from '../../workspace/read-picture.ts';
import { session } from '../../workspace/session.ts';
import { Choice } from '../choice.tsx';
import { Dialog } from '../dialog.tsx';
import { FileButton } from '../file-button.tsx';
import { LengthField, readSize } from '../length-field.tsx';
import { oneStop } from '../one-stop.ts';
import { convexShape } from './convex-shape.ts';
import { Difference, MadeBlock } from './made-block.tsx';
import { PictureBrush } from './picture-brush.tsx';
import { cellPictures, naturalSize, underPicture } from './pictures-under.ts';
import {
  type Brush,
  type Crop,
  cropBox,
  finePixels,
  fineSize,
  halved,
  keptWhole,
  placesOf,
  WHOLE,
  weightsOf,
} from './pixels-of.ts';
import { Range } from './range.tsx';

interface FromPictureDialogProps {
  readonly file: Blob | null;
  readonly onClose: () => void;
}

interface Shown {
  readonly name: string;
  readonly picture: ReadPicture;
  readonly image: HTMLImageElement;
}

const MOST_PATCHES = 400;
/** Over many blocks. */
const MOST_OVER_BLOCKS = 2_000;
const MOST_BLOCKS_A_SIDE = 8;
/** So long after a change, ms: a slider that is still moved starts nothing. */
const QUIET_MS = 160;
const MOST_VERSIONS = 6;

/** A photo becomes a block that can be sewn: one watches it grow better, and every choice answers at once. */
export default function FromPictureDialog({ file, onClose }: FromPictureDialogProps) {
  const project = useStore(session, (state) => state.project);
  const { unit, fabrics } = project;
  const { news, isBusy, failure } = useStore(picturing);
  const [shown, setShown] = useState<Shown | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isReading, setReading] = useState(false);
  const [across, setAcross] = useState(unit === 'mm' ? '300 mm' : '12 in');
  const [down, setDown] = useState(unit === 'mm' ? '300 mm' : '12 in');
  const [crop, setCrop] = useState<Crop>(WHOLE);
  const [patches, setPatches] = useState(60);
  const [colors, setColors] = useState(8);
  const [from, setFrom] = useState<'new' | 'at-hand'>('new');
  const [least, setLeast] = useState(unit === 'mm' ? '12 mm' : '1/2 in');
  const [angle, setAngle] = useState(20);
  const [ease, setEase] = useState(0.4);
  const [typedColumns, setColumns] = useState(1);
  const [typedRows, setRows] = useState(1);
  const [isLevel, setLevel] = useState(false);
  const [isMirrored, setMirrored] = useState(false);
  const [seed, setSeed] = useState(1);
  const [brush, setBrush] = useState<Brush | 'off'>('off');
  const [radius, setRadius] = useState(12);
  const [versions, setVersions] = useState<readonly PicturingNews[]>([]);
  const [chosen, setChosen] = useState<PicturingNews | null>(null);
  const [typedWidth, typedHeight, narrowest] = [across, down, least].map((text) => {
    const read = readSize(text, unit);
    return read.ok ? read.inches : null;
  }) as [number | null, number | null, number | null];
  const blockId = useStore(session, (state) => state.blockId);
  const open = useMemo(
    () => convexShape(project.blocks.find(({ id }) => id === blockId)),
    [project.blocks, blockId],
  );
  const [isAsOpen, setAsOpen] = useState(false);
  const shape = isAsOpen ? open : null;
  const [width, height] = shape ? shape.size : [typedWidth, typedHeight];
  const [columns, rows] = shape ? [1, 1] : [typedColumns, typedRows];
  const blocks = columns * rows;
  /** Of all blocks together, inches. */
  const size = useMemo(
    () => (width === null || height === null ? null : ([width * columns, height * rows] as const)),
    [width, height, columns, rows],
  );
  const pixels = useMemo(
    () => (shown && size ? finePixels(shown.image, size, crop, blocks) : null),
    [shown, size, crop, blocks],
  );
  const [brushed, setBrushed] = useState<Uint8Array>(new Uint8Array(0));
  useEffect(() => {
    if (!size) return;
    const [w, h] = fineSize(size, blocks);
    setBrushed((before) => (before.length === w * h ? before : new Uint8Array(w * h)));
  }, [size, blocks]);
  const sizeTrouble =
    size === null || width === null || height === null || narrowest === null
      ? null
      : [width, height].some((side) => side > 200 || side < 1)
        ? phrase('A block is from {least} to {most} wide and high.', {
            least: formatLength(1, unit),
            most: formatLength(200, unit),
          })
        : narrowest > Math.min(width, height)
          ? phrase('No patch can be wider than the block.')
          : null;

  useEffect(() => dropPicturing, []);

  const take = async (chosenFile: Blob): Promise<void> => {
    setReading(true);
    setTrouble(null);
    const read = await readPicture(chosenFile);
    const image = new Image();
    if (read.ok) {
      image.src = read.picture.data;
      await image.decode().catch(() => undefined);
    }
    setReading(false);
    if (!read.ok) return setTrouble(read.error);
    if (image.naturalWidth === 0)
      return setTrouble(phrase('The picture is damaged: the browser cannot show it.'));
    const named = 'name' in chosenFile ? oneLine(String(chosenFile.name)).replace(/\.[^.]*$/, '') : '';
    setShown({ name: named || phrase('From a picture'), picture: read.picture, image });
    setCrop(WHOLE);
    setBrushed((before) => new Uint8Array(before.length));
    setVersions([]);
    setChosen(null);
  };
  const taken = useRef(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the file that the dialog was opened with, once.
  useEffect(() => {
    if (file && !taken.current) {
      taken.current = true;
      void take(file);
    }
  }, [file]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `take` reads nothing that changes.
  useEffect(() => {
    const paste = (event: ClipboardEvent): void => {
      const pasted = [...(event.clipboardData?.files ?? [])][0];
      if (pasted) void take(pasted);
    };
    addEventListener('paste', paste);
    return () => removeEventListener('paste', paste);
  }, []);

  const offered = useMemo(
    () => (from === 'at-hand' ? fabrics.map(({ color }) => color) : null),
    [from, fabrics],
  );
  useEffect(() => {
    if (!pixels || !size || narrowest === null || sizeTrouble !== null) return;
    if (brushed.length !== pixels.width * pixels.height) return;
    const timer = setTimeout(() => {
      setChosen(null);
      const fine = keptWhole(pixels, brushed);
      void makeFromPicture({
        fine: { width: fine.width, height: fine.height, data: fine.data },
        coarse: halved(fine),
        weights: weightsOf(brushed),
        places: placesOf(brushed, pixels.width),
        width: size[0],
        height: size[1],
        isMirrored: isMirrored && blocks === 1 && !shape,
        ...(shape && { outline: shape.outline }),
        wish: {
          patches,
          fabrics: Math.max(1, colors),
          width: narrowest,
          angle,
          ease,
          seed,
          isLevel,
          ...(blocks > 1 && { grid: { columns, rows } }),
          ...(offered && offered.length > 0 && { atHand: offered }),
        },
      });
    }, QUIET_MS);
    return () => clearTimeout(timer);
  }, [
    pixels,
    brushed,
    size,
    narrowest,
    sizeTrouble,
    patches,
    colors,
    angle,
    ease,
    seed,
    isLevel,
    isMirrored,
    offered,
    columns,
    rows,
    blocks,
    shape,
  ]);

  const result = chosen ?? news;
  const finish = (): void => {
    if (!result || !size || !shown) return;
    takePictureBlock({
      block: result.block,
      name: freeNameLike(project, shown.name),
      width: size[0],
      height: size[1],
      grid: { columns, rows },
      ...(shape && { outline: shape.outline }),
      atHand: fabrics.map(({ id }) => id),
      pictures:
        blocks === 1
          ? [underPicture(shown.picture, size, crop)]
          : cellPictures(shown.image, cropBox(naturalSize(shown.image), size, crop), { columns, rows }),
    });
    onClose();
  };

  return (
    <Dialog title={phrase('A block or a quilt from a picture')} className="picturing" onClose={onClose}>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: a picture dropped anywhere is taken. */}
      <div
        className="picturing-all"
        onDragOver={(event) => event.preventDefault()}
        onDrop={(event) => {
          const dropped = event.dataTransfer.files[0];
          if (!dropped) return;
          event.preventDefault();
          event.stopPropagation();
          void take(dropped);
        }}
      >
        <div className="picturing-file">
          <FileButton
            label={shown ? phrase('Choose another picture…') : phrase('Choose a picture…')}
            accept="image/png,image/jpeg,image/webp"
            takesFocus
            onFile={(picked) => void take(picked)}
          />
          <p className="soft" role="status">
            {isReading
              ? phrase('Reading the picture…')
              : shown
                ? shown.name
                : phrase('Or drop or paste one: PNG, JPEG or WebP. It stays in this browser.')}
          </p>
        </div>
        {trouble !== null && <p role="alert">{trouble}</p>}
        {shown && (
          <div className="picturing-columns">
            <section aria-label={phrase('The picture')} className="picturing-column">
              <h3 className="panel-title">{phrase('Picture')}</h3>
              {pixels && brushed.length === pixels.width * pixels.height && (
                <PictureBrush
                  pixels={pixels}
                  brushed={brushed}
                  brush={brush === 'off' ? null : brush}
                  radius={radius}
                  onBrush={setBrushed}
                />
              )}
              <Range
                label={phrase('Enlarge')}
                low={1}
                high={6}
                step={0.05}
                value={crop.zoom}
                onValue={(zoom) => setCrop({ ...crop, zoom })}
                shown={`${numeral(crop.zoom, { maximumFractionDigits: 2 })} ×`}
              />
              <Range
                label={phrase('Across')}
                low={0}
                high={1}
                step={0.01}
                value={crop.x}
                onValue={(x) => setCrop({ ...crop, x })}
              />
              <Range
                label={phrase('Down')}
                low={0}
                high={1}
                step={0.01}
                value={crop.y}
                onValue={(y) => setCrop({ ...crop, y })}
              />
              <Choice
                label={phrase('Brush')}
                options={[
                  ['off', phrase('None')],
                  ['more', phrase('More detail')],
                  ['less', phrase('Less')],
                  ['whole', phrase('Keep whole')],
                  ['none', phrase('Wipe')],
                ]}
                value={brush}
                onChoose={setBrush}
              />
              {brush !== 'off' && (
                <Range
                  label={phrase('Width of the brush')}
                  low={3}
                  high={40}
                  step={1}
                  value={radius}
                  onValue={setRadius}
                />
              )}
            </section>
            <section aria-label={phrase('The block')} className="picturing-column" aria-busy={isBusy}>
              <h3 className="panel-title">{blocks === 1 ? phrase('Block') : phrase('Quilt')}</h3>
              {result && size ? (
                <>
                  <MadeBlock
                    block={result.block}
                    width={size[0]}
                    height={size[1]}
                    grid={{ columns, rows }}
                    label={result.verdict}
                  />
                  <p className="picturing-counts">
                    {phrase(
                      '{patches, plural, one {# patch} other {# patches}} in {fabrics, plural, one {# fabric} other {# fabrics}} on {foundations, plural, one {# foundation} other {# foundations}}, {joins, plural, one {# join} other {# joins}}, {matches, plural, one {# match point} other {# match points}}',
                      {
                        patches: result.patches,
                        fabrics: result.block.fabrics.length,
                        foundations: result.foundations,
                        joins: result.joins,
                        matches: result.matches,
                      },
                    )}
                  </p>
                  <p className="soft">{result.verdict}</p>
                  <div className="picturing-progress">
                    {isBusy && news ? (
                      <>
                        <progress
                          max={1}
                          value={news.done}
                          aria-label={phrase('Growing closer to the picture')}
                        />
                        <button type="button" className="button" onClick={stopPicturing}>
                          {phrase('Stop here')}
                        </button>
                      </>
                    ) : (
                      <button
                        type="button"
                        className="button"
                        onClick={() => {
                          if (news) setVersions([news, ...versions].slice(0, MOST_VERSIONS));
                          setSeed(seed + 1);
                        }}
                      >
                        {phrase('Another version')}
                      </button>
                    )}
                  </div>
                </>
              ) : (
                <p role="status">
                  {isBusy ? phrase('Looking at the picture…') : phrase('Nothing made yet.')}
                </p>
              )}
              {(failure ?? sizeTrouble) !== null && <p role="alert">{failure ?? sizeTrouble}</p>}
              {versions.length > 0 && size && (
                <ul ref={oneStop} className="picturing-versions" aria-label={phrase('Versions')}>
                  {news && (
                    <li>
                      <button type="button" aria-pressed={chosen === null} onClick={() => setChosen(null)}>
                        <MadeBlock
                          block={news.block}
                          width={size[0]}
                          height={size[1]}
                          label={phrase('The newest version')}
                        />
                        {phrase('{n, number} foundations', { n: news.foundations })}
                      </button>
                    </li>
                  )}
                  {versions.map((one, k) => (
                    // biome-ignore lint/suspicious/noArrayIndexKey: versions are known by their order.
                    <li key={k}>
                      <button type="button" aria-pressed={chosen === one} onClick={() => setChosen(one)}>
                        <MadeBlock
                          block={one.block}
                          width={size[0]}
                          height={size[1]}
                          label={phrase('Version {n, number}', { n: versions.length - k })}
                        />
                        {phrase('{n, number} foundations', { n: one.foundations })}
                      </button>
                    </li>
                  ))}
                </ul>
              )}
            </section>
            <section aria-label={phrase('What is wished')} className="picturing-column">
              <h3 className="panel-title">{phrase('Difference')}</h3>
              {result && size && pixels && (
                <div className="picturing-difference">
                  <Difference block={result.block} width={size[0]} height={size[1]} pixels={pixels} />
                </div>
              )}
              <Range
                label={phrase('Patches')}
                low={4}
                high={Math.min(MOST_OVER_BLOCKS, MOST_PATCHES * Math.ceil(Math.sqrt(blocks)))}
                step={1}
                value={patches}
                onValue={setPatches}
                shown={numeral(patches)}
              />
              <Choice
                label={phrase('Fabrics')}
                options={[
                  ['new', phrase('New ones')],
                  ['at-hand', phrase('From this project')],
                ]}
                value={from}
                onChoose={setFrom}
              />
              <Range
                label={phrase('Fabrics at most')}
                low={1}
                high={32}
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
              {open && (
                <Choice
                  label={phrase('Shape')}
                  options={[
                    ['own', phrase('A rectangle')],
                    ['open', phrase('As ‘{name}’', { name: open.name })],
                  ]}
                  value={isAsOpen ? 'open' : 'own'}
                  onChoose={(next) => setAsOpen(next === 'open')}
                />
              )}
              <div className="picturing-sizes">
                <LengthField label={phrase('Narrowest patch')} text={least} unit={unit} onChange={setLeast} />
                {!shape && (
                  <>
                    <LengthField
                      label={phrase('Block width')}
                      text={across}
                      unit={unit}
                      onChange={setAcross}
                    />
                    <LengthField label={phrase('Block height')} text={down} unit={unit} onChange={setDown} />
                  </>
                )}
              </div>
              {!shape && (
                <>
                  <Range
                    label={phrase('Blocks across')}
                    low={1}
                    high={MOST_BLOCKS_A_SIDE}
                    step={1}
                    value={columns}
                    onValue={setColumns}
                    shown={numeral(columns)}
                  />
                  <Range
                    label={phrase('Blocks down')}
                    low={1}
                    high={MOST_BLOCKS_A_SIDE}
                    step={1}
                    value={rows}
                    onValue={setRows}
                    shown={numeral(rows)}
                  />
                </>
              )}
              {blocks > 1 && size && (
                <p className="soft">
                  {phrase(
                    '{blocks} blocks make a quilt of {across} × {down}, about {patches, number} patches each. Lines run on from block to block.',
                    {
                      blocks,
                      across: formatLength(size[0], unit),
                      down: formatLength(size[1], unit),
                      patches: Math.round((result?.patches ?? patches) / blocks),
                    },
                  )}
                </p>
              )}
              <label className="check-line">
                <input
                  type="checkbox"
                  checked={isLevel}
                  onChange={(event) => setLevel(event.target.checked)}
                />
                {phrase('Horizontal and vertical lines only')}
              </label>
              <label className="check-line">
                <input
                  type="checkbox"
                  checked={isMirrored && blocks === 1 && !shape}
                  disabled={blocks > 1 || shape !== null}
                  onChange={(event) => setMirrored(event.target.checked)}
                />
                {phrase('Both halves alike')}
              </label>
            </section>
          </div>
        )}
      </div>
      <div className="buttons">
        <button type="button" className="button" onClick={onClose}>
          {phrase('Cancel')}
        </button>
        <button type="button" className="button button-main" disabled={!result || !shown} onClick={finish}>
          {blocks === 1 ? phrase('Make the block') : phrase('Make the quilt')}
        </button>
      </div>
    </Dialog>
  );
}
