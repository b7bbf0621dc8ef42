import { useStore } from 'zustand';
import { chooseGrid } from '../../board/board-acts.ts';
import { boardCommand } from '../../board/board-commands.ts';
import { board } from '../../board/board-state.ts';
import { toolEntry } from '../../board/tools/tools.ts';
import { gridStep, gridSteps } from '../../editing/grid.ts';
import { phrase } from '../../words/phrase.ts';
import { session, shownBlock } from '../../workspace/session.ts';
import { Icon, type IconName } from '../icons.tsx';
import { ChainChoice } from './chain-choice.tsx';
import { DrawingAids } from './drawing-aids.tsx';
import { HeldKeys } from './held-keys.tsx';
import { UnderPictureCard } from './under-picture-card.tsx';

/** CSS pixels to the inch at full size, by definition (CSS Values and Units, absolute lengths). */
const FULL_SIZE = 96;

/** The line below the drawing: the grid, what the tool in hand does, and how near one looks. */
export function BoardLine() {
  const unit = useStore(session, (state) => state.project.unit);
  const gridOn = useStore(board, (state) => state.gridOn);
  const gridKey = useStore(board, (state) => state.gridKey);
  const percent = useStore(board, (state) => Math.round((state.camera.scale / FULL_SIZE) * 100));
  return (
    <div className="board-line">
      <label className="grid-choice">
        <span>{phrase('Grid')}</span>
        <select
          value={gridOn ? gridStep(unit, gridKey).key : 'off'}
          onChange={(event) => chooseGrid(event.target.value === 'off' ? null : event.target.value)}
        >
          {gridSteps(unit).map(({ key, label }) => (
            <option key={key} value={key}>
              {label}
            </option>
          ))}
          <option value="off">{phrase('off')}</option>
        </select>
      </label>
      <ChainChoice />
      <DrawingAids />
      <UnderPictureCard />
      <ValueToggle />
      <PlainToggle />
      <HeldKeys at="line" />
      <ToolHint />
      <div className="zoom">
        <ZoomButton name="zoom-out" icon="minus" />
        <span className="zoom-percent">{percent} %</span>
        <ZoomButton name="zoom-in" icon="plus" />
        <ZoomButton name="zoom-fit" icon="fit" />
      </div>
    </div>
  );
}

/** How the tool in hand works, and of an outline whose it will be. */
function ToolHint() {
  const tool = useStore(board, (state) => state.tool);
  const outlineFor = useStore(board, (state) => state.outlineFor);
  const blockName = useStore(session, (state) => shownBlock(state)?.name ?? null);
  const isFinger = useStore(board, (state) => state.isFinger);
  const { hint: forMouse, touchHint } = toolEntry(tool);
  const hint = isFinger ? touchHint : forMouse;
  if (tool !== 'outline') return <p className="tool-hint">{hint}</p>;
  const whose =
    outlineFor.kind === 'new-block'
      ? phrase(
          'A new block, {outlineFor}{isBlockName, select, true {} other {; {blockName} stays as it is}}.',
          { outlineFor: outlineFor.name, isBlockName: blockName === null, blockName },
        )
      : phrase('The outline of {blockName}.', { blockName: blockName ?? phrase('the block') });
  return (
    <p className="tool-hint">
      <b>{whose}</b> {hint}
    </p>
  );
}

/** Shows the block in greys, each as light as its fabric, to see whether its picture holds by value alone. */
function ValueToggle() {
  const isOn = useStore(board, (state) => state.valueView);
  const title = phrase('Fabrics as greys, by their lightness');
  return <ViewToggle name="value-view" icon="values" text={phrase('Values')} title={title} isOn={isOn} />;
}

/** Shows the block without numbers, joins and sections. */
function PlainToggle() {
  const isOn = useStore(board, (state) => state.plain);
  const title = phrase('The block plain, without numbers, joins and sections');
  return <ViewToggle name="plain" icon="eye" text={phrase('Plain')} title={title} isOn={isOn} />;
}

interface ViewToggleProps {
  readonly name: string;
  readonly icon: IconName;
  readonly text: string;
  readonly title: string;
  readonly isOn: boolean;
}

function ViewToggle({ name, icon, text, title, isOn }: ViewToggleProps) {
  const { keys, run } = boardCommand(name);
  return (
    <button
      type="button"
      className="aids-button value-toggle"
      aria-pressed={isOn}
      data-on={isOn}
      title={`${title} (${keys[0]})`}
      onClick={run}
    >
      <Icon name={icon} size={18} />
      <span>{text}</span>
    </button>
  );
}

function ZoomButton({ name, icon }: { readonly name: string; readonly icon: IconName }) {
  const { label, keys, run } = boardCommand(name);
  const text = label(session.getState());
  return (
    <button
      type="button"
      className="icon-button"
      aria-label={text}
      title={`${text} (${keys[0]})`}
      onClick={run}
    >
      <Icon name={icon} size={18} />
    </button>
  );
}
