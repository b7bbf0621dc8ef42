import { useStore } from 'zustand';
import { proposals } from '../../board/proposal.ts';
import type { Block } from '../../document/project.ts';
import type { Cure } from '../../piecing/repairs/cure.ts';
import { phrase } from '../../words/phrase.ts';
import { HeldActs } from './cure-cards.tsx';
import { useCurePress } from './cure-press.ts';

/** Does a cure of a block that sews take fewer foundations for patches added, the picture kept? */
export const isOnCurve = ({ kind, change, before, after }: Cure): boolean =>
  (kind === 'wish' || kind === 'kept') &&
  change.kind === 'cuts' &&
  before.setInCorners === 0 &&
  after.foundations < before.foundations &&
  after.patches > before.patches;

/** Those of some cures that no other betters in both, fewest patches first. */
export function curveOf(cures: readonly Cure[]): readonly Cure[] {
  const trades = cures.filter(isOnCurve).sort((a, b) => a.after.patches - b.after.patches);
  return trades.filter(({ after }, k) =>
    trades
      .slice(0, k)
      .concat(trades.slice(k + 1).filter((other) => other.after.patches === after.patches))
      .every((other) => other.after.foundations > after.foundations),
  );
}

interface CurveProps {
  readonly block: Block;
  readonly curve: readonly Cure[];
  readonly onApply: () => void;
}

/**
 * What fewer foundations would cost in patches: the block as it is and each choice, a dot that is shown on the board when
 * pointed at and done when pressed. Across: patches added; down: foundations.
 */
export function CureCurve({ block, curve, onApply }: CurveProps) {
  const shown = useStore(proposals, (state) => state.shown);
  const lit = shown?.block === block ? curve.find(({ id }) => id === shown.repair.id) : undefined;
  const { before } = curve[0]!;
  const most = Math.max(...curve.map(({ after }) => after.patches - before.patches));
  const least = Math.min(...curve.map(({ after }) => after.foundations));
  /** Share of the way across and down. */
  const placeOf = (added: number, foundations: number) => ({
    x: added / most,
    y: (before.foundations - foundations) / (before.foundations - least),
  });
  const stops = [
    placeOf(0, before.foundations),
    ...curve.map(({ after }) => placeOf(after.patches - before.patches, after.foundations)),
  ];
  const stairs = stops
    .map(({ x, y }, k) => (k === 0 ? `M${100 * x} ${100 * y}` : `H${100 * x}V${100 * y}`))
    .join('');
  return (
    <figure className="curve">
      <figcaption>{phrase('Fewer foundations for patches added, picture kept')}</figcaption>
      <div className="curve-plot">
        <span className="curve-down" aria-hidden="true">
          {phrase('foundations')}
        </span>
        <div className="curve-field">
          <svg viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true" focusable="false">
            <path d={stairs} vectorEffect="non-scaling-stroke" />
          </svg>
          <span className="curve-now" style={{ left: 0, top: 0 }}>
            {before.foundations}
            <span className="only-heard"> {phrase('foundations as it is drawn')}</span>
          </span>
          <ol>
            {curve.map((cure, k) => {
              const { x, y } = stops[k + 1]!;
              return (
                <li key={cure.id} style={{ left: `${100 * x}%`, top: `${100 * y}%` }}>
                  <CurveDot block={block} cure={cure} onApply={onApply} />
                </li>
              );
            })}
          </ol>
        </div>
        <span className="curve-across" aria-hidden="true">
          <span>{phrase('as drawn')}</span>
          <span>{phrase('{most, plural, one {# patch} other {# patches}} added', { most })}</span>
        </span>
      </div>
      <p className="soft curve-words" role="status">
        {lit ? lit.sentence : phrase('Point at a number to preview it on the board; press it to apply it.')}
      </p>
      {curve.map((cure) => (
        <HeldDot key={cure.id} block={block} cure={cure} onApply={onApply} />
      ))}
    </figure>
  );
}

interface DotProps {
  readonly block: Block;
  readonly cure: Cure;
  readonly onApply: () => void;
}

function CurveDot({ block, cure, onApply }: DotProps) {
  const { button } = useCurePress(block, cure, onApply);
  const { before, after } = cure;
  return (
    <button type="button" className="repair curve-dot" {...button}>
      {after.foundations}
      <span className="only-heard">
        {' '}
        {phrase(
          '{foundations, plural, one {foundation} other {foundations}} for {patches, plural, one {# patch} other {# patches}} more',
          { foundations: after.foundations, patches: after.patches - before.patches },
        )}
      </span>
    </button>
  );
}

function HeldDot({ block, cure, onApply }: DotProps) {
  const press = useCurePress(block, cure, onApply);
  return (
    <div ref={press.box}>
      <HeldActs press={press} />
    </div>
  );
}
