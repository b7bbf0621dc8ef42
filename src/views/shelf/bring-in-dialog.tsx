import { type FormEvent, useId, useState } from 'react';
import { useStore } from 'zustand';
import { addDrawnBlock, freeNameLike } from '../../document/add-drawn-block.ts';
import { nextBlockId } from '../../document/ids.ts';
import type { StatedSize } from '../../document/import-svg/read-svg.ts';
import type { OutlineChoice, Scale } from '../../document/import-svg/to-block.ts';
import { checkName, NAME_LENGTH } from '../../document/limits.ts';
import type { Unit } from '../../document/project.ts';
import { formatLength, parseLength } from '../../geometry/length.ts';
import { perCent } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import { edit, say } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { Dialog } from '../dialog.tsx';
import { LengthField, readSize } from '../length-field.tsx';
import { DrawingPicture, DrawingWords } from './understood-drawing.tsx';
import { useDrawing } from './use-drawing.ts';

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
  const [typedScale, setScaleChoice] = useState<ScaleChoice | null>(null);
  const [width, setWidth] = useState(() => (unit === 'mm' ? '150 mm' : formatLength(6, unit)));
  const nameId = useId();
  const outlineId = useId();
  const chordsId = useId();
  const scaleName = useId();

  const joinRead = parseLength(join, unit);
  const widthRead = readSize(width, unit);
  const widthIn = widthRead.ok ? widthRead.inches : null;
  const joinWithin = joinRead.ok ? Math.max(0, Math.min(joinRead.inches, 1)) : 0;
  const scale: Scale =
    typedScale === 'width' && widthIn !== null
      ? { kind: 'width', inches: widthIn }
      : { kind: 'per-inch', pixels: Number(typedScale === 'width' ? 96 : (typedScale ?? 96)) };
  const { understood, share } = useDrawing(
    fileName,
    text,
    { chords, scale, joinWithin, ...(outline && { outline }) },
    onClose,
  );
  const stated = understood?.stated ?? 'true';
  // A file that says nothing of its size is asked about, not guessed at.
  const scaleChoice = typedScale ?? (stated === 'none' ? null : '96');
  const imported = understood?.made.ok ? understood.made.block : null;
  const checkedName = checkName(name);
  const isSized = scaleChoice !== null && (scaleChoice !== 'width' || widthRead.ok);
  const isSound = imported !== null && share === null && checkedName.ok && joinRead.ok && isSized;

  const add = (event: FormEvent): void => {
    event.preventDefault();
    if (!isSound) return;
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
              {understood === null
                ? phrase('Reading the drawing … {share}', { share: perCent(share ?? 0) })
                : understood.made.ok
                  ? ''
                  : understood.made.error}
            </p>
          ) : (
            <DrawingPicture imported={imported} />
          )}
          {understood !== null && imported !== null && (
            <DrawingWords understood={understood} imported={imported} unit={unit} isSized={isSized} />
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
          {understood !== null && understood.curves > 0 && (
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
