import { useMemo } from 'react';
import { useStore } from 'zustand';
import { board } from '../../board/board-state.ts';
import { addFabric } from '../../document/edit-fabrics.ts';
import { fabricsIn, harmoniesOf, leadingFabric } from '../../document/harmony.ts';
import { FABRICS_PER_PROJECT } from '../../document/limits.ts';
import { phrase } from '../../words/phrase.ts';
import { edit, say } from '../../workspace/actions.ts';
import { session, shownBlock } from '../../workspace/session.ts';
import { oneStop } from '../one-stop.ts';
import { FabricNumber } from './fabric-number.tsx';

/** Adds the colour as a fabric; the one in hand stays, so that more can be added to go with it. True when there was room. */
function add(name: string, color: string): boolean {
  const before = session.getState().project.fabrics.length;
  if (before >= FABRICS_PER_PROJECT) {
    say(
      'trouble',
      phrase('A project holds at most {fabricsPerProject, number} fabrics.', {
        fabricsPerProject: FABRICS_PER_PROJECT,
      }),
    );
    return false;
  }
  edit(phrase('Add fabric'), (project) => addFabric(project, { name, color }));
  say('done', phrase('‘{name}’ is a fabric of the project now.', { name }));
  return true;
}

/** What is added leaves the row: the keyboard goes on to its neighbour, or to the row's title from the last. */
function moveOn(pressed: HTMLElement): void {
  const item = pressed.closest('li');
  const beside = (item?.nextElementSibling ?? item?.previousElementSibling)?.querySelector('button');
  (beside ?? pressed.closest('details')?.querySelector('summary'))?.focus();
}

/** Colours that go with the fabric in hand, or with the one that leads in the block: a press adds one. */
export function HarmonyRow() {
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const block = useStore(session, shownBlock);
  const chosenId = useStore(board, (state) => state.fabricId);
  const valueView = useStore(board, (state) => state.valueView);
  const laid = block === null ? [] : fabricsIn(block, fabrics);
  const lead = fabrics.find(({ id }) => id === chosenId) ?? leadingFabric(laid.length > 0 ? laid : fabrics);
  const harmonies = useMemo(() => (lead === null ? [] : harmoniesOf(lead, fabrics)), [lead, fabrics]);
  if (lead === null)
    return <p className="soft">{phrase('Lay a fabric, and colours that go with it stand here.')}</p>;
  if (harmonies.length === 0)
    return (
      <p className="soft">
        {phrase('All that goes with ‘{lead}’ is in the project already.', { lead: lead.name })}
      </p>
    );
  return (
    <>
      <p className="soft">{phrase('With ‘{lead}’. A press adds a fabric.', { lead: lead.name })}</p>
      <ul ref={oneStop} className="swatches harmony-row">
        {harmonies.map(({ kind, name, color }) => (
          <li key={kind}>
            <button
              type="button"
              className="swatch"
              style={{ backgroundColor: color }}
              aria-label={phrase('Add {name}', { name })}
              title={phrase('Add {name}', { name })}
              onClick={(event) => {
                if (add(name, color)) moveOn(event.currentTarget);
              }}
            >
              {valueView && <FabricNumber color={color} />}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
