import { type FormEvent, useEffect, useId, useState } from 'react';
import { useStore } from 'zustand';
import { chosenPart, drawPart } from '../../board/clipboard.ts';
import { targetNow } from '../../board/target.ts';
import { takeUp } from '../../board/tool-in-hand.ts';
import { boxOfPart, type Part, partAt } from '../../editing/part.ts';
import { formatLength } from '../../geometry/length.ts';
import { boxOf } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { say } from '../../workspace/actions.ts';
import { download } from '../../workspace/files.ts';
import {
  keepMotif,
  keepMotifsOf,
  listMotifs,
  type Motif,
  motifsToText,
  setMotifDeleted,
} from '../../workspace/motifs.ts';
import { session } from '../../workspace/session.ts';
import { Dialog } from '../dialog.tsx';
import { FileButton } from '../file-button.tsx';
import { LengthField, readSize } from '../length-field.tsx';

/** Parts of drawings kept under a name, for every project of this browser: kept, looked at, placed, taken off. */
export default function MotifDialog({ onClose }: { readonly onClose: () => void }) {
  const unit = useStore(session, (state) => state.project.unit);
  const [offered] = useState(chosenPart);
  const [motifs, setMotifs] = useState<readonly Motif[] | null>(null);
  const [chosenId, setChosenId] = useState<string | null>(null);
  const [width, setWidth] = useState('');
  const radios = useId();
  const here = motifs?.filter(({ deleted }) => deleted === undefined) ?? [];
  const gone = motifs?.filter(({ deleted }) => deleted !== undefined) ?? [];
  const chosen = here.find(({ id }) => id === chosenId) ?? here[0] ?? null;
  const read = readSize(width, unit);

  const choose = (motif: Motif | undefined): void => {
    setChosenId(motif?.id ?? null);
    if (motif !== undefined) setWidth(formatLength(usualWidth(motif.part), unit));
  };
  /** Does something to the shelf and looks at it again; says so where the browser refuses. */
  const change = async (act: () => Promise<unknown>): Promise<void> => {
    try {
      await act();
      const all = await listMotifs();
      setMotifs(all);
      if (chosenId === null || !all.some(({ id, deleted }) => id === chosenId && deleted === undefined))
        choose(all.find(({ deleted }) => deleted === undefined));
    } catch {
      setMotifs((before) => before ?? []);
      say(
        'trouble',
        phrase('This browser keeps nothing here, so motifs cannot be kept. Export them instead.'),
      );
    }
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: looked at once, when it opens.
  useEffect(() => void change(async () => undefined), []);

  const place = (event: FormEvent): void => {
    event.preventDefault();
    const target = targetNow();
    if (chosen === null || !read.ok || target === null) return;
    onClose();
    const { minX, minY, maxX, maxY } = boxOf(target.block.outline);
    const middle = target.crosshair ?? [(minX + maxX) / 2, (minY + maxY) / 2];
    takeUp('select');
    if (drawPart(phrase('Place motif'), partAt(chosen.part, read.inches, middle)))
      say(
        'done',
        phrase('‘{name}’ is placed and chosen: drag it, turn it or size it by its handles.', {
          name: chosen.name,
        }),
      );
  };

  return (
    <Dialog title={phrase('Motifs')} className="motif-dialog" onClose={onClose}>
      {offered !== null && (
        <Offered part={offered} onKeep={(name) => change(() => keepMotif(name, offered))} />
      )}
      {here.length === 0 ? (
        <p className="soft motifs-none" role="status">
          {motifs === null
            ? phrase('Looking …')
            : phrase(
                'Nothing is kept yet. Choose lines of a drawing, such as all of a window or a wing, open this again and keep them under a name: every project in this browser can use them.',
              )}
        </p>
      ) : (
        <form className="motif-place" onSubmit={place}>
          <fieldset className="motifs">
            <legend className="only-heard">{phrase('Kept motifs')}</legend>
            {here.map((motif) => (
              <label key={motif.id} className="shape motif">
                <input type="radio" name={radios} checked={motif === chosen} onChange={() => choose(motif)} />
                <PartPicture part={motif.part} size={84} />
                <span>{motif.name}</span>
              </label>
            ))}
          </fieldset>
          <LengthField label={phrase('Width')} unit={unit} text={width} onChange={setWidth} />
          <div className="buttons">
            <button
              type="submit"
              className="button button-main"
              aria-disabled={!read.ok || targetNow() === null}
            >
              {phrase('Place')}
            </button>
            <button
              type="button"
              className="button"
              onClick={() => chosen !== null && change(() => setMotifDeleted(chosen, true))}
            >
              {phrase('Delete')}
            </button>
            <button
              type="button"
              className="button"
              onClick={() =>
                download('motifs.json', new Blob([motifsToText(here)], { type: 'application/json' }))
              }
            >
              {phrase('Export all')}
            </button>
          </div>
        </form>
      )}
      <div className="buttons">
        <FileButton
          label={phrase('Import…')}
          accept=".json,application/json"
          onFile={async (file) => {
            const text = await file.text();
            change(() => importFrom(text));
          }}
        />
        {gone.map((motif) => (
          <button
            key={motif.id}
            type="button"
            className="button"
            onClick={() => change(() => setMotifDeleted(motif, false))}
          >
            {phrase('Bring back ‘{name}’', { name: motif.name })}
          </button>
        ))}
      </div>
    </Dialog>
  );
}

async function importFrom(text: string): Promise<void> {
  const count = await keepMotifsOf(text);
  if (count === null) say('trouble', phrase('That file holds no motifs. Nothing has changed.'));
  else say('done', phrase('{count, plural, one {# motif} other {# motifs}} imported.', { count }));
}

function usualWidth(part: Part): number {
  const { minX, maxX } = boxOfPart(part);
  return Math.max(1 / 4, Math.round((maxX - minX) * 64) / 64);
}

/** What is chosen on the board, to be kept under a name. */
function Offered({
  part,
  onKeep,
}: {
  readonly part: Part;
  readonly onKeep: (name: string) => Promise<void>;
}) {
  const [name, setName] = useState('');
  const [isKept, setKept] = useState(false);
  const id = useId();
  return (
    <form
      className="motif-offered"
      onSubmit={(event) => {
        event.preventDefault();
        if (name.trim() === '') return;
        void onKeep(name).then(() => setKept(true));
      }}
    >
      <PartPicture part={part} size={84} />
      <div className="length-field">
        <label htmlFor={id}>{phrase('Keep what is chosen as')}</label>
        <input
          id={id}
          className="text-input"
          value={name}
          maxLength={200}
          autoComplete="off"
          data-first-focus=""
          onChange={(event) => {
            setName(event.target.value);
            setKept(false);
          }}
        />
        <span className="soft motif-kept" role="status">
          {isKept ? phrase('Kept.') : ''}
        </span>
      </div>
      <button type="submit" className="button" aria-disabled={name.trim() === '' || isKept}>
        {phrase('Keep')}
      </button>
    </form>
  );
}

/** A part of a drawing, small: its fabrics and its lines. */
export function PartPicture({ part, size }: { readonly part: Part; readonly size: number }) {
  const { minX, minY, maxX, maxY } = boxOfPart(part);
  const extent = Math.max(maxX - minX, maxY - minY, 1 / 64);
  const line = extent / size;
  const left = (minX + maxX - extent) / 2 - 3 * line;
  const top = (minY + maxY - extent) / 2 - 3 * line;
  return (
    <svg
      className="motif-picture"
      width={size}
      height={size}
      viewBox={`${left} ${top} ${extent + 6 * line} ${extent + 6 * line}`}
      aria-hidden="true"
    >
      {part.patches.map(({ ring, fabric }) => (
        <polygon
          key={ring.join(' ')}
          points={ring.map((at) => at.join(',')).join(' ')}
          fill={part.fabrics[fabric]?.color}
        />
      ))}
      <path
        d={part.cuts.map(({ from, to }) => `M${from.join(' ')}L${to.join(' ')}`).join('')}
        fill="none"
        stroke="var(--sheet-ink)"
        strokeWidth={1.2 * line}
        strokeLinecap="round"
      />
    </svg>
  );
}
