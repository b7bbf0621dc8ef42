import './fabric.css';
import { useStore } from 'zustand';
import { cuttingRulesOf, slackOf } from '../../cutting/project-cutting.ts';
import { costOf } from '../../cutting/shortage.ts';
import { addFabric } from '../../document/edit-fabrics.ts';
import { nextFabricId } from '../../document/ids.ts';
import type { Project } from '../../document/project.ts';
import { amount } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import { edit, goTo } from '../../workspace/actions.ts';
import type { FabricSum } from '../../workspace/cutting-client.ts';
import { session } from '../../workspace/session.ts';
import { Icon } from '../icons.tsx';
import { ClothCard } from './cloth-card.tsx';
import { ClothList } from './cloth-list.tsx';
import { CopiesChoice } from './copies-choice.tsx';
import { CuttingSettings } from './cutting-settings.tsx';
import { FabricActs } from './fabric-acts.tsx';
import { FabricSheet } from './fabric-sheet.tsx';
import { fabricView } from './fabric-state.ts';
import { NearestFabrics } from './nearest-fabrics.tsx';
import { ProofDialog } from './proof-dialog.tsx';
import { useCutting, useFabricCuts } from './use-fabric-cuts.ts';

/** The Fabric place: the fabrics as cloth, what is cut from each, and how much of it is needed. */
export default function FabricPlace() {
  const project = useStore(session, (state) => state.project);
  const { sum, isBusy, toCome, failure } = useCutting();
  const view = useStore(fabricView);
  const sums = sum?.fabrics ?? [];
  const isThere = (id: string | null | undefined): boolean =>
    id === null ? sums.some(({ fabric }) => fabric === null) : project.fabrics.some((one) => one.id === id);
  const open = isThere(view.fabric) ? view.fabric : (project.fabrics[0]?.id ?? sums[0]?.fabric);
  const fabric = project.fabrics.find(({ id }) => id === open) ?? null;
  const cuts = useFabricCuts(open);
  const proof = cuts?.pieces.find(({ block, key }) => block === view.proof?.block && key === view.proof?.key);

  return (
    <main className="fabric-place">
      <section className="fabric-shelf" aria-labelledby="fabric-title">
        <div className="fabric-shelf-head">
          <h2 id="fabric-title" className="panel-title">
            {phrase('Fabrics')}
          </h2>
          <button
            type="button"
            className="icon-button"
            aria-label={phrase('Add a fabric')}
            title={phrase('Add a fabric')}
            onClick={() => {
              const id = nextFabricId(session.getState().project);
              edit(phrase('Add fabric'), (before) =>
                addFabric(before, {
                  name: phrase('Fabric {fabrics}', { fabrics: before.fabrics.length + 1 }),
                  color: '#c8c2b4',
                }),
              );
              fabricView.setState({ fabric: id });
            }}
          >
            <Icon name="plus" />
          </button>
        </div>
        <ClothList project={project} sums={sums} open={open} />
        <p className="fabric-total" role="status">
          {totalWords(project, sums)}
          {isBusy && (
            <span className="updating">
              <Icon name="updating" size={14} /> {phrase('being worked out')}
            </span>
          )}
        </p>
        <FabricActs />
      </section>
      <section
        className="fabric-desk"
        aria-label={phrase('What to cut')}
        aria-busy={isBusy}
        data-thorough={sum?.isThorough}
      >
        {failure !== null && <p className="fabric-empty">{failure}</p>}
        {toCome > 0 && (
          <p className="fabric-empty">
            {phrase(
              '{toCome, plural, one {One block is} other {# blocks are}} still being worked out and not counted yet.',
              { toCome },
            )}
          </p>
        )}
        {cuts ? (
          <FabricSheet project={project} fabric={fabric} cuts={cuts} />
        ) : (
          !isBusy &&
          failure === null && (
            <div className="fabric-empty">
              <p>
                {project.fabrics.length === 0
                  ? phrase('There is no fabric yet. Add one, then lay it on patches in Block.')
                  : phrase('{fabric} is laid on no patch of the blocks that are counted.', {
                      fabric: fabric?.name ?? phrase('This fabric'),
                    })}
              </p>
              <button type="button" className="button" onClick={() => goTo('block')}>
                {phrase('Go to Block')}
              </button>
            </div>
          )
        )}
      </section>
      <div className="fabric-panel">
        {fabric && (
          <ClothCard fabric={fabric} unit={project.unit} usualWidth={cuttingRulesOf(project).usableWidth} />
        )}
        <CuttingSettings project={project} />
        <CopiesChoice project={project} />
        {fabric && <NearestFabrics project={project} fabric={fabric} />}
      </div>
      {proof && (
        <ProofDialog
          key={`${proof.block}/${proof.key}`}
          project={project}
          piece={proof}
          fabric={fabric}
          onClose={() => fabricView.setState({ proof: null })}
        />
      )}
    </main>
  );
}

/** All pieces, and what they cost where prices are known. */
function totalWords(project: Project, sums: readonly FabricSum[]): string {
  const pieces = sums.reduce((total, one) => total + one.pieces, 0);
  if (pieces === 0) return phrase('Nothing to cut yet');
  const slack = slackOf(project);
  let cost = 0;
  let isPriced = true;
  for (const { fabric, length } of sums) {
    const price = project.fabrics.find(({ id }) => id === fabric)?.price;
    if (price) cost += costOf(length, slack, price);
    else if (length > 0) isPriced = false;
  }
  const count = phrase('{pieces, plural, one {# piece} other {# pieces}} to cut', { pieces });
  return cost === 0
    ? count
    : phrase('{count}, {cost} in all{isPriced, select, true {} other { for what has a price}}', {
        count,
        cost: amount(cost),
        isPriced,
      });
}
