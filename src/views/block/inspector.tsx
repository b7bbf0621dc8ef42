import { degreesText, setCutAngle, setCutLength } from '../../board/cut-edits.ts';
import { moveCornerAttached, moveEnd } from '../../board/reshape.ts';
import { parseAngle } from '../../board/typing.ts';
import { lengthWords } from '../../board/words.ts';
import type { Block, Cut, Project, Unit } from '../../document/project.ts';
import { formatLength, parseLength } from '../../geometry/length.ts';
import type { Point } from '../../geometry/point.ts';
import { edit } from '../../workspace/actions.ts';
import { session } from '../../workspace/session.ts';
import { NumberField } from './number-field.tsx';

/** What is chosen in exact numbers, each of which can be set as people write them. */

/** Makes the change, and says why when nothing came of it. */
function setBy(label: string, change: (project: Project) => Project): string | null {
  const before = session.getState().project;
  edit(label, change);
  return session.getState().project === before ? 'Nothing can be changed that way.' : null;
}

function setLength(text: string, unit: Unit, set: (inches: number) => string | null): string | null {
  const parsed = parseLength(text, unit);
  return parsed.ok ? set(parsed.inches) : parsed.error;
}

interface PlaceFieldsProps {
  readonly name: string;
  readonly at: Point;
  readonly unit: Unit;
  readonly onSet: (at: Point) => string | null;
}

function PlaceFields({ name, at, unit, onSet }: PlaceFieldsProps) {
  const [x, y] = at;
  return (
    <>
      <NumberField
        label={`${name} across`}
        text={formatLength(x, unit)}
        onSet={(text) => setLength(text, unit, (inches) => onSet([inches, y]))}
      />
      <NumberField
        label={`${name} down`}
        text={formatLength(y, unit)}
        onSet={(text) => setLength(text, unit, (inches) => onSet([x, inches]))}
      />
    </>
  );
}

export function CutInspector({
  block,
  cut,
  unit,
}: {
  readonly block: Block;
  readonly cut: Cut;
  readonly unit: Unit;
}) {
  if (cut.locked === true) return <p className="soft">It is locked: unlock it to change its numbers.</p>;
  const end = (which: 'from' | 'to') => (at: Point) =>
    setBy('Move end of cut', (project) => moveEnd(project, block.id, cut.id, which, at));
  return (
    <div className="inspector">
      <PlaceFields name="Start" at={cut.from} unit={unit} onSet={end('from')} />
      <PlaceFields name="End" at={cut.to} unit={unit} onSet={end('to')} />
      <NumberField
        label="Length"
        text={lengthWords(cut.from, cut.to, unit)}
        onSet={(text) =>
          setLength(text, unit, (inches) =>
            inches <= 0
              ? 'A cut is longer than nothing.'
              : setBy('Set length of cut', (project) => setCutLength(project, block.id, cut, inches)),
          )
        }
      />
      <NumberField
        label="Angle"
        text={degreesText(cut)}
        onSet={(text) => {
          const parsed = parseAngle(text);
          return parsed.ok
            ? setBy('Set angle of cut', (project) => setCutAngle(project, block.id, cut, parsed.degrees))
            : parsed.error;
        }}
      />
    </div>
  );
}

export function CornerInspector({
  block,
  corner,
  unit,
}: {
  readonly block: Block;
  readonly corner: number;
  readonly unit: Unit;
}) {
  return (
    <div className="inspector">
      <PlaceFields
        name="Corner"
        at={block.outline[corner]!}
        unit={unit}
        onSet={(at) => setBy('Move corner', (project) => moveCornerAttached(project, block.id, corner, at))}
      />
    </div>
  );
}
