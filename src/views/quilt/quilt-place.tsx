import './quilt.css';
import './quilt-panels.css';
import { useId } from 'react';
import { useStore } from 'zustand';
import { quiltOf } from '../../document/edit-quilt.ts';
import { sizeWords } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { session, shownProject } from '../../workspace/session.ts';
import { ActButton } from '../act-button.tsx';
import { Choice } from '../choice.tsx';
import { Icon } from '../icons.tsx';
import { EmptyQuilt } from './empty-quilt.tsx';
import { FinishingPanel } from './finishing-panel.tsx';
import { JoiningPanel } from './joining-panel.tsx';
import { PrintPanel } from './print-panel.tsx';
import {
  chosenPlaces,
  mirrorChosen,
  removeChosen,
  repeatChosen,
  swapChosen,
  turnChosen,
} from './quilt-acts.ts';
import { QuiltBoard } from './quilt-board.tsx';
import { fitQuilt, zoomQuilt } from './quilt-looking.ts';
import { type QuiltTask, quiltView } from './quilt-state.ts';
import { SettingPanel } from './setting-panel.tsx';
import { layoutOf } from './shown-quilt.ts';
import { Tray } from './tray.tsx';

const TASKS: readonly (readonly [QuiltTask, string])[] = [
  ['set', phrase('Set')],
  ['join', phrase('Join')],
  ['finish', phrase('Finish')],
  ['print', phrase('Print')],
];

const PANELS: Readonly<Record<QuiltTask, () => React.ReactNode>> = {
  set: () => <SettingPanel />,
  join: () => <JoiningPanel />,
  finish: () => <FinishingPanel />,
  print: () => <PrintPanel />,
};

/** The Quilt place: the tray of blocks, the quilt as it lies, and what is done to it. */
export default function QuiltPlace() {
  const project = useStore(session, shownProject);
  const task = useStore(quiltView, (state) => state.task);
  const hint = useId();
  const isEmpty = quiltOf(project).places.length === 0;
  return (
    <main className="quilt-place">
      <Tray />
      <section className="quilt-desk" data-drawing="" aria-label={phrase('Quilt')}>
        {!isEmpty && <BoardBar />}
        <QuiltBoard describedBy={hint} />
        <p id={hint} className="only-heard">
          {phrase(
            'Arrows choose a place, Enter lays what is in hand there, 1 to 9 lay a block of the tray, R turns, M mirrors.',
          )}
        </p>
        {isEmpty && <EmptyQuilt />}
      </section>
      <div className="quilt-panel">
        <div className="quilt-tasks">
          <Choice
            label={phrase('What to do')}
            isLabelShown={false}
            options={TASKS}
            value={task}
            onChoose={(next) => quiltView.setState({ task: next, isPlaying: false })}
          />
        </div>
        {isEmpty && task !== 'set' ? (
          <p className="quilt-card soft">{phrase('There is no quilt yet: set the blocks first.')}</p>
        ) : (
          PANELS[task]()
        )}
      </div>
    </main>
  );
}

/** Over the board: its size, what can be done with the chosen, and how it is looked at. */
function BoardBar() {
  const project = useStore(session, shownProject);
  const view = useStore(quiltView);
  const { box, pieces, gaps, overlaps } = layoutOf(project);
  const chosen = chosenPlaces(project, view).length;
  return (
    <div className="quilt-bar">
      <p className="quilt-size">
        <b>{sizeWords([box.maxX - box.minX, box.maxY - box.minY], project.unit)}</b>
        <span className="soft">
          {phrase('{pieces, plural, one {# place} other {# places}}', { pieces: pieces.length })}
        </span>
        {gaps.length + overlaps.length > 0 && (
          <span className="quilt-fault" role="status">
            <Icon name="caution" size={16} />
            {[
              ...(overlaps.length > 0
                ? [
                    phrase('{overlaps, plural, one {# overlap} other {# overlaps}}', {
                      overlaps: overlaps.length,
                    }),
                  ]
                : []),
              ...(gaps.length > 0
                ? [phrase('{gaps, plural, one {# gap} other {# gaps}}', { gaps: gaps.length })]
                : []),
            ].join(', ')}
          </span>
        )}
      </p>
      <div className="quilt-acts" role="toolbar" aria-label={phrase('The chosen places')}>
        <ActButton
          icon="turn"
          label={phrase('Turn to the right (R)')}
          isOff={chosen === 0}
          act={() => turnChosen(1)}
        />
        <ActButton icon="mirror" label={phrase('Mirror (M)')} isOff={chosen === 0} act={mirrorChosen} />
        <ActButton
          icon="swap"
          label={phrase('Swap the two chosen places (X)')}
          isOff={chosen !== 2}
          act={swapChosen}
        />
        <ActButton
          icon="duplicate"
          label={phrase('Repeat the chosen over the quilt (P)')}
          isOff={chosen === 0}
          act={repeatChosen}
        />
        <ActButton
          icon="delete"
          label={phrase('Empty the chosen places (Delete)')}
          isOff={chosen === 0}
          act={removeChosen}
        />
      </div>
      <div className="quilt-acts">
        <button
          type="button"
          className="button quilt-small-button"
          aria-pressed={view.showsNumbers}
          aria-label={phrase('Numbers of the places')}
          title={phrase('Numbers of the places (N)')}
          onClick={() => quiltView.setState({ showsNumbers: !view.showsNumbers })}
        >
          <span aria-hidden="true">{phrase('Numbers')}</span>
        </button>
        <Choice
          label={phrase('Show')}
          isLabelShown={false}
          options={[
            ['fabric', phrase('Fabric')],
            ['value', phrase('Value')],
          ]}
          value={view.shows}
          onChoose={(shows) => quiltView.setState({ shows })}
        />
        <ActButton icon="minus" label={phrase('Zoom out')} act={() => zoomQuilt(0.8)} />
        <ActButton icon="plus" label={phrase('Zoom in')} act={() => zoomQuilt(1.25)} />
        <ActButton icon="fit" label={phrase('Show the whole quilt (0)')} act={fitQuilt} />
      </div>
    </div>
  );
}
