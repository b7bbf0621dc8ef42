import { useStore } from 'zustand';
import { editEverywhere, light } from '../../board/board-acts.ts';
import { board } from '../../board/board-state.ts';
import { labelSpot } from '../../board/draw/label-spot.ts';
import { removeCuts } from '../../document/edit-cuts.ts';
import type { Block, CutRole } from '../../document/project.ts';
import { cutStory, patchStory } from '../../editing/whereabouts.ts';
import { cutEnds, cutName, lengthWords } from '../../editing/words.ts';
import { holdsPoint } from '../../geometry/inner-spot.ts';
import type { Patch } from '../../piecing/plan.ts';
import { midSentence, phrase } from '../../words/phrase.ts';
import { select } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';
import { oneStop } from '../one-stop.ts';
import { usePlan } from '../use-plan.ts';
import { JointRows } from './joint-rows.tsx';
import { OutlineRows } from './outline-rows.tsx';
import { ROLES, setRole } from './role-choice.tsx';
import { WorkList } from './work-list.tsx';

/** Every cut, patch, joint, corner and edge in words, beside the drawing: for the keyboard, and for whoever does not see the board. */
export function DrawingList({ block }: { readonly block: Block }) {
  const patches = usePlan(block).plan?.patches ?? [];
  return (
    <div className="drawing-lists">
      <Folded title={phrase('Lines ({cuts})', { cuts: block.cuts.length })}>
        {block.cuts.length === 0 ? (
          <p className="soft">{phrase('None yet. Take the Line tool and draw the first.')}</p>
        ) : (
          <CutRows block={block} />
        )}
      </Folded>
      <Folded title={phrase('Patches ({patches})', { patches: patches.length })}>
        <PatchRows patches={patches} />
      </Folded>
      <Folded title={phrase('Where lines meet')}>
        <JointRows block={block} />
      </Folded>
      <Folded title={phrase('Outline ({outline} corners)', { outline: block.outline.length })}>
        <OutlineRows block={block} />
      </Folded>
      <Folded title={phrase('What to do with the block')}>
        <WorkList about="block" />
      </Folded>
    </div>
  );
}

function CutRows({ block }: { readonly block: Block }) {
  const selection = useStore(session, (state) => state.selection);
  const unit = useStore(session, (state) => state.project.unit);

  const remove = (id: string): void => {
    editEverywhere(phrase('Delete line'), (project) => removeCuts(project, block.id, [id]));
  };

  return (
    <ul ref={oneStop} className="rows">
      {block.cuts.map((cut) => {
        const name = cutName(block.cuts, cut.id);
        const isChosen = selection.includes(cut.id);
        return (
          <li key={cut.id} className="row">
            <button
              type="button"
              className="row-choose"
              aria-label={phrase('{name}, {cutStory}{isLocked, select, true {, locked} other {}}', {
                name,
                cutStory: cutStory(block, cut, unit),
                isLocked: cut.locked === true,
              })}
              aria-pressed={isChosen}
              onClick={(event) => {
                const others = event.shiftKey ? selection.filter((id) => id !== cut.id) : [];
                select(isChosen && event.shiftKey ? others : [...others, cut.id]);
              }}
              onKeyDown={(event) => {
                if (event.key !== 'Delete') return;
                event.preventDefault();
                event.stopPropagation();
                remove(cut.id);
              }}
              onPointerEnter={() => light({ kind: 'cuts', ids: [cut.id] })}
              onPointerLeave={() => light(null)}
              onFocus={() => light({ kind: 'cuts', ids: [cut.id] })}
              onBlur={() => light(null)}
            >
              <span>
                {name} <span className="soft">{lengthWords(cut.from, cut.to, unit)}</span>
                {cut.locked === true && <span className="soft"> {phrase('· locked')}</span>}
              </span>
              <span className="soft">{cutEnds(cut, unit)}</span>
            </button>
            <select
              aria-label={phrase('{name}: sewn as', { name })}
              value={cut.role}
              onChange={(event) => setRole(block.id, [cut.id], event.target.value as CutRole)}
            >
              {ROLES.map(([role, label]) => (
                <option key={role} value={role}>
                  {label}
                </option>
              ))}
            </select>
            <button
              type="button"
              className="icon-button"
              aria-label={phrase('Delete {name}', { name: midSentence(name) })}
              title={phrase('Delete {name}', { name: midSentence(name) })}
              onClick={() => remove(cut.id)}
            >
              <Icon name="delete" size={16} />
            </button>
          </li>
        );
      })}
    </ul>
  );
}

function PatchRows({ patches }: { readonly patches: readonly Patch[] }) {
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const chosen = useStore(board, (state) => state.chosen);
  return (
    <ul ref={oneStop} className="rows">
      {patches.map((patch) => {
        const fabric = fabrics.find(({ id }) => id === patch.fabric);
        const isChosen = chosen?.kind === 'patch' && holdsPoint(patch, chosen.at);
        return (
          <li key={patch.id} className="row">
            <button
              type="button"
              className="row-choose row-patch"
              aria-label={patchStory(patch, fabric?.name ?? null)}
              aria-pressed={isChosen}
              onClick={() => {
                select([]);
                board.setState({ chosen: { kind: 'patch', at: labelSpot(patch).at } });
              }}
              onPointerEnter={() => light({ kind: 'patches', ids: [patch.id] })}
              onPointerLeave={() => light(null)}
              onFocus={() => light({ kind: 'patches', ids: [patch.id] })}
              onBlur={() => light(null)}
            >
              <span className="row-swatch" style={{ backgroundColor: fabric?.color ?? 'var(--sheet)' }} />
              <span>{patch.id}</span>
              <span className="soft">{fabric?.name ?? phrase('no fabric yet')}</span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
