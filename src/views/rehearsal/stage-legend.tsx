import type { ReactNode } from 'react';
import type { RehearsalStep } from '../../piecing/rehearsal.ts';
import { phrase } from '../../words/phrase.ts';
import type { Side } from './rehearsal-state.ts';

/** What each line of the stage is, as it is drawn there; only those that a step has. */
export function StageLegend({ step, side }: { readonly step: RehearsalStep; readonly side: Side }) {
  const isJoin = step.kind === 'join';
  const isFront = side === 'front';
  return (
    <ul className="stage-legend" aria-label={phrase('What the lines mean')}>
      {isJoin && (
        <Entry text={phrase('the join: stitch it')}>
          <g className="stage-seam stage-seam-join">
            <path className="stage-seam-line" d="M2 8H34" />
          </g>
        </Entry>
      )}
      {step.kind === 'sew' && (
        <Entry text={phrase('the line to stitch')}>
          <g className="stage-seam">
            <path className="stage-seam-line" d="M2 8H34" />
          </g>
        </Entry>
      )}
      {isJoin && (
        <Entry text={phrase('pin straight through')}>
          <path className="stage-pin" d="M18 1V15" />
          <circle className="stage-point" cx={18} cy={8} r={4} />
        </Entry>
      )}
      {!isJoin && (
        <Entry text={phrase('cut off along here')}>
          <path className="stage-cutting" d="M2 8H34" />
        </Entry>
      )}
      {!isJoin && (
        <Entry text={phrase('the next line: fold the paper back on it')}>
          <path className="stage-next" d="M2 8H34" />
        </Entry>
      )}
      {!isJoin && isFront && (
        <Entry text={phrase('printed lines showing through')}>
          <path className="stage-faint" d="M2 8H34" />
        </Entry>
      )}
      <Entry text={phrase('edge of the paper')}>
        <path className={isFront ? 'stage-paper' : 'stage-trim'} d="M2 8H34" />
      </Entry>
      {step.kind === 'sew' && isFront && (
        <Entry text={phrase('wrong side of the cloth')}>
          <path className="stage-wrong" d="M4 15L14 1M13 15L23 1M22 15L32 1" />
        </Entry>
      )}
    </ul>
  );
}

function Entry({ text, children }: { readonly text: string; readonly children: ReactNode }) {
  return (
    <li>
      <svg width={36} height={16} viewBox="0 0 36 16" aria-hidden="true" focusable="false">
        <rect width={36} height={16} rx={2} className="stage-legend-ground" />
        {children}
      </svg>
      {text}
    </li>
  );
}
