import {
  type AtHand,
  checkStockLength,
  checkWidth,
  type PiecesAtHand,
  readPrice,
} from '../../document/cloth.ts';
import { type ClothChange, updateCloth } from '../../document/edit-cloth.ts';
import { updateFabric } from '../../document/edit-fabrics.ts';
import { readClothLength } from '../../document/fabric-csv.ts';
import type { Fabric, Unit } from '../../document/project.ts';
import { formatLength, parseLength } from '../../geometry/length.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { ActButton } from '../act-button.tsx';
import { Choice } from '../choice.tsx';
import { NameField } from '../name-field.tsx';
import { KeptField } from './kept-field.tsx';
import { bothWords } from './words.ts';

interface ClothCardProps {
  readonly fabric: Fabric;
  readonly unit: Unit;
  /** Width used where the fabric has none of its own, inches. */
  readonly usualWidth: number;
}

/** Sizes that cloth is sold in besides off the bolt: common practice. Usable inches. */
const PRECUTS: readonly PiecesAtHand[] = [
  { name: phrase('Fat quarter'), width: 21, height: 18, count: 1 },
  { name: phrase('Fat eighth'), width: 21, height: 9, count: 1 },
  { name: phrase('Strip 2 1/2 in (64 mm)'), width: 42, height: 2.5, count: 1 },
  { name: phrase('Square 10 in (254 mm)'), width: 10, height: 10, count: 1 },
  { name: phrase('Square 5 in (127 mm)'), width: 5, height: 5, count: 1 },
];

/** What is known of a fabric: all of it may be left open. */
export function ClothCard({ fabric, unit, usualWidth }: ClothCardProps) {
  const change = (label: string, to: ClothChange): void =>
    edit(label, (project) => updateCloth(project, fabric.id, to));
  const { atHand, price } = fabric;
  const per = price?.per ?? (unit === 'mm' ? 'metre' : 'yard');
  return (
    <section className="cloth-card" aria-labelledby="cloth-title">
      <h2 id="cloth-title" className="panel-title">
        {phrase('The fabric')}
      </h2>
      <div className="cloth-card-name">
        <input
          type="color"
          aria-label={phrase('Colour of {fabric}', { fabric: fabric.name })}
          value={fabric.color}
          onChange={(event) =>
            edit(
              phrase('Change a colour'),
              (project) => updateFabric(project, fabric.id, { color: event.target.value }),
              {
                merge: `colour ${fabric.id}`,
              },
            )
          }
        />
        <NameField
          label={phrase('Name of the fabric')}
          name={fabric.name}
          onRename={(name) =>
            edit(phrase('Rename a fabric'), (project) => updateFabric(project, fabric.id, { name }))
          }
        />
      </div>
      <div className="fabric-pair">
        <KeptField
          label={phrase('Code')}
          text={fabric.code ?? ''}
          hint={phrase('maker’s number')}
          onKeep={(code) => change(phrase('Change the code'), { code: code === '' ? null : code })}
        />
        <KeptField
          label={phrase('Usable width')}
          text={fabric.width === undefined ? '' : formatLength(fabric.width, unit)}
          hint={formatLength(usualWidth, unit)}
          fault={(text) => {
            if (text.trim() === '') return null;
            const parsed = parseLength(text, unit);
            const checked = parsed.ok ? checkWidth(parsed.inches) : parsed;
            return checked.ok ? null : checked.error;
          }}
          onKeep={(text) => {
            const parsed = parseLength(text, unit);
            change(phrase('Change the usable width'), {
              width: text === '' || !parsed.ok ? null : parsed.inches,
            });
          }}
        />
      </div>
      <Choice
        label={phrase('Straight grain')}
        options={[
          ['seam', phrase('Along the seam')],
          ['block', phrase('With the block')],
          ['directional', phrase('Upright')],
        ]}
        value={fabric.directional === true ? 'directional' : (fabric.grain ?? 'seam')}
        onChoose={(grain) =>
          change(phrase('Change the grain'), {
            directional: grain === 'directional',
            grain: grain === 'block' ? 'block' : null,
          })
        }
      />
      <div className="fabric-pair">
        <KeptField
          label={phrase('Price per {per, select, yard {yard} other {metre}}', { per })}
          text={price === undefined ? '' : price.amount.toFixed(2)}
          hint="12.50"
          fault={(text) => {
            if (text.trim() === '') return null;
            const read = readPrice(text);
            return read.ok ? null : read.error;
          }}
          onKeep={(text) => {
            const read = readPrice(text);
            change(phrase('Change the price'), {
              price: text === '' || !read.ok ? null : { amount: read.value, per },
            });
          }}
        />
        <KeptField
          label={phrase('At hand, off the bolt')}
          text={atHand?.length === undefined ? '' : formatLength(atHand.length, unit)}
          hint={unit === 'mm' ? '0.5 m' : '1 1/2 yd'}
          fault={(text) => {
            if (text.trim() === '') return null;
            const parsed = readClothLength(text, unit);
            const checked = parsed.ok ? checkStockLength(parsed.inches) : parsed;
            return checked.ok ? null : checked.error;
          }}
          onKeep={(text) => {
            const parsed = readClothLength(text, unit);
            const { length: _, ...others } = atHand ?? {};
            change(phrase('Change what is at hand'), {
              atHand: tidied(text === '' || !parsed.ok ? others : { ...others, length: parsed.inches }),
            });
          }}
        />
      </div>
      <AtHandList
        fabric={fabric}
        unit={unit}
        onChange={(next) => change(phrase('Change what is at hand'), { atHand: next })}
      />
      <KeptField
        label={phrase('Notes')}
        text={fabric.notes ?? ''}
        isLong
        onKeep={(notes) => change(phrase('Change the notes'), { notes: notes === '' ? null : notes })}
      />
    </section>
  );
}

