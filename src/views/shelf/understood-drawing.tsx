import type { LeftOutKind } from '../../document/import-svg/read-svg.ts';
import type { ImportedBlock } from '../../document/import-svg/to-block.ts';
import type { Unit } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import type { Segment } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Understood } from '../../workspace/drawing-client.ts';
import { Icon } from '../icons.tsx';

/** What becomes the block in ink, what is left out broken and in red. */
export function DrawingPicture({ imported }: { readonly imported: ImportedBlock }) {
  const { outline, cuts, outside, skipped } = imported;
  const left = [...outside, ...skipped];
  const { minX, minY, maxX, maxY } = boxOf([...outline, ...left.flat()]);
  const extent = Math.max(maxX - minX, maxY - minY);
  const line = extent / 340;
  const lines = (segments: readonly Segment[]): string =>
    segments.map(([a, b]) => `M${a.join(' ')}L${b.join(' ')}`).join('');
  return (
    <svg
      className="bring-in-picture"
      viewBox={`${(minX + maxX - extent) / 2 - 8 * line} ${(minY + maxY - extent) / 2 - 8 * line} ${extent + 16 * line} ${extent + 16 * line}`}
      role="img"
      aria-label={phrase(
        'The block with {cuts, plural, one {# line} other {# lines}}{isLeft, select, true {, and {left, plural, one {# line} other {# lines}} left out} other {}}',
        { cuts: cuts.length, isLeft: left.length > 0, left: left.length },
      )}
    >
      <polygon
        points={outline.map((p) => p.join(',')).join(' ')}
        fill="var(--sheet)"
        stroke="var(--sheet-ink)"
        strokeWidth={2.4 * line}
        strokeLinejoin="round"
      />
      <path d={lines(cuts)} stroke="var(--sheet-ink)" strokeWidth={1.2 * line} strokeLinecap="round" />
      <path
        d={lines(left)}
        stroke="var(--madder)"
        strokeWidth={1.6 * line}
        strokeDasharray={`${5 * line} ${4 * line}`}
      />
    </svg>
  );
}

interface DrawingWordsProps {
  readonly understood: Understood;
  readonly imported: ImportedBlock;
  readonly unit: Unit;
  readonly isSized: boolean;
}

const LEFT_OUT_WORDS: Readonly<Record<LeftOutKind, (count: number) => string>> = {
  text: (n) => phrase('{n, plural, one {# piece} other {# pieces}} of text', { n }),
  picture: (n) =>
    phrase('{n, plural, one {# picture} other {# pictures}} inside it (nothing is fetched)', { n }),
  copy: (n) => phrase('{n, plural, one {# copy} other {# copies}} of other parts (‘use’)', { n }),
  script: (n) => phrase('{n, plural, one {# script} other {# scripts}} (nothing is ever run)', { n }),
  foreign: (n) => phrase('{n, plural, one {# piece} other {# pieces}} of another kind of document', { n }),
  hidden: (n) => phrase('{n, plural, one {# hidden shape} other {# hidden shapes}}', { n }),
  background: () => phrase('the colour of the page'),
  unreadable: (n) =>
    phrase('{n, plural, one {# shape} other {# shapes}} with numbers that cannot be read', { n }),
  'part-of-path': (n) => phrase('the unreadable end of {n, plural, one {# path} other {# paths}}', { n }),
  curve: (n) => phrase('{n, plural, one {# curve} other {# curves}}', { n }),
};

/** What was understood, what was done to it, and what was left out. */
export function DrawingWords({ understood, imported, unit, isSized }: DrawingWordsProps) {
  const { outline, pieces, repeated, joined, outside, cuts } = imported;
  const { maxX, maxY } = boxOf(outline);
  const length = (inches: number): string => formatLength(Math.round(inches * 64) / 64, unit);
  const left = [
    ...[...understood.leftOut].map(([kind, times]) => LEFT_OUT_WORDS[kind](times)),
    ...(outside.length > 0
      ? [
          phrase('{outside, plural, one {# line} other {# lines}} outside the outline', {
            outside: outside.length,
          }),
        ]
      : []),
  ];
  return (
    <div className="bring-in-words" role="status">
      <p>
        <b>{sewn(understood)}</b>
      </p>
      <p>
        {phrase(
          '{isSized, select, true {{maxX} by {maxY} finished. } other {}}{pieces, plural, one {# straight piece} other {# straight pieces}} became {cuts, plural, one {# line} other {# lines}} and an outline of {outline, plural, one {# side} other {# sides}}{isRepeated, select, true {; {repeated} lay on others} other {}}{isJoined, select, true {; {joined, plural, one {# end} other {# ends}} moved to meet} other {}}.',
          {
            isSized,
            maxX: length(maxX),
            maxY: length(maxY),
            pieces,
            cuts: cuts.length,
            outline: outline.length,
            isRepeated: repeated > 0,
            repeated,
            isJoined: joined > 0,
            joined,
          },
        )}
      </p>
      {left.length > 0 && (
        <p className="bring-in-left">
          <Icon name="caution" size={18} />
          <span>{phrase('Left out: {left}.', { left: left.join(', ') })}</span>
        </p>
      )}
    </div>
  );
}

/** What the block will be to sew. */
function sewn({ patches: count, numbers }: Understood): string {
  if (count === null || count === 0) return phrase('It cannot be divided into patches.');
  if (count === 1) return phrase('One patch, nothing to sew.');
  const patches = phrase('{count, plural, one {# patch} other {# patches}}', { count });
  if (numbers === null)
    return phrase('{patches}. How they are sewn is worked out once the block is added.', { patches });
  const { foundations, isSetIn } = numbers;
  return isSetIn
    ? phrase('{patches}, with set-in seams.', { patches })
    : phrase('{patches}, sewn on {foundations, plural, one {# foundation} other {# foundations}}.', {
        patches,
        foundations,
      });
}
