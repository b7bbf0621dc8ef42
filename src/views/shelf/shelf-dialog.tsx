import { type FormEvent, useEffect, useId, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { addDrawnBlock, freeNameLike } from '../../document/add-drawn-block.ts';
import { nextBlockId } from '../../document/ids.ts';
import type { Fabric, Unit } from '../../document/project.ts';
import { drawnAt, heightAt, isCalled, SHELF, suggestFabrics } from '../../document/starters/shelf.ts';
import {
  type GridDrawing,
  type Parameter,
  type Starter,
  usualValues,
  type Values,
} from '../../document/starters/starter.ts';
import { MM_PER_IN } from '../../geometry/lattice.ts';
import { formatLength } from '../../geometry/length.ts';
import { midSentence, phrase } from '../../words/phrase.ts';
import { edit, say } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import {
  blockOf,
  knownNumbers,
  numbersOf,
  type StarterNumbers,
  workOutNext,
} from '../../workspace/starter-numbers.ts';
import { Dialog } from '../dialog.tsx';
import { LengthField, readSize } from '../length-field.tsx';
import { StarterPicture } from './starter-picture.tsx';

type Patches = 'any' | 'few' | 'some' | 'many';
type Foundations = 'any' | 'one' | 'several' | 'set-in';
type Order = 'name' | 'patches' | 'foundations';

const PATCHES: readonly (readonly [Patches, string])[] = [
  ['any', phrase('Patches: any')],
  ['few', phrase('Patches: up to 9')],
  ['some', phrase('Patches: 10 to 20')],
  ['many', phrase('Patches: over 20')],
];

const FOUNDATIONS: readonly (readonly [Foundations, string])[] = [
  ['any', phrase('Foundations: any')],
  ['one', phrase('Foundations: one')],
  ['several', phrase('Foundations: several')],
  ['set-in', phrase('Set-in seams')],
];

const ORDERS: readonly (readonly [Order, string])[] = [
  ['name', phrase('Order: name')],
  ['patches', phrase('Order: patches')],
  ['foundations', phrase('Order: foundations')],
];

const NO_FABRICS: readonly Fabric[] = [];

/** What the shelf opens on: one among the first, so that it is in sight as chosen, and that straight seams sew. */
const FIRST: Starter = SHELF.find(({ name }) => name === 'Basket weave') ?? SHELF[0]!;

/** Traditional blocks to begin with: found, set, looked at, and added as one step. */
export default function ShelfDialog({ onClose }: { readonly onClose: () => void }) {
  const unit = useStore(session, (state) => state.project.unit);
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const numbersKnown = useNumbers();
  const [search, setSearch] = useState('');
  const [patches, setPatches] = useState<Patches>('any');
  const [foundations, setFoundations] = useState<Foundations>('any');
  const [order, setOrder] = useState<Order>('name');
  const [chosen, setChosen] = useState<Starter>(FIRST);
  const [settings, setSettings] = useState<ReadonlyMap<Starter, Values>>(new Map());
  const [size, setSize] = useState(() => (unit === 'mm' ? '150 mm' : formatLength(6, unit)));
  const [isPainted, setPainted] = useState(true);
  const canPaint = suggestFabrics(fabrics) !== null;
  const shownFabrics = isPainted && canPaint ? fabrics : NO_FABRICS;

  const found = useMemo(
    () =>
      numbersKnown >= 0
        ? SHELF.filter((one) => isCalled(one, search) && hasNumbers(one, patches, foundations)).sort(
            (a, b) => placeOf(a, order) - placeOf(b, order),
          )
        : [],
    [numbersKnown, search, patches, foundations, order],
  );

  const values = settings.get(chosen) ?? usualValues(chosen.parameters);
  const drawing = useMemo(() => chosen.draw(values), [chosen, values]);
  const read = readSize(size, unit);

  const add = (event?: FormEvent): void => {
    event?.preventDefault();
    if (!read.ok) return;
    const name = freeNameLike(session.getState().project, chosen.name);
    const drawn = drawnAt(name, drawing, read.inches, shownFabrics);
    const blockId = nextBlockId(session.getState().project);
    onClose();
    edit(phrase('Add block from the shelf'), (project) => addDrawnBlock(project, drawn), {
      openBlock: blockId,
      select: [],
    });
    say(
      session.getState().blockId === blockId ? 'done' : 'trouble',
      session.getState().blockId === blockId
        ? phrase('Added ‘{name}’. Every line of it can be moved, as in a block of your own.', { name })
        : phrase(
            '‘{name}’ does not fit here: it would reach beyond what a block may, or the project is full.',
            { name },
          ),
    );
  };

  return (
    <Dialog title={phrase('From the shelf')} className="starter-dialog" onClose={onClose}>
      <form className="dialog-parts" onSubmit={add}>
        <div className="dialog-seen">
          <div className="starters-search">
            <input
              type="search"
              className="text-input"
              aria-label={phrase('Search by name')}
              placeholder={phrase('Search by name')}
              data-first-focus=""
              value={search}
              onChange={(event) => setSearch(event.target.value)}
              onKeyDown={(event) => {
                // Enter in the search looks at what is found first; it adds nothing yet.
                if (event.key !== 'Enter') return;
                event.preventDefault();
                if (found[0] !== undefined) setChosen(found[0]);
              }}
            />
            <Filter
              label={phrase('Number of patches')}
              options={PATCHES}
              value={patches}
              onChoose={setPatches}
            />
            <Filter
              label={phrase('Number of foundations')}
              options={FOUNDATIONS}
              value={foundations}
              onChoose={setFoundations}
            />
            <Filter label={phrase('Order')} options={ORDERS} value={order} onChoose={setOrder} />
          </div>
          <fieldset className="starters-grid">
            <legend className="only-heard">{phrase('Blocks on the shelf')}</legend>
            {found.length === 0 && (
              <p className="starters-none">
                {phrase(
                  'No block on the shelf matches. Try a part of a name, or any number of patches and foundations.',
                )}
              </p>
            )}
            {found.map((one) => (
              <label
                key={one.name}
                className="starter"
                onDoubleClick={() => {
                  if (one === chosen) add();
                }}
              >
                <input type="radio" name="starter" checked={one === chosen} onChange={() => setChosen(one)} />
                <StarterPicture drawing={drawingOf(one)} fabrics={shownFabrics} size={76} />
                <span className="starter-name">{one.name}</span>
                <span className="soft">{inNumbers(one)}</span>
              </label>
            ))}
          </fieldset>
          <p className="soft starters-count" role="status">
            {phrase('{found, plural, one {# block} other {# blocks}} of {shelf}', {
              found: found.length,
              shelf: SHELF.length,
            })}
          </p>
        </div>
        <div className="dialog-asked">
          <Preview
            name={chosen.name}
            drawing={drawing}
            fabrics={shownFabrics}
            alsoCalled={chosen.alsoCalled}
          />
          {Object.entries(chosen.parameters).map(([key, parameter]) => (
            <ParameterField
              key={`${chosen.name} ${key}`}
              parameter={parameter}
              value={values[key]!}
              onChange={(value) => setSettings(new Map(settings).set(chosen, { ...values, [key]: value }))}
            />
          ))}
          <LengthField label={phrase('Finished width')} unit={unit} text={size} onChange={setSize} />
          <p className="soft starter-size">{read.ok ? sizeSentence(drawing, read.inches, unit) : ''}</p>
          <label className="check-line">
            <input
              type="checkbox"
              checked={isPainted && canPaint}
              disabled={!canPaint}
              onChange={(event) => setPainted(event.target.checked)}
            />
            <span>
              {phrase('Lay fabrics of this project on it')}
              {!canPaint && <span className="soft"> {phrase('(it has fewer than two)')}</span>}
            </span>
          </label>
          <div className="buttons">
            <button type="submit" className="button button-main" aria-disabled={!read.ok}>
              {phrase('Add block')}
            </button>
            <button type="button" className="button" onClick={onClose}>
              {phrase('Cancel')}
            </button>
          </div>
        </div>
      </form>
    </Dialog>
  );
}

/** Works out the numbers a few milliseconds at a time, so that the dialog is there at once; gives how many it did. */
function useNumbers(): number {
  const [done, setDone] = useState(0);
  useEffect(() => {
    let timer = 0;
    const work = (): void => {
      const until = performance.now() + 12;
      let isMore = true;
      while (isMore && performance.now() < until) isMore = workOutNext();
      setDone((before) => before + 1);
      if (isMore) timer = window.setTimeout(work, 0);
    };
    timer = window.setTimeout(work, 0);
    return () => window.clearTimeout(timer);
  }, []);
  return done;
}

const drawings = new WeakMap<Starter, GridDrawing>();

/** The drawing with the usual settings: the one the numbers beside it are about. */
function drawingOf(starter: Starter): GridDrawing {
  const made = drawings.get(starter) ?? starter.draw(usualValues(starter.parameters));
  drawings.set(starter, made);
  return made;
}

function hasNumbers(starter: Starter, patches: Patches, foundations: Foundations): boolean {
  if (patches === 'any' && foundations === 'any') return true;
  const numbers = knownNumbers(starter);
  if (numbers === null) return false;
  const rightPatches =
    patches === 'any' || patches === (numbers.patches <= 9 ? 'few' : numbers.patches <= 20 ? 'some' : 'many');
  const kind: Foundations = numbers.isSetIn ? 'set-in' : numbers.foundations === 1 ? 'one' : 'several';
  return rightPatches && (foundations === 'any' || foundations === kind);
}

/** Those whose numbers are still being worked out, and those with set-in seams, come last. */
function placeOf(starter: Starter, order: Order): number {
  if (order === 'name') return 0;
  const numbers = knownNumbers(starter);
  if (numbers === null) return Number.MAX_SAFE_INTEGER;
  if (order === 'patches') return numbers.patches;
  return numbers.isSetIn ? 1e6 + numbers.foundations : numbers.foundations;
}

function inNumbers(starter: Starter): string {
  const numbers = knownNumbers(starter);
  return numbers === null ? '…' : numbersInWords(numbers);
}

const numbersInWords = ({ patches, foundations, isSetIn }: StarterNumbers): string =>
  phrase(
    '{patches, plural, one {# patch} other {# patches}}, {isSetIn, select, true {set-in seams} other {{foundations, plural, one {# foundation} other {# foundations}}}}',
    { patches, isSetIn, foundations },
  );

interface PreviewProps {
  readonly name: string;
  readonly alsoCalled: readonly string[];
  readonly drawing: GridDrawing;
  readonly fabrics: readonly Fabric[];
}

/** The block as it would be added. */
function Preview({ name, alsoCalled, drawing, fabrics }: PreviewProps) {
  const block = useMemo(() => blockOf(drawnAt(name, drawing, 6)), [name, drawing]);
  return (
    <div className="starter-preview">
      <StarterPicture drawing={drawing} fabrics={fabrics} size={208} isBare={fabrics.length === 0} />
      <h3>{name}</h3>
      <p className="soft">{numbersInWords(numbersOf(block))}</p>
      {alsoCalled.length > 0 && (
        <p className="soft">
          {phrase('Also called {alsoCalled}', { alsoCalled: alsoCalled.map(midSentence).join(', ') })}
        </p>
      )}
    </div>
  );
}

interface FilterProps<Value extends string> {
  readonly label: string;
  readonly options: readonly (readonly [Value, string])[];
  readonly value: Value;
  readonly onChoose: (value: Value) => void;
}

function Filter<Value extends string>({ label, options, value, onChoose }: FilterProps<Value>) {
  return (
    <select
      aria-label={label}
      value={value}
      onChange={(event) => {
        const picked = options.find(([option]) => option === event.target.value);
        if (picked) onChoose(picked[0]);
      }}
    >
      {options.map(([option, text]) => (
        <option key={option} value={option}>
          {text}
        </option>
      ))}
    </select>
  );
}

interface ParameterFieldProps {
  readonly parameter: Parameter;
  readonly value: number | string;
  readonly onChange: (value: number | string) => void;
}

function ParameterField({ parameter, value, onChange }: ParameterFieldProps) {
  const id = useId();
  if (parameter.kind === 'choice')
    return (
      <div className="length-field">
        <label htmlFor={id}>{parameter.label}</label>
        <select id={id} value={value} onChange={(event) => onChange(event.target.value)}>
          {parameter.ways.map(([way, text]) => (
            <option key={way} value={way}>
              {text}
            </option>
          ))}
        </select>
      </div>
    );
  return (
    <div className="length-field">
      <label htmlFor={id}>
        {phrase('{label} ({least} to {most})', {
          label: parameter.label,
          least: parameter.least,
          most: parameter.most,
        })}
      </label>
      <div className="count-field">
        <input
          id={id}
          type="range"
          min={parameter.least}
          max={parameter.most}
          value={value}
          onChange={(event) => onChange(Number(event.target.value))}
        />
        <output htmlFor={id}>{value}</output>
      </div>
    </div>
  );
}

function sizeSentence(drawing: GridDrawing, widthIn: number, unit: Unit): string {
  const heightIn = heightAt(drawing, widthIn);
  const words = (value: number) => formatLength(Math.round(value * 64) / 64, unit);
  const metric =
    unit === 'mm'
      ? ''
      : phrase(' ({widthIn} by {heightIn} mm)', {
          widthIn: (widthIn * MM_PER_IN).toFixed(0),
          heightIn: (heightIn * MM_PER_IN).toFixed(0),
        });
  return phrase('Finished size {words} by {words2}{metric}.', {
    words: words(widthIn),
    words2: words(heightIn),
    metric,
  });
}