/** Nothing at hand is no entry at all. */
const tidied = (atHand: AtHand): AtHand | null =>
  atHand.length === undefined && (atHand.pieces ?? []).length === 0 ? null : atHand;

interface AtHandListProps {
  readonly fabric: Fabric;
  readonly unit: Unit;
  readonly onChange: (atHand: AtHand | null) => void;
}

function AtHandList({ fabric, unit, onChange }: AtHandListProps) {
  const pieces = fabric.atHand?.pieces ?? [];
  const set = (next: readonly PiecesAtHand[]): void => {
    const { pieces: _, ...others } = fabric.atHand ?? {};
    onChange(tidied(next.length === 0 ? others : { ...others, pieces: next }));
  };
  const countIn = (i: number, by: number): void =>
    set(
      pieces
        .map((piece, k) => (k === i ? { ...piece, count: piece.count + by } : piece))
        .filter(({ count }) => count > 0),
    );
  return (
    <div className="at-hand">
      <h3>{phrase('Pieces at hand')}</h3>
      {pieces.map((piece, i) => {
        const words = `${piece.name ?? phrase('Scrap')}, ${bothWords(piece.width, piece.height, unit)}`;
        return (
          <div key={`${piece.name} ${piece.width} ${piece.height}`} className="at-hand-row">
            <span className="at-hand-words">{words}</span>
            <ActButton
              icon="minus"
              size={16}
              label={phrase('One fewer: {words}', { words })}
              act={() => countIn(i, -1)}
            />
            <b>{piece.count}</b>
            <ActButton
              icon="plus"
              size={16}
              label={phrase('One more: {words}', { words })}
              act={() => countIn(i, 1)}
            />
          </div>
        );
      })}
      <div className="at-hand-add">
        <label className="only-heard" htmlFor="precut">
          {phrase('Add a precut')}
        </label>
        <select
          id="precut"
          value=""
          onChange={(event) => {
            const precut = PRECUTS.find(({ name }) => name === event.target.value);
            const known = pieces.findIndex(({ name }) => name === precut?.name);
            if (known >= 0) countIn(known, 1);
            else if (precut) set([...pieces, precut]);
          }}
        >
          <option value="">{phrase('Add a precut …')}</option>
          {PRECUTS.map(({ name }) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
        <KeptField
          label={phrase('Or a scrap, such as 7 x 9')}
          text=""
          fault={(text) =>
            text.trim() === '' || readScrap(text, unit) ? null : phrase('Two lengths with an x between.')
          }
          onKeep={(text) => {
            const scrap = readScrap(text, unit);
            if (scrap) set([...pieces, scrap]);
          }}
        />
      </div>
    </div>
  );
}

function readScrap(text: string, unit: Unit): PiecesAtHand | null {
  const [one = '', other = '', more] = text.split(/[x×]/i);
  const [a, b] = [parseLength(one, unit), parseLength(other, unit)];
  return more === undefined && a.ok && b.ok && a.inches > 0 && b.inches > 0
    ? { width: a.inches, height: b.inches, count: 1 }
    : null;
}
