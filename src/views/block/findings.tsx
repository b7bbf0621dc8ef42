import { useStore } from 'zustand';
import { light } from '../../board/board-acts.ts';
import { board } from '../../board/board-state.ts';
import { zoomTo } from '../../board/camera-acts.ts';
import { MOST_MARKERS } from '../../board/draw/markers.ts';
import type { Finding, Severity } from '../../piecing/plan.ts';
import { RULES } from '../../piecing/rules/table.ts';
import { phrase } from '../../words/phrase.ts';
import { Folded } from '../folded.tsx';
import { Icon } from '../icons.tsx';
import { oneStop } from '../one-stop.ts';
import { leaveStage } from '../rehearsal/rehearsal-state.ts';

/** What a finding of each severity is called. */
export const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  trouble: phrase('Problem'),
  caution: phrase('Awkward'),
  note: phrase('Note'),
};

/** What the findings of each severity are called together. */
export const GROUP_TITLES: Readonly<Record<Severity, string>> = {
  trouble: phrase('Problems'),
  caution: phrase('Awkward places'),
  note: phrase('[[findings]] Notes'),
};

/** Places of one kind whose numbers are shown in its row; the rest as a count. */
const MOST_PLACES = 14;

/** More than this of one kind are not listed: whoever has so many starts with the first. */
const MOST_SHOWN = 60;

const titles = new Map(RULES.map(({ code, title }) => [code, title]));

interface Numbered {
  readonly finding: Finding;
  /** Place among all findings of the plan; its marker on the board bears it. */
  readonly index: number;
}

interface FindingsProps {
  readonly findings: readonly Finding[];
  readonly severity: Severity;
  /** One that is told elsewhere. */
  readonly without?: Finding | undefined;
}

/**
 * The findings of one severity, a row for each kind; their numbers are those of the markers on the board. Notes are folded
 * away.
 */
export function Findings({ findings, severity, without }: FindingsProps) {
  const numbered = findings
    .map((finding, index) => ({ finding, index }))
    .filter(({ finding }) => finding.severity === severity && finding !== without);
  if (numbered.length === 0) return null;
  const title = `${GROUP_TITLES[severity]} (${numbered.length})`;
  const byCode = new Map<string, Numbered[]>();
  for (const one of numbered) byCode.set(one.finding.code, [...(byCode.get(one.finding.code) ?? []), one]);
  const list = (
    <ol ref={oneStop} className="findings">
      {[...byCode].map(([code, ofCode]) =>
        ofCode.length > 1 ? (
          <li key={code}>
            <FindingGroup severity={severity} title={titles.get(code) ?? code} findings={ofCode} />
          </li>
        ) : (
          ofCode.map((one) => (
            <li key={one.index}>
              <FindingButton {...one} />
            </li>
          ))
        ),
      )}
    </ol>
  );
  if (severity === 'note') return <Folded title={title}>{list}</Folded>;
  const unmarked = numbered.filter(({ index }) => index >= MOST_MARKERS).length;
  return (
    <section aria-labelledby={`findings-${severity}`}>
      <h3 id={`findings-${severity}`}>{title}</h3>
      {list}
      {unmarked > 0 && (
        <p className="soft findings-unmarked">
          {phrase('{unmarked} more than the drawing marks: point at one here to see its place.', {
            unmarked,
          })}
        </p>
      )}
    </section>
  );
}

interface FindingGroupProps {
  readonly severity: Severity;
  readonly title: string;
  readonly findings: readonly Numbered[];
}

/**
 * The same trouble at several places, one row: `Shadowing: 14 places`, with the numbers of their markers. Opened it says of
 * each what happens there.
 */
function FindingGroup({ severity, title, findings }: FindingGroupProps) {
  const more = findings.length - MOST_PLACES;
  return (
    <div className={`finding-group finding-${severity}`}>
      <Folded
        title={phrase('{title}: {findings, plural, one {# place} other {# places}}', {
          title,
          findings: findings.length,
        })}
      >
        <ol ref={oneStop} className="findings">
          {findings.slice(0, MOST_SHOWN).map((one) => (
            <li key={one.index}>
              <FindingButton {...one} />
            </li>
          ))}
          {findings.length > MOST_SHOWN && (
            <li className="soft">
              {phrase('And {findings} more, which show when these are mended.', {
                findings: findings.length - MOST_SHOWN,
              })}
            </li>
          )}
        </ol>
      </Folded>
      <ul ref={oneStop} className="finding-places" aria-label={phrase('Places: {title}', { title })}>
        {findings.slice(0, MOST_PLACES).map((one) => (
          <li key={one.index}>
            <PlaceButton {...one} />
          </li>
        ))}
        {more > 0 && <li className="soft">{phrase('and {more} more', { more })}</li>}
      </ul>
    </div>
  );
}

/** The number of one place: pointed at it is lit on the board, pressed the board looks at it. */
function PlaceButton({ finding, index }: Numbered) {
  const { isLit, ...press } = useFindingPress(finding, index);
  return (
    <button type="button" className="finding-place" data-lit={isLit} title={finding.message} {...press}>
      {index + 1}
    </button>
  );
}

function useFindingPress({ at }: Finding, index: number) {
  const isLit = useStore(board, ({ lit }) => lit?.kind === 'finding' && lit.index === index);
  const lightIt = (): void => light({ kind: 'finding', index });
  const leaveIt = (): void => light(null);
  return {
    isLit,
    onClick: () => {
      leaveStage();
      zoomTo(at);
    },
    onPointerEnter: lightIt,
    onPointerLeave: leaveIt,
    onFocus: lightIt,
    onBlur: leaveIt,
  };
}

/** One finding: pointed at its place is lit on the board, pressed the board looks at it. */
export function FindingButton({ finding, index }: Numbered) {
  const { isLit, ...press } = useFindingPress(finding, index);
  const { severity, message } = finding;
  return (
    <button type="button" className={`finding finding-${severity}`} data-lit={isLit} {...press}>
      <span className="finding-mark">
        <Icon name={severity} size={18} />
        {index + 1}
      </span>
      <span>
        <b>{SEVERITY_WORDS[severity]}.</b> {message}
      </span>
    </button>
  );
}
