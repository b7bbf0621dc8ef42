import { type FormEvent, useId, useState } from 'react';
import { useStore } from 'zustand';
import { board } from '../../board/board-state.ts';
import { takeUp } from '../../board/tool-in-hand.ts';
import { addBlock } from '../../document/edit-block.ts';
import { nextBlockId } from '../../document/ids.ts';
import { checkName } from '../../document/limits.ts';
import { type OutlineShape, outlineOf } from '../../document/outline.ts';
import type { Unit } from '../../document/project.ts';
import { MM_PER_IN } from '../../geometry/lattice.ts';
import { formatLength } from '../../geometry/length.ts';
import type { Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { freeBlockName } from '../../workspace/commands.ts';
import { session } from '../../workspace/session.ts';
import { Dialog } from '../dialog.tsx';
import { LengthField, readSize } from '../length-field.tsx';

type Shape = OutlineShape['kind'] | 'drawn';

interface ShapeEntry {
  readonly shape: Shape;
  readonly label: string;
  /** What its sizes are called. */
  readonly sizes: readonly string[];
  /** Its outline, from as many sizes. */
  readonly outline: (sizes: readonly number[]) => Ring;
}

const SHAPES: readonly ShapeEntry[] = [
  {
    shape: 'square',
    label: phrase('Square'),
    sizes: [phrase('Side')],
    outline: ([side = 1]) => outlineOf({ kind: 'square', side }),
  },
  {
    shape: 'rectangle',
    label: phrase('Rectangle'),
    sizes: ['Width', 'Height'],
    outline: ([width = 1, height = 1]) => outlineOf({ kind: 'rectangle', width, height }),
  },
  {
    shape: 'triangle',
    label: phrase('Triangle'),
    sizes: [phrase('Side')],
    outline: ([side = 1]) => outlineOf({ kind: 'triangle', side }),
  },
  {
    shape: 'hexagon',
    label: phrase('Hexagon'),
    sizes: [phrase('Side')],
    outline: ([side = 1]) => outlineOf({ kind: 'hexagon', side }),
  },
  {
    shape: 'octagon',
    label: phrase('Octagon'),
    sizes: ['Width'],
    outline: ([width = 1]) => outlineOf({ kind: 'octagon', width }),
  },
  { shape: 'drawn', label: phrase('By points'), sizes: [], outline: () => IRREGULAR },
];

const IRREGULAR: Ring = [
  [0.5, 0.6],
  [2.1, 0],
  [3, 1.5],
  [1.7, 3],
  [0, 2.2],
];

/** Sizes a dialog begins with: common finished sizes. */
const usualSizes = (unit: Unit): readonly [string, string] =>
  unit === 'mm' ? ['150 mm', '200 mm'] : [formatLength(6, unit), formatLength(9, unit)];

/** Asks for shape, size and name of a block, shows what it will be, and adds it. */
export default function NewBlockDialog({ onClose }: { readonly onClose: () => void }) {
  const unit = useStore(session, (state) => state.project.unit);
  const [name, setName] = useState(() => freeBlockName(session.getState().project));
  const [shape, setShape] = useState<Shape>('square');
  const [sizes, setSizes] = useState(usualSizes(unit));
  const nameId = useId();
  const entry = SHAPES.find((one) => one.shape === shape)!;
  const read = entry.sizes.map((_, index) => readSize(sizes[index]!, unit));
  const inches = read.flatMap((one) => (one.ok ? [one.inches] : []));
  const checkedName = checkName(name);
  const isSound = inches.length === entry.sizes.length && checkedName.ok;

  const submit = (event: FormEvent): void => {
    event.preventDefault();
    if (!isSound) return;
    onClose();
    if (shape === 'drawn') {
      // It is drawn on next, by keyboard too; the dialog gives the keyboard back first.
      requestAnimationFrame(() => document.querySelector<HTMLElement>('.drawing-board')?.focus());
      takeUp('outline', { kind: 'new-block', name: checkedName.value });
      return;
    }
    const blockId = nextBlockId(session.getState().project);
    edit(
      phrase('Add block'),
      (project) => addBlock(project, { name: checkedName.value, outline: entry.outline(inches) }),
      {
        openBlock: blockId,
        select: [],
      },
    );
    takeUp('cut');
  };

  return (
    <Dialog title={phrase('Add a block')} className="new-block" onClose={onClose}>
      <form onSubmit={submit}>
        <fieldset className="shapes">
          <legend className="only-heard">{phrase('Shape')}</legend>
          {SHAPES.map((one) => (
            <label key={one.shape} className="shape">
              <input
                type="radio"
                name="shape"
                data-first-focus={one.shape === shape ? '' : undefined}
                checked={one.shape === shape}
                onChange={() => setShape(one.shape)}
              />
              <ShapePicture outline={one.outline([3, 2])} isDrawn={one.shape === 'drawn'} />
              <span>{one.label}</span>
            </label>
          ))}
        </fieldset>
        <div className="new-block-fields">
          <div className="length-field">
            <label htmlFor={nameId}>{phrase('Name')}</label>
            <input
              id={nameId}
              className="text-input"
              value={name}
              autoComplete="off"
              aria-invalid={!checkedName.ok}
              onChange={(event) => setName(event.target.value)}
            />
            <span className="field-fault">{checkedName.ok ? '' : checkedName.error}</span>
          </div>
          {entry.sizes.map((label, index) => (
            <LengthField
              key={label}
              label={label}
              unit={unit}
              text={sizes[index]!}
              onChange={(text) => setSizes(index === 0 ? [text, sizes[1]] : [sizes[0], text])}
            />
          ))}
        </div>
        <p className="soft">{sizeSentence(entry, inches, unit)}</p>
        <div className="buttons">
          <button type="submit" className="button button-main" aria-disabled={!isSound}>
            {shape === 'drawn' ? phrase('Draw it') : phrase('Add block')}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {phrase('Cancel')}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

function sizeSentence({ shape, sizes, outline }: ShapeEntry, inches: readonly number[], unit: Unit): string {
  if (shape === 'drawn')
    return board.getState().isFinger
      ? phrase('Tap corner after corner on the sheet and close on the first one.')
      : phrase('Click corner after corner on the sheet and close on the first one.');
  if (inches.length < sizes.length) return phrase('Sizes are finished sizes, such as 6, 3 5/8 or 92 mm.');
  const { maxX, maxY } = boxOf(outline(inches));
  const words = (value: number) => formatLength(Math.round(value * 64) / 64, unit);
  return phrase(
    'Finished size {words} by {words2}{unit, select, mm {} other { ({maxX} by {maxY} mm)}}. The seam allowance is added on paper.',
    {
      words: words(maxX),
      words2: words(maxY),
      unit,
      maxX: (maxX * MM_PER_IN).toFixed(0),
      maxY: (maxY * MM_PER_IN).toFixed(0),
    },
  );
}

function ShapePicture({ outline, isDrawn }: { readonly outline: Ring; readonly isDrawn: boolean }) {
  const { maxX, maxY } = boxOf(outline);
  const extent = Math.max(maxX, maxY) * 1.16;
  const points = outline.map(([x, y]) => `${x + (extent - maxX) / 2},${y + (extent - maxY) / 2}`);
  return (
    <svg
      className="shape-picture"
      width={44}
      height={44}
      viewBox={`0 0 ${extent} ${extent}`}
      aria-hidden="true"
    >
      <polygon points={points.join(' ')} />
      {isDrawn &&
        points.map((point) => {
          const [x, y] = point.split(',');
          return <circle key={point} cx={x} cy={y} r={extent / 18} />;
        })}
    </svg>
  );
}
