import { type FormEvent, useDeferredValue, useId, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { addDrawnBlock, freeNameLike } from '../../document/add-drawn-block.ts';
import { nextBlockId } from '../../document/ids.ts';
import { type LeftOutKind, readSvg, type StatedSize } from '../../document/import-svg/read-svg.ts';
import {
  type ImportedBlock,
  type OutlineChoice,
  type Scale,
  toBlock,
} from '../../document/import-svg/to-block.ts';
import { checkName, NAME_LENGTH } from '../../document/limits.ts';
import { patchesOf } from '../../document/patches-of.ts';
import { type Block, EMPTY_PROJECT, type Unit } from '../../document/project.ts';
import { formatLength, parseLength } from '../../geometry/length.ts';
import type { Segment } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { edit, say } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { numbersOf } from '../../workspace/starter-numbers.ts';
import { Dialog } from '../dialog.tsx';
import { Icon } from '../icons.tsx';
import { LengthField, readSize } from '../length-field.tsx';

interface BringInDialogProps {
  readonly fileName: string;
  readonly text: string;
  readonly onClose: () => void;
}

type ScaleChoice = '96' | '90' | '72' | 'width';

const OUTLINES: Readonly<Record<OutlineChoice, string>> = {
  closed: phrase('the outer edge of the drawing'),
  box: phrase('the rectangle round everything'),
  page: phrase('the page of the file'),
};

const CHORDS = [0, 1, 2, 3, 4, 6, 8, 12, 16];

/** Ends that are this far apart are joined unless another distance is typed: half a millimetre or so. */
const usualJoin = (unit: Unit): string => (unit === 'mm' ? '0.5 mm' : '0.02 in');

/** What was understood of an SVG file, in words and drawn, and how it is to become a block. */
export default function BringInDialog({ fileName, text, onClose }: BringInDialogProps) {
  const unit = useStore(session, (state) => state.project.unit);
  const [name, setName] = useState(() =>
    freeNameLike(
      session.getState().project,
      fileName
        .replace(/\.svg$/i, '')
        .trim()
        .slice(0, NAME_LENGTH - 8) || phrase('Drawing'),
    ),
  );
  const [chords, setChords] = useState(4);
  const [join, setJoin] = useState(usualJoin(unit));
  const [outline, setOutline] = useState<OutlineChoice | undefined>(undefined);
  const read = useMemo(() => readSvg(text, chords), [text, chords]);
  const stated: StatedSize = read.ok ? read.drawing.stated : 'none';
  // A file that says nothing of its size is asked about, not guessed at.
  const [scaleChoice, setScaleChoice] = useState<ScaleChoice | null>(stated === 'none' ? null : '96');
  const [width, setWidth] = useState(() => (unit === 'mm' ? '150 mm' : formatLength(6, unit)));
  const nameId = useId();
  const outlineId = useId();
  const chordsId = useId();
  const scaleName = useId();

  const joinRead = parseLength(join, unit);
  const widthRead = readSize(width, unit);
  const widthIn = widthRead.ok ? widthRead.inches : null;
  const joinWithin = joinRead.ok ? Math.max(0, Math.min(joinRead.inches, 1)) : 0;
  const scale = useMemo(
    (): Scale =>
      scaleChoice === 'width' && widthIn !== null
        ? { kind: 'width', inches: widthIn }
        : { kind: 'per-inch', pixels: Number(scaleChoice === 'width' ? 96 : (scaleChoice ?? 96)) },
    [scaleChoice, widthIn],
  );
  const asked = useDeferredValue(
    useMemo(() => ({ scale, joinWithin, outline }), [scale, joinWithin, outline]),
  );
  const made = useMemo(() => (read.ok ? toBlock(read.drawing, asked) : null), [read, asked]);
  const imported = made?.ok ? made.block : null;
  const block = useMemo(
    () =>
      imported === null
        ? null
        : (addDrawnBlock(EMPTY_PROJECT, {
            name: phrase('Drawing'),
            outline: imported.outline,
            cuts: imported.cuts,
          }).blocks[0] ?? null),
    [imported],
  );
  const checkedName = checkName(name);
  const isSized = scaleChoice !== null && (scaleChoice !== 'width' || widthRead.ok);
  const isSound = block !== null && checkedName.ok && joinRead.ok && isSized;

  const add = (event: FormEvent): void => {
    event.preventDefault();
    if (!isSound || imported === null) return;
    const blockId = nextBlockId(session.getState().project);
    onClose();
    edit(
      phrase('Import drawing'),
      (project) =>
        addDrawnBlock(project, { name: checkedName.value, outline: imported.outline, cuts: imported.cuts }),
      { openBlock: blockId, select: [] },
    );
    if (session.getState().blockId !== blockId)
      say(
        'trouble',
        phrase('‘{fileName}’ was not imported: the project holds as many blocks as it can.', { fileName }),
      );
  };

  return (
    <Dialog title={phrase('Import ‘{fileName}’', { fileName })} className="bring-in" onClose={onClose}>
      <form className="dialog-parts" onSubmit={add}>
        <div className="dialog-seen">
          {imported === null ? (
            <p className="bring-in-none" role="status">
              {made !== null && !made.ok ? made.error : read.ok ? '' : read.error}
            </p>
          ) : (
            <Understood imported={imported} />
          )}
          {block !== null && imported !== null && (
            <Words
              block={block}
              imported={imported}
              leftOut={read.ok ? read.drawing.leftOut : new Map()}
              unit={unit}
              isSized={isSized}
            />
          )}
        </div>
        <div className="dialog-asked">
          <div className="length-field">
            <label htmlFor={nameId}>{phrase('Name')}</label>
            <input
              id={nameId}
              className="text-input"
              value={name}
              autoComplete="off"
              data-first-focus=""
              aria-invalid={!checkedName.ok}
              onChange={(event) => setName(event.target.value)}
            />
            <span className="field-fault">{checkedName.ok ? '' : checkedName.error}</span>
          </div>
          <fieldset className="scale-choice">
            <legend>
              {stated === 'none'
                ? phrase('How large is it? The file does not say.')
                : phrase('How large is it?')}
            </legend>
            {scaleOptions(stated).map(([option, label]) => (
              <label key={option} className="check-line">
                <input
                  type="radio"
                  name={scaleName}
                  checked={scaleChoice === option}
                  onChange={() => setScaleChoice(option)}
                />
                <span>{label}</span>
              </label>
            ))}
          </fieldset>
          {scaleChoice === 'width' && (
            <LengthField label={phrase('Finished width')} unit={unit} text={width} onChange={setWidth} />
          )}
          <div className="length-field">
            <label htmlFor={outlineId}>{phrase('The outline of the block is')}</label>
            <select
              id={outlineId}
              value={outline ?? imported?.outlineChoice ?? 'box'}
              onChange={(event) => setOutline(imported?.choices.find((one) => one === event.target.value))}
            >
              {(imported?.choices ?? (['box'] as const)).map((one) => (
                <option key={one} value={one}>
                  {OUTLINES[one]}
                </option>
              ))}
            </select>
          </div>
          {read.ok && read.drawing.curves > 0 && (
            <div className="length-field">
              <label htmlFor={chordsId}>{phrase('Each curve becomes')}</label>
              <select
                id={chordsId}
                value={chords}
                onChange={(event) => setChords(Number(event.target.value))}
              >
                {CHORDS.map((number) => (
                  <option key={number} value={number}>
                    {number === 0
                      ? phrase('nothing: it is left out')
                      : phrase('{number, plural, one {# straight line} other {# straight lines}}', {
                          number,
                        })}
                  </option>
                ))}
              </select>
            </div>
          )}
          <div className="bring-in-join">
            <JoinField unit={unit} text={join} fault={joinRead.ok ? '' : joinRead.error} onChange={setJoin} />
          </div>
          <div className="buttons">
            <button type="submit" className="button button-main" aria-disabled={!isSound}>
              {phrase('Add block')}
            </button>
            <button type="button" className="button" onClick={onClose}>
              {phrase('Cancel')}
            </button>
          </div>
          {scaleChoice === null && (
            <p className="soft bring-in-ask">{phrase('Say first how large the drawing is.')}</p>
          )}
        </div>
      </form>
    </Dialog>
  );
}

function scaleOptions(stated: StatedSize): readonly (readonly [ScaleChoice, string])[] {
  if (stated === 'true')
    return [
      ['96', phrase('As large as the file says')],
      ['width', phrase('So wide when finished:')],
    ];
  return [
    [
      '96',
      stated === 'pixels'
        ? phrase('96 of its pixels are an inch, as on screens')
        : phrase('96 of its units are an inch'),
    ],
    ['90', phrase('90 are an inch, as in older drawings')],
    ['72', phrase('72 are an inch, as in print (points)')],
    ['width', phrase('So wide when finished:')],
  ];
}

interface JoinFieldProps {
  readonly unit: Unit;
  readonly text: string;
  readonly fault: string;
  readonly onChange: (text: string) => void;
}

/** Like a length field, but 0 is a distance too: nothing is joined then. */
function JoinField({ text, fault, onChange }: JoinFieldProps) {
  const id = useId();
  return (
    <div className="length-field">
      <label htmlFor={id}>{phrase('Join ends that miss by at most')}</label>
      <input
        id={id}
        className="text-input"
        value={text}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={fault !== ''}
        aria-describedby={`${id}-fault`}
        onChange={(event) => onChange(event.target.value)}
      />
      <span id={`${id}-fault`} className="field-fault">
        {fault}
      </span>
    </div>
  );
}

/** What becomes the block in ink, what is left out broken and in red. */
function Understood({ imported }: { readonly imported: ImportedBlock }) {
  const { outline, cuts, outside, skipped } = imported;
  const left = [...outside, ...skipped];
  const { minX, minY, maxX, maxY } = boxOf([...outline, ...left.flat()]);
  const extent = Math.max(maxX - minX, maxY - minY);
  const line = extent / 340;
  const lines = (segments: readonly Segment[]): string =>
    segments.map(([a, b]) => `M${a.join(' ')}L${b.join(' ')}`).join('');
  return (
    <svg
      className="bring-in-picture"
      viewBox={`${(minX + maxX - extent) / 2 - 8 * line} ${(minY + maxY - extent) / 2 - 8 * line} ${extent + 16 * line} ${extent + 16 * line}`}
      role="img"
      aria-label={phrase(
        'The block with {cuts, plural, one {# line} other {# lines}}{isLeft, select, true {, and {left, plural, one {# line} other {# lines}} left out} other {}}',
        { cuts: cuts.length, isLeft: left.length > 0, left: left.length },
      )}
    >
      <polygon
        points={outline.map((p) => p.join(',')).join(' ')}
        fill="var(--sheet)"
        stroke="var(--sheet-ink)"
        strokeWidth={2.4 * line}
        strokeLinejoin="round"
      />
      <path d={lines(cuts)} stroke="var(--sheet-ink)" strokeWidth={1.2 * line} strokeLinecap="round" />
      <path
        d={lines(left)}
        stroke="var(--madder)"
        strokeWidth={1.6 * line}
        strokeDasharray={`${5 * line} ${4 * line}`}
      />
    </svg>
  );
}

interface WordsProps {
  readonly block: Block;
  readonly imported: ImportedBlock;
  readonly leftOut: ReadonlyMap<LeftOutKind, number>;
  readonly unit: Unit;
  readonly isSized: boolean;
}

const LEFT_OUT_WORDS: Readonly<Record<LeftOutKind, (count: number) => string>> = {
  text: (n) => phrase('{n, plural, one {# piece} other {# pieces}} of text', { n }),
  picture: (n) =>
    phrase('{n, plural, one {# picture} other {# pictures}} inside it (nothing is fetched)', { n }),
  copy: (n) => phrase('{n, plural, one {# copy} other {# copies}} of other parts (‘use’)', { n }),
  script: (n) => phrase('{n, plural, one {# script} other {# scripts}} (nothing is ever run)', { n }),
  foreign: (n) => phrase('{n, plural, one {# piece} other {# pieces}} of another kind of document', { n }),
  hidden: (n) => phrase('{n, plural, one {# hidden shape} other {# hidden shapes}}', { n }),
  background: () => phrase('the colour of the page'),
  unreadable: (n) =>
    phrase('{n, plural, one {# shape} other {# shapes}} with numbers that cannot be read', { n }),
  'part-of-path': (n) => phrase('the unreadable end of {n, plural, one {# path} other {# paths}}', { n }),
  curve: (n) => phrase('{n, plural, one {# curve} other {# curves}}', { n }),
};

/** What was understood, what was done to it, and what was left out. */
function Words({ block, imported, leftOut, unit, isSized }: WordsProps) {
  const { outline, pieces, repeated, joined, outside, cuts } = imported;
  const { maxX, maxY } = boxOf(outline);
  const length = (inches: number): string => formatLength(Math.round(inches * 64) / 64, unit);
  const left = [
    ...[...leftOut].map(([kind, times]) => LEFT_OUT_WORDS[kind](times)),
    ...(outside.length > 0
      ? [
          phrase('{outside, plural, one {# line} other {# lines}} outside the outline', {
            outside: outside.length,
          }),
        ]
      : []),
  ];
  return (
    <div className="bring-in-words" role="status">
      <p>
        <b>{sewn(block)}</b>
      </p>
      <p>
        {phrase(
          '{isSized, select, true {{maxX} by {maxY} finished. } other {}}{pieces, plural, one {# straight piece} other {# straight pieces}} became {cuts, plural, one {# line} other {# lines}} and an outline of {outline, plural, one {# side} other {# sides}}{isRepeated, select, true {; {repeated} lay on others} other {}}{isJoined, select, true {; {joined, plural, one {# end} other {# ends}} moved to meet} other {}}.',
          {
            isSized,
            maxX: length(maxX),
            maxY: length(maxY),
            pieces,
            cuts: cuts.length,
            outline: outline.length,
            isRepeated: repeated > 0,
            repeated,
            isJoined: joined > 0,
            joined,
          },
        )}
      </p>
      {left.length > 0 && (
        <p className="bring-in-left">
          <Icon name="caution" size={18} />
          <span>{phrase('Left out: {left}.', { left: left.join(', ') })}</span>
        </p>
      )}
    </div>
  );
}

/** More patches than this and how they are sewn is not worked out while the drawing is still being set. */
const QUICK_PATCHES = 200;

/** What the block will be to sew. */
function sewn(block: Block): string {
  const count = patchesOf(block).length;
  if (count === 0) return phrase('It cannot be divided into patches.');
  if (count === 1) return phrase('One patch, nothing to sew.');
  const patches = phrase('{count, plural, one {# patch} other {# patches}}', { count });
  if (count > QUICK_PATCHES)
    return phrase('{patches}. How they are sewn is worked out once the block is added.', { patches });
  const { foundations, isSetIn } = numbersOf(block);
  return isSetIn
    ? phrase('{patches}, with set-in seams.', { patches })
    : phrase('{patches}, sewn on {foundations, plural, one {# foundation} other {# foundations}}.', {
        patches,
        foundations,
      });
}
