import { useStore } from 'zustand';
import { takeInHand } from '../../document/edit-copies.ts';
import type { Quilt } from '../../document/quilt.ts';
import { copiesForQuilts, makeCopyBlocks } from '../../document/recoloured-blocks.ts';
import { blocksToMake } from '../../document/turned-over.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { ActButton } from '../act-button.tsx';
import { FabricSelect } from './fabric-select.tsx';
import { changePart } from './quilt-acts.ts';

interface QuiltCopiesProps {
  readonly quilt: Quilt;
  readonly onPrint: () => void;
}

/** How often each block is made for the quilt and its copies, and the way to its foundations. */
export function QuiltCopies({ quilt, onPrint }: QuiltCopiesProps) {
  const blocks = useStore(session, (state) => state.project.blocks);
  const fabrics = useStore(session, (state) => state.project.fabrics);
  const { copies = [] } = quilt;
  const times = 1 + copies.length;
  const counts = copiesForQuilts({ quilt, blocks });
  const rows = blocksToMake({ blocks, quilt }, counts).flatMap((block) => {
    const count = counts.get(block.id);
    return count === undefined ? [] : [{ block, count }];
  });
  return (
    <section className="quilt-card" aria-labelledby="copies-title">
      <div className="quilt-head">
        <h2 id="copies-title" className="quilt-title">
          {times === 1 ? phrase('One quilt') : phrase('{times} quilts', { times })}
        </h2>
        <button
          type="button"
          className="icon-button"
          aria-label={phrase('Make one more quilt')}
          title={phrase('Make one more quilt')}
          onClick={() =>
            changePart(phrase('One more quilt'), (old) => ({
              ...old,
              copies: [...(old.copies ?? []), { fabrics: {} }],
            }))
          }
        >
          <span aria-hidden="true">+1</span>
        </button>
      </div>
      {copies.map((copy, k) => {
        const from = Object.keys(copy.fabrics)[0] ?? '';
        const set = (swaps: Record<string, string>): void =>
          changePart(phrase('Change a palette'), (old) => ({
            ...old,
            copies: (old.copies ?? []).map((one, i) => (i === k ? { fabrics: swaps } : one)),
          }));
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a copy is known by its place in the row.
          <div key={k} className="quilt-inset">
            <div className="quilt-head">
              <h3>{phrase('Quilt {k}', { k: k + 2 })}</h3>
              <ActButton
                icon="delete"
                size={16}
                label={phrase('Leave quilt {k} out', { k: k + 2 })}
                act={() =>
                  changePart(phrase('One quilt fewer'), (old) => ({
                    ...old,
                    copies: (old.copies ?? []).filter((_, i) => i !== k),
                  }))
                }
              />
            </div>
            <p className="soft">
              {Object.entries(copy.fabrics).length === 0
                ? phrase('In the same fabrics.')
                : Object.entries(copy.fabrics)
                    .map(([a, b]) =>
                      phrase('{nameOf} for {nameOf2}', {
                        nameOf: nameOf(fabrics, b),
                        nameOf2: nameOf(fabrics, a),
                      }),
                    )
                    .join(', ')}
            </p>
            <div className="quilt-row">
              <FabricSelect
                label={phrase('Instead of')}
                value={from}
                onChoose={(fabric) => set(fabric ? { [fabric]: fabric } : {})}
              />
              <FabricSelect
                label={phrase('take')}
                value={copy.fabrics[from]}
                onChoose={(fabric) => from !== '' && fabric && set({ ...copy.fabrics, [from]: fabric })}
              />
            </div>
            {copy.blocks === undefined && Object.keys(copy.fabrics).length > 0 && (
              <button
                type="button"
                className="button quilt-small-button"
                onClick={() =>
                  edit(phrase('Make blocks in other fabrics'), (project) => makeCopyBlocks(project, k))
                }
              >
                {phrase('Make its blocks in these fabrics')}
              </button>
            )}
          </div>
        );
      })}
      <table className="quilt-table">
        <tbody>
          {rows.map(({ block, count }) => (
            <tr key={block.id}>
              <th scope="row">{block.name}</th>
              <td>{count} ×</td>
            </tr>
          ))}
        </tbody>
      </table>
      <button
        type="button"
        className="button"
        aria-disabled={rows.length === 0}
        onClick={() => {
          const copies = new Map(rows.map(({ block, count }) => [block.id, count]));
          edit(phrase('Take the quilt in hand'), (project) => takeInHand(project, copies));
          onPrint();
        }}
      >
        {phrase('Foundations for {times, plural, one {the quilt} other {# quilts}}', { times })}
      </button>
    </section>
  );
}

const nameOf = (fabrics: readonly { readonly id: string; readonly name: string }[], id: string): string =>
  fabrics.find((fabric) => fabric.id === id)?.name ?? phrase('no fabric');
