import { type BookletPart, PART_NAMES } from '../../foundations/booklet/parts.ts';
import { phrase } from '../../words/phrase.ts';
import { paperSettings } from '../../workspace/paper-settings.ts';

/** Every part in the order in which they are offered, with what it is good for. */
const OFFERED: readonly (readonly [BookletPart, string])[] = [
  ['foundations', phrase('The papers to sew on, at true scale')],
  ['cutting', phrase('How much of each fabric, its strips drawn, what each cut is for')],
  ['guide', phrase('One step per join: what to pin, how to press')],
  ['cover', phrase('The blocks in colour, sizes and fabrics')],
  ['line-drawing', phrase('The bare lines of each block')],
  ['templates', phrase('Every patch with its allowance, not mirrored')],
  ['index', phrase('On which sheet each paper lies, with boxes to tick')],
  ['labels', phrase('Fabric, code and patches of each pile')],
  ['cautions', phrase('For cutter, iron, needles, glue and magnets')],
  ['freezer', phrase('How to sew beside a paper that is ironed on and used again')],
];

/** What to print of the chosen blocks. */
export function PartChoice({ parts }: { readonly parts: ReadonlySet<BookletPart> }) {
  const set = (part: BookletPart, isWanted: boolean): void => {
    const next = new Set(parts);
    if (isWanted) next.add(part);
    else next.delete(part);
    paperSettings.setState({ parts: next });
  };
  return (
    <section className="paper-parts" aria-labelledby="paper-parts-title">
      <h3 id="paper-parts-title">{phrase('What to print')}</h3>
      <ul>
        {OFFERED.map(([part, hint]) => (
          <li key={part}>
            <label className="paper-part">
              <input
                type="checkbox"
                checked={parts.has(part)}
                aria-describedby={`paper-part-${part}`}
                onChange={(event) => set(part, event.target.checked)}
              />
              <span>{PART_NAMES[part]}</span>
            </label>
            <p id={`paper-part-${part}`} className="paper-hint">
              {hint}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
