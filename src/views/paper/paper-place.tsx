import './paper.css';
import { useMemo } from 'react';
import { useStore } from 'zustand';
import { blocksToMake } from '../../document/turned-over.ts';
import type { PrintNote } from '../../foundations/print-work.ts';
import { phrase } from '../../words/phrase.ts';
import { goTo } from '../../workspace/actions.ts';
import { plansToCome } from '../../workspace/making.ts';
import { chosenCopies, paperSettings, readChosenPage, readMargin } from '../../workspace/paper-settings.ts';
import type { LaidOut } from '../../workspace/pdf-client.ts';
import { printers } from '../../workspace/printers.ts';
import { session, shownProject } from '../../workspace/session.ts';
import { Choice } from '../choice.tsx';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';
import { BlockChoice } from './block-choice.tsx';
import { JoinOffers } from './join-offers.tsx';
import { LayingChoice } from './laying-choice.tsx';
import { PageChoice } from './page-choice.tsx';
import { PartChoice } from './part-choice.tsx';
import { PrintActs } from './print-acts.tsx';
import { printOrder } from './print-order.ts';
import { PrinterChoice } from './printer-choice.tsx';
import { SheetPreview } from './sheet-preview.tsx';
import { useLayout } from './use-layout.ts';

/** The Paper place: the sheets as they will print, and what is printed how. */
export default function PaperPlace() {
  const project = useStore(session, shownProject);
  const openBlock = useStore(session, (state) => state.blockId);
  const settings = useStore(paperSettings);
  const { parts, zoom } = settings;

  const chosen = useMemo(() => chosenCopies(project, openBlock), [project, openBlock]);
  const page = readChosenPage(settings, project.unit);
  const margin = readMargin(settings, project.unit, page.ok ? page.value : null);

  useStore(plansToCome);
  const { order, toCome } = printOrder(project, openBlock, settings, useStore(printers));
  const { layout, isBusy: isLaying, failure } = useLayout(order);
  const isBusy = isLaying || toCome > 0;
  const shown = order === null ? null : layout;
  const isWhole = shown?.stage === 'whole';
  // The sheets of an earlier order, until those of the newest are there.
  const isOld = isWhole && isBusy;
  const isEmpty = project.blocks.length === 0;

  return (
    <main className="paper-place">
      <section
        className="paper-desk"
        aria-label={phrase('Sheets')}
        aria-busy={isBusy}
        data-layout={shown?.number ?? ''}
      >
        {shown && shown.sheets.length > 0 && (
          <div className="paper-zoom">
            <p className="paper-side">
              {sideSentence(shown)}
              {isOld && (
                <span className="updating">
                  <Icon name="updating" size={14} /> {phrase('being updated')}
                </span>
              )}
            </p>
            <Choice
              label={phrase('Show the sheets')}
              isLabelShown={false}
              options={[
                ['overview', phrase('At a glance')],
                ['page', phrase('Large')],
                ['true-size', phrase('True size')],
              ]}
              value={zoom}
              onChoose={(next) => paperSettings.setState({ zoom: next })}
            />
          </div>
        )}
        {shown && shown.sheets.length > 0 ? (
          <SheetPreview layout={shown} zoom={zoom} isOld={isOld} />
        ) : (
          <NoSheets
            isEmpty={isEmpty}
            isBusy={isBusy}
            isChosen={chosen.size > 0}
            isPageReady={page.ok && margin.ok}
            failure={failure}
          />
        )}
      </section>
      <div className="paper-panel">
        <section className="paper-sum" aria-labelledby="paper-title">
          <h2 id="paper-title" className="panel-title">
            {phrase('Foundations on paper')}
          </h2>
          <p className="paper-count" role="status">
            {isWhole && shown.sheets.length > 0
              ? countSentence(shown)
              : toCome > 0
                ? phrase(
                    'Working out how {toCome, plural, one {# more block} other {# more blocks}} can be sewn …',
                    { toCome },
                  )
                : isBusy
                  ? phrase('Laying out the sheets …')
                  : phrase('No sheets yet')}
          </p>
          <PrintActs
            projectName={project.name}
            isDisabled={isBusy || shown === null || shown.sheets.length === 0}
          />
          {shown && shown.sheets.length > 0 && (
            <p className="paper-hint">
              {project.unit === 'mm'
                ? phrase(
                    'Print at actual size, 100%. Before you sew, measure the square on each sheet: 25.4 mm across and down. If it shows 23.8 mm, the viewer shrank the page to fit.',
                  )
                : phrase(
                    'Print at actual size, 100%. Before you sew, measure the square on each sheet: 1 in across and down. If it shows 15/16 in, the viewer shrank the page to fit.',
                  )}
            </p>
          )}
        </section>
        {shown && shown.notes.length > 0 && <Notes notes={shown.notes} />}
        {isWhole && <JoinOffers notes={shown.notes} project={project} />}
        {!isEmpty && <PartChoice parts={parts} />}
        {!isEmpty && <BlockChoice blocks={blocksToMake(project, chosen)} copies={chosen} />}
        <PageChoice settings={settings} unit={project.unit} page={page} margin={margin} />
        <LayingChoice settings={settings} />
        <PrinterChoice />
      </div>
    </main>
  );
}

