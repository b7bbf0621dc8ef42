import { useStore } from 'zustand';
import { cuttingPlan } from '../../cutting/cutting-plan.ts';
import { joinedWords } from '../../cutting/joined-cloth.ts';
import { NO_SLACK, toBuy } from '../../cutting/lengths.ts';
import { clothsOf, cuttingRulesOf } from '../../cutting/project-cutting.ts';
import { QUICK_STEPS } from '../../cutting/strips/lay-strips.ts';
import { boughtWords } from '../../cutting/sums.ts';
import { quiltOf } from '../../document/edit-quilt.ts';
import type { Finishing } from '../../document/quilt.ts';
import { MM_PER_IN } from '../../geometry/lattice.ts';
import { formatLength } from '../../geometry/length.ts';
import { BACKING_EXTRA_IN } from '../../quilt/finishing/backing.ts';
import { BATTING_EXTRA_IN } from '../../quilt/finishing/batting.ts';
import { BINDING_EXTRA_IN, BINDING_WIDTH_IN } from '../../quilt/finishing/binding.ts';
import { SLEEVE_HEIGHT_IN } from '../../quilt/finishing/finishing-list.ts';
import { plainPieces } from '../../quilt/finishing/plain-pieces.ts';
import { clothOfQuilts, finishingOf } from '../../quilt/finishing/project-finishing.ts';
import { clothLength, sizeWords } from '../../quilt/words.ts';
import { phrase } from '../../words/phrase.ts';
import { session, shownProject } from '../../workspace/session.ts';
import { Choice } from '../choice.tsx';
import { FabricSelect } from './fabric-select.tsx';
import { changePart } from './quilt-acts.ts';
import { QuiltBack } from './quilt-back.tsx';
import { SizeField } from './set-field.tsx';
import { layoutOf } from './shown-quilt.ts';

