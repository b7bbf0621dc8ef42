import type { Strip } from '../../cutting/cutting-plan.ts';
import { cutMark } from '../../document/cutting-choices.ts';
import type { Fabric, Unit } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import { phrase } from '../../words/phrase.ts';
import { bareLength } from './words.ts';

interface StripDrawingProps {
  readonly strip: Strip;
  readonly nth: number;
  /** Inches across the fabric. */
  readonly width: number;
  readonly fabric: Fabric | null;
  readonly unit: Unit;
  /** Marks of what is cut. */
  readonly done: ReadonlySet<string>;
  /** The lasting id of a patch by its block and the number it is printed with. */
  readonly keyOf: (block: string, patch: string) => string;
}

/** Screen units to the inch in the drawing. */
const SCALE = 20;

/** Strips taller than this are drawn lower than to scale, or they would fill the screen; inches. */
const MOST_IN = 14;

/** Low strips are drawn at least so high that a number can be read, in inches. */
const LEAST_IN = 0.9;

/** One strip to scale, its cuts numbered in the order to make them. */
export function StripDrawing({ strip, nth, width, fabric, unit, done, keyOf }: StripDrawingProps) {
  const squeeze = Math.min(1, MOST_IN / strip.height);
  const height = Math.max(strip.height * squeeze, LEAST_IN);
  const lefts: number[] = [];
  let at = 0;
  for (const cut of strip.cuts) {
    lefts.push(at);
    at += cut.width;
  }
  const said = (inches: number): string => bareLength(inches, unit);
  const label = phrase('Strip {nth}, {height} high: {cuts}', {
    nth,
    height: formatLength(strip.height, unit),
    cuts: strip.cuts
      .map((cut, i) => phrase('cut {i} {width} wide', { i: i + 1, width: formatLength(cut.width, unit) }))
      .join(', '),
  });
  return (
    <figure className="strip">
      <figcaption>
        <b>{nth}</b> {formatLength(strip.height, unit)}
        {squeeze < 1 && <span className="soft">{phrase('drawn lower')}</span>}
      </figcaption>
      <svg
        viewBox={`-1 -1 ${width * SCALE + 2} ${height * SCALE + 2}`}
        role="img"
        aria-label={label}
        className="strip-svg"
      >
        <rect
          width={width * SCALE}
          height={strip.height * squeeze * SCALE}
          fill={fabric?.color ?? 'var(--well)'}
          fillOpacity={0.16}
          stroke="var(--rule-strong)"
          strokeDasharray="4 3"
        />
        {strip.cuts.map((cut, i) => {
          const isDone =
            cut.for.length > 0 &&
            cut.for.every(([block, patch, copy]) =>
              done.has(cutMark([block, keyOf(block, patch), copy], cut)),
            );
          const [x, w, h] = [lefts[i]! * SCALE, cut.width * SCALE, cut.height * squeeze * SCALE];
          const size = `${said(cut.width)}${cut.height < strip.height ? ` × ${said(cut.height)}` : ''}`;
          const isRoomy = cut.height >= 1.3 && w > 6 * size.length;
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: cuts of a strip are known by their order.
            <g key={i} className={isDone ? 'strip-cut strip-cut-done' : 'strip-cut'}>
              <rect x={x} width={w} height={h} fill="var(--card)" stroke="var(--ink)" />
              {cut.kind !== 'rectangle' && <Diagonals cut={cut} x={x} w={w} h={h} />}
              <text x={x + w / 2} y={h / 2 + (isRoomy ? -1 : 5)} className="strip-number">
                {i + 1}
              </text>
              {isRoomy && (
                <text x={x + w / 2} y={h / 2 + 12} className="strip-size">
                  {size}
                </text>
              )}
            </g>
          );
        })}
      </svg>
    </figure>
  );
}

/** Where a cut that yields several pieces is cut again. */
function Diagonals({
  cut,
  x,
  w,
  h,
}: {
  readonly cut: Strip['cuts'][number];
  readonly x: number;
  readonly w: number;
  readonly h: number;
}) {
  const lines: [number, number, number, number][] = cut.slant
    ? [slanted(cut.slant, cut, x, w, h)]
    : [
        [x, 0, x + w, h],
        ...(cut.kind === 'quarter-square' ? [[x + w, 0, x, h] as [number, number, number, number]] : []),
      ];
  return lines.map(([x1, y1, x2, y2]) => (
    <line
      key={`${x1} ${y1} ${x2}`}
      x1={x1}
      y1={y1}
      x2={x2}
      y2={y2}
      stroke="var(--madder)"
      strokeDasharray="5 3"
    />
  ));
}

/** The slanting cut of a rectangle, which may lie turned by a quarter in its strip. */
function slanted(
  [upper, lower]: readonly [number, number],
  { width }: { readonly width: number },
  x: number,
  w: number,
  h: number,
): [number, number, number, number] {
  const isTurned = Math.abs(upper + lower - width) > 1e-6;
  if (!isTurned) return [x + (upper / width) * w, 0, x + (lower / width) * w, h];
  const whole = upper + lower;
  // Turned a quarter to the right: what ran along the top runs down the right side.
  return [x + w, (upper / whole) * h, x, (lower / whole) * h];
}