const countSentence = ({ foundations, sheets, parts }: LaidOut): string => {
  if (!parts.has('foundations'))
    return phrase('{sheets, plural, one {# sheet} other {# sheets}}', { sheets: sheets.length });
  const papers = phrase('{foundations, plural, one {# foundation} other {# foundations}}', { foundations });
  return parts.size === 1
    ? phrase('{papers} on {sheets, plural, one {# sheet} other {# sheets}}', {
        papers,
        sheets: sheets.length,
      })
    : phrase('{papers}, {sheets, plural, one {# sheet} other {# sheets}} in all', {
        papers,
        sheets: sheets.length,
      });
};

/** What the sheets on show show, said once over them. */
function sideSentence({ parts, side }: LaidOut): string {
  if (!parts.has('foundations')) return phrase('Not mirrored: as the finished front is seen');
  if (parts.size === 1)
    return side === 'printed'
      ? phrase('Printed side: the mirror image of the front')
      : phrase('Front: not mirrored');
  return side === 'printed'
    ? phrase('Foundations show the printed side, the mirror image of the front')
    : phrase('Foundations show the front, not mirrored');
}

interface NoSheetsProps {
  readonly isEmpty: boolean;
  readonly isBusy: boolean;
  readonly isChosen: boolean;
  readonly isPageReady: boolean;
  readonly failure: string | null;
}

function NoSheets({ isEmpty, isBusy, isChosen, isPageReady, failure }: NoSheetsProps) {
  if (failure !== null) return <p className="paper-empty">{failure}</p>;
  if (isEmpty)
    return (
      <div className="paper-empty">
        <p>{phrase('There is no block to print yet.')}</p>
        <button type="button" className="button" onClick={() => goTo('block')}>
          {phrase('Draw a block')}
        </button>
      </div>
    );
  if (!isChosen)
    return <p className="paper-empty">{phrase('Choose a block, and its sheets are laid out here.')}</p>;
  if (!isPageReady)
    return <p className="paper-empty">{phrase('Give a page size and a margin that can be read.')}</p>;
  if (isBusy) return <p className="paper-empty paper-waiting">{phrase('Laying out the sheets …')}</p>;
  return (
    <p className="paper-empty">
      {phrase('Nothing can be printed of what is chosen. The panel beside says why.')}
    </p>
  );
}

const NOTE_ICONS: Readonly<Record<PrintNote['kind'], 'trouble' | 'caution' | 'note'>> = {
  refused: 'trouble',
  crowded: 'caution',
  name: 'caution',
  tiled: 'note',
  empty: 'note',
};

/** What stops a print comes first, what is only good to know last. */
const NOTE_ORDER: readonly PrintNote['kind'][] = ['empty', 'refused', 'crowded', 'name', 'tiled'];

/** So many notes are read at once; the others are folded away. */
const NOTES_AT_ONCE = 3;

function Notes({ notes }: { readonly notes: readonly PrintNote[] }) {
  const ordered = [...notes].sort((a, b) => NOTE_ORDER.indexOf(a.kind) - NOTE_ORDER.indexOf(b.kind));
  const rest = ordered.slice(NOTES_AT_ONCE);
  return (
    <section className="paper-notes" aria-label={phrase('Worth knowing')}>
      <NoteList notes={ordered.slice(0, NOTES_AT_ONCE)} />
      {rest.length > 0 && (
        <Folded title={phrase('{rest} more', { rest: rest.length })}>
          <NoteList notes={rest} />
        </Folded>
      )}
    </section>
  );
}

function NoteList({ notes }: { readonly notes: readonly PrintNote[] }) {
  return (
    <ul>
      {notes.map(({ kind, message }) => (
        <li key={message} className={`paper-note paper-note-${NOTE_ICONS[kind]}`}>
          <Icon name={NOTE_ICONS[kind]} size={18} />
          <p>{message}</p>
        </li>
      ))}
    </ul>
  );
}