/** What finishes the quilt: cut sizes and lengths of everything that is no block. */
export function FinishingPanel() {
  const project = useStore(session, shownProject);
  const { unit, seamAllowance, fabrics } = project;
  const quilt = quiltOf(project);
  const layout = layoutOf(project);
  const finishing = quilt.finishing ?? {};
  const list = finishingOf(project, layout);
  const plain = plainPieces(layout, seamAllowance);
  const { copies = [] } = quilt;
  const cloth = cuttingPlan({
    made: [],
    plain: clothOfQuilts(project, layout),
    cloths: clothsOf(project),
    rules: cuttingRulesOf(project),
    steps: QUICK_STEPS,
  }).fabrics;
  const nameOf = (id: string | null): string =>
    fabrics.find((fabric) => fabric.id === id)?.name ?? phrase('no fabric yet');
  const set = <Key extends keyof Finishing>(key: Key, value: Finishing[Key] | undefined): void =>
    changePart(phrase('Change the finishing'), (old) => {
      const { [key]: _old, ...rest } = old.finishing ?? {};
      return { ...old, finishing: value === undefined ? rest : { ...rest, [key]: value } };
    });
  const binding = finishing.binding ?? { width: BINDING_WIDTH_IN, isBias: false };
  const backing = finishing.backing ?? { extra: BACKING_EXTRA_IN };
  const [cheaper, other] = list.backing;
  const yards = (inches: number): string =>
    unit === 'mm'
      ? phrase('{metres, number} m', { metres: Math.ceil((inches * MM_PER_IN) / 100) / 10 })
      : phrase('{inches} yd', { inches: formatLength(inches / 36, 'in').replace(' in', '') });
  return (
    <>
      <section className="quilt-card" aria-labelledby="plain-title">
        <h2 id="plain-title" className="quilt-title">
          {phrase('Plain pieces, as cut')}
        </h2>
        {plain.length === 0 && <p className="soft">{phrase('There is nothing plain in the quilt.')}</p>}
        <table className="quilt-table">
          <tbody>
            {plain.map(({ what, fabric, count, width, height, kind, pieces }) => (
              <tr key={`${what} ${fabric} ${kind} ${width} ${height}`}>
                <th scope="row">
                  {what}
                  <span className="soft">{nameOf(fabric)}</span>
                </th>
                <td>
                  {count} × {sizeWords([width, height], unit)}
                  {kind !== 'rectangle' && (
                    <span className="soft">
                      {phrase(
                        '{pieces} triangles: cut each {isKind, select, true {once} other {twice}} from corner to corner',
                        { pieces, isKind: kind === 'half-square' },
                      )}
                    </span>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        <p className="soft">
          {phrase('Seam allowance of {seamAllowance} included.', {
            seamAllowance: clothLength(seamAllowance, unit),
          })}
        </p>
      </section>
      <section className="quilt-card" aria-labelledby="binding-title">
        <h2 id="binding-title" className="quilt-title">
          {phrase('Binding')}
        </h2>
        <Choice
          label={phrase('Grain of the binding')}
          isLabelShown={false}
          options={[
            ['straight', phrase('Straight')],
            ['bias', phrase('On the bias')],
          ]}
          value={binding.isBias ? 'bias' : 'straight'}
          onChoose={(grain) => set('binding', { ...binding, isBias: grain === 'bias' })}
        />
        <div className="quilt-row">
          <SizeField
            label={phrase('Strips cut at')}
            inches={binding.width}
            unit={unit}
            onSet={(width) => set('binding', { ...binding, width })}
          />
          <FabricSelect
            label={phrase('Fabric')}
            value={binding.fabric}
            onChoose={(fabric) => {
              const { fabric: _old, ...bare } = binding;
              set('binding', fabric === undefined ? bare : { ...bare, fabric });
            }}
          />
        </div>
        <p>
          {list.binding.square === null
            ? phrase(
                '{binding} in all, with {spare} for joins and corners: {strips} strips across the cloth, joined on the slant. {yards}.',
                {
                  binding: clothLength(list.binding.length, unit),
                  spare: clothLength(BINDING_EXTRA_IN, unit),
                  strips: list.binding.strips,
                  yards: yards(list.binding.buy),
                },
              )
            : phrase('{binding} in all: a square of {square}, cut on the slant. {yards}.', {
                binding: clothLength(list.binding.length, unit),
                square: clothLength(list.binding.square, unit),
                yards: yards(list.binding.buy),
              })}
        </p>
      </section>
      <section className="quilt-card" aria-labelledby="backing-title">
        <h2 id="backing-title" className="quilt-title">
          {phrase('Backing and batting')}
        </h2>
        <div className="quilt-row">
          <SizeField
            label={phrase('More at each side')}
            inches={backing.extra}
            unit={unit}
            onSet={(extra) => set('backing', { ...backing, extra })}
          />
          <FabricSelect
            label={phrase('Fabric')}
            value={backing.fabric}
            onChoose={(fabric) => {
              const { fabric: _old, ...bare } = backing;
              set('backing', fabric === undefined ? bare : { ...bare, fabric });
            }}
          />
        </div>
        <p>
          {cheaper.panels === 1
            ? phrase('One panel, {sizeWords}: {yards}.', {
                sizeWords: sizeWords(cheaper.panel, unit),
                yards: yards(cheaper.buy),
              })
            : phrase(
                '{panels} panels of {sizeWords} with {seams, select, upright {vertical} other {horizontal}} seams: {yards}. With {seams2, select, upright {vertical} other {horizontal}} seams it would take {yards2}.',
                {
                  panels: cheaper.panels,
                  sizeWords: sizeWords(cheaper.panel, unit),
                  seams: cheaper.seams,
                  yards: yards(cheaper.buy),
                  seams2: other.seams,
                  yards2: yards(other.buy),
                },
              )}
        </p>
        <QuiltBack list={list} finishing={finishing} fabrics={fabrics} seam={seamAllowance} />
        <p>
          {list.batting === null
            ? phrase('Batting: {sizeWords}, larger than any package. Join two.', {
                sizeWords: sizeWords(list.battingNeeded, unit),
              })
            : phrase('Batting: the package of {sizeWords} ({sizeWords2} with {extra} at each side).', {
                sizeWords: sizeWords(list.batting, unit),
                sizeWords2: sizeWords(list.battingNeeded, unit),
                extra: clothLength(finishing.batting?.extra ?? BATTING_EXTRA_IN, unit),
              })}
        </p>
      </section>
      <section className="quilt-card" aria-labelledby="cloth-title">
        <h2 id="cloth-title" className="quilt-title">
          {phrase('Cloth for all of this{isCopies, select, true {, {copies} quilts} other {}}', {
            isCopies: copies.length > 0,
            copies: copies.length + 1,
          })}
        </h2>
        <table className="quilt-table">
          <tbody>
            {cloth.map(({ fabric, length, strips, joined }) => (
              <tr key={fabric ?? ''}>
                <th scope="row">
                  {nameOf(fabric)}
                  {joined.map((one) => (
                    <span key={one.parts.what} className="soft">
                      {joinedWords(one, unit)}
                    </span>
                  ))}
                </th>
                <td>
                  {boughtWords(toBuy(length, NO_SLACK), unit)}
                  <span className="soft">
                    {phrase('{strips, plural, one {# strip} other {# strips}}, {length}', {
                      strips: strips.length,
                      length: clothLength(length, unit),
                    })}
                  </span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        <p className="soft">
          {phrase('Strips across the usable width. The cloth for the blocks is listed under Fabric.')}
        </p>
      </section>
      <section className="quilt-card" aria-labelledby="sleeve-title">
        <h2 id="sleeve-title" className="quilt-title">
          {phrase('To hang it, and to sign it')}
        </h2>
        <label className="quilt-tick">
          <input
            type="checkbox"
            checked={list.sleeve !== null}
            onChange={(event) =>
              set('sleeve', event.target.checked ? { height: SLEEVE_HEIGHT_IN } : undefined)
            }
          />
          {phrase('A hanging sleeve')}
        </label>
        {list.sleeve && (
          <p className="quilt-inset">
            {phrase('Cut {sizeWords}.', { sizeWords: sizeWords(list.sleeve, unit) })}
          </p>
        )}
        <label className="quilt-tick">
          <input
            type="checkbox"
            checked={list.label !== null}
            onChange={(event) => set('label', event.target.checked ? { size: [5, 3] } : undefined)}
          />
          {phrase('A label')}
        </label>
        {list.label && (
          <p className="quilt-inset">
            {phrase('Cut {sizeWords}.', { sizeWords: sizeWords(list.label, unit) })}
          </p>
        )}
      </section>
    </>
  );
}
