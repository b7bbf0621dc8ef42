import type { ReactNode } from 'react';
import { INKS, threadOf } from '../../board/draw/inks.ts';
import { phrase } from '../../words/phrase.ts';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';

/** What each line and mark of the drawing means, as the board draws them. */
export function LineLegend() {
  const [a, b] = [threadOf(0), threadOf(1)];
  return (
    <Folded title={phrase('What the lines mean')}>
      <dl className="line-legend">
        <Row sign={<Line color={INKS.ink} width={1.6} />}>
          {phrase('A line. Inside a foundation it is a seam.')}
        </Row>
        <Row sign={<Line color={INKS.madder} width={3} dash="9 5" />}>
          {phrase('A join: two foundations are sewn together here.')}
        </Row>
        <Row
          sign={
            <>
              <Line color={a.color} width={2} dash={a.dash.join(' ')} y={6} />
              <Line color={b.color} width={2} dash={b.dash.join(' ')} y={14} />
            </>
          }
        >
          {phrase('Inside the edge of each foundation, a colour and a rhythm of its own.')}
        </Row>
        <Row sign={<Pin isCrossed />}>
          {phrase('A pin at the end of a join, or where seams of both sides meet.')}
        </Row>
        <Row sign={<Pin />}>
          {phrase('A pin where a seam of one side meets the join, or on a long plain stretch.')}
        </Row>
        <Row sign={<Line color={INKS.moss} width={1.4} dash="14 5 2 5" />}>
          {phrase('An axis of the symmetry.')}
        </Row>
        <dt className="legend-finding">
          <Icon name="trouble" size={18} />
          <Icon name="caution" size={18} />
        </dt>
        <dd>{phrase('A problem or an awkward place. The list beside the drawing says which.')}</dd>
      </dl>
    </Folded>
  );
}

function Row({ sign, children }: { readonly sign: ReactNode; readonly children: ReactNode }) {
  return (
    <>
      <dt>
        <svg width={48} height={20} viewBox="0 0 48 20" aria-hidden="true">
          <rect width={48} height={20} rx={3} fill={INKS.sheet} />
          {sign}
        </svg>
      </dt>
      <dd>{children}</dd>
    </>
  );
}

interface LineProps {
  readonly color: string;
  readonly width: number;
  readonly dash?: string;
  readonly y?: number;
}

const Line = ({ color, width, dash, y = 10 }: LineProps) => (
  <path d={`M3 ${y}H45`} stroke={color} strokeWidth={width} strokeDasharray={dash} />
);

const Pin = ({ isCrossed = false }: { readonly isCrossed?: boolean }) => (
  <g stroke={INKS.madder} strokeWidth={1.6} fill={INKS.sheet}>
    <circle cx={24} cy={10} r={4.5} />
    {isCrossed && <path d="M16.5 10H31.5M24 2.5V17.5" strokeWidth={1.2} />}
  </g>
);
