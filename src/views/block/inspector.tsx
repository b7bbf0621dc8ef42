import { editEverywhere } from '../../board/board-acts.ts';
import type { Block, Cut, Project, Unit } from '../../document/project.ts';
import {
  degreesText,
  setCutsAngle,
  setCutsEnd,
  setCutsLength,
  setEdgeAngle,
  setEdgeLength,
} from '../../editing/cut-edits.ts';
import { moveCornerAttached } from '../../editing/reshape.ts';
import { parseAngle } from '../../editing/typing.ts';
import { lengthText } from '../../editing/words.ts';
import { formatLength, parseLength } from '../../geometry/length.ts';
import type { Point } from '../../geometry/point.ts';
import { edgesOf } from '../../geometry/segments.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { DIFFER, NumberField } from './number-field.tsx';

/** What is chosen in exact numbers, each of which can be set as people write them. */

/** Makes the change as one step of the history, and says why when nothing came of it. */
function setBy(label: string, change: (project: Project) => Project): string | null {
  const before = session.getState().project;
  editEverywhere(label, change);
  return session.getState().project === before ? phrase('Nothing can be changed that way.') : null;
}

interface SetProps {
  readonly label: string;
  /** As it stands. */
  readonly text: string;
  readonly unit: Unit;
  readonly onSet: (inches: number) => string | null;
}

/** A coordinate: any length, also nothing and less. */
const PlaceField = ({ label, text, unit, onSet }: SetProps) => (
  <NumberField
    label={label}
    text={text}
    onSet={(typed) => {
      const parsed = parseLength(typed, unit);
      if (!parsed.ok) return parsed.error;
      // What says the same in other signs is no change.
      return formatLength(parsed.inches, unit) === text ? null : onSet(parsed.inches);
    }}
  />
);

const LengthField = (props: SetProps) => (
  <PlaceField
    {...props}
    onSet={(inches) => (inches <= 0 ? phrase('A length must be greater than 0.') : props.onSet(inches))}
  />
);

function AngleField({
  text,
  onSet,
}: Pick<SetProps, 'text'> & { readonly onSet: (degrees: number) => string | null }) {
  return (
    <NumberField
      label={phrase('Angle')}
      text={text}
      onSet={(typed) => {
        const parsed = parseAngle(typed);
        if (!parsed.ok) return parsed.error;
        return `${parsed.degrees}°` === text ? null : onSet(parsed.degrees);
      }}
    />
  );
}

/** The text that all of them share. */
const shared = <Thing,>(things: readonly Thing[], text: (thing: Thing) => string): string => {
  const [first, ...others] = things.map(text);
  return others.every((other) => other === first) ? (first ?? '') : DIFFER;
};

interface CutsInspectorProps {
  readonly block: Block;
  /** At least one. */
  readonly cuts: readonly Cut[];
  readonly unit: Unit;
}

/** The numbers of the chosen cuts: what they share, and where they differ. What is set is set for all of them. */
export function CutsInspector({ block, cuts, unit }: CutsInspectorProps) {
  const locked = cuts.filter((cut) => cut.locked === true).length;
  if (locked === cuts.length)
    return (
      <p className="soft">
        {phrase(
          '{locked, plural, one {It is locked: unlock it} other {They are locked: unlock them}} to change numbers.',
          { locked },
        )}
      </p>
    );
  const ids = cuts.map(({ id }) => id);
  const place = (label: string, end: 'from' | 'to', axis: 0 | 1) => (
    <PlaceField
      label={label}
      text={shared(cuts, (cut) => formatLength(cut[end][axis], unit))}
      unit={unit}
      onSet={(inches) =>
        setBy(
          phrase('{n, plural, one {Move end of line} other {Move ends of lines}}', { n: cuts.length }),
          (project) => setCutsEnd(project, block.id, ids, end, axis === 0 ? { x: inches } : { y: inches }),
        )
      }
    />
  );
  return (
    <>
      <div className="inspector">
        {place(phrase('Start across'), 'from', 0)}
        {place(phrase('Start down'), 'from', 1)}
        {place(phrase('End across'), 'to', 0)}
        {place(phrase('End down'), 'to', 1)}
        <LengthField
          label={phrase('Length')}
          text={shared(cuts, ({ from, to }) => lengthText(from, to, unit))}
          unit={unit}
          onSet={(inches) =>
            setBy(
              phrase('{n, plural, one {Set length of line} other {Set length of lines}}', { n: cuts.length }),
              (project) => setCutsLength(project, block.id, ids, inches),
            )
          }
        />
        <AngleField
          text={shared(cuts, degreesText)}
          onSet={(degrees) =>
            setBy(
              phrase('{n, plural, one {Set angle of line} other {Set angle of lines}}', { n: cuts.length }),
              (project) => setCutsAngle(project, block.id, ids, degrees),
            )
          }
        />
      </div>
      {locked > 0 && (
        <p className="soft">
          {locked === 1
            ? phrase('1 of them is locked and stays.')
            : phrase('{locked} of them are locked and stay.', { locked })}
        </p>
      )}
    </>
  );
}

interface CornerInspectorProps {
  readonly block: Block;
  readonly corner: number;
  readonly unit: Unit;
}

export function CornerInspector({ block, corner, unit }: CornerInspectorProps) {
  const [x, y] = block.outline[corner]!;
  const move = (at: Point) =>
    setBy(phrase('Move corner'), (project) => moveCornerAttached(project, block.id, corner, at));
  return (
    <div className="inspector">
      <PlaceField
        label={phrase('Corner across')}
        text={formatLength(x, unit)}
        unit={unit}
        onSet={(inches) => move([inches, y])}
      />
      <PlaceField
        label={phrase('Corner down')}
        text={formatLength(y, unit)}
        unit={unit}
        onSet={(inches) => move([x, inches])}
      />
    </div>
  );
}

interface EdgeInspectorProps {
  readonly block: Block;
  readonly edge: number;
  readonly unit: Unit;
}

/** Length and angle of an edge; the corner at its end moves, and what ends on the outline there follows. */
export function EdgeInspector({ block, edge, unit }: EdgeInspectorProps) {
  const [from, to] = edgesOf(block.outline)[edge]!;
  return (
    <div className="inspector inspector-row">
      <LengthField
        label={phrase('Length')}
        text={lengthText(from, to, unit)}
        unit={unit}
        onSet={(inches) =>
          setBy(phrase('Set length of edge'), (project) => setEdgeLength(project, block.id, edge, inches))
        }
      />
      <AngleField
        text={degreesText({ from, to })}
        onSet={(degrees) =>
          setBy(phrase('Set angle of edge'), (project) => setEdgeAngle(project, block.id, edge, degrees))
        }
      />
    </div>
  );
}
