import type { Fabric } from '../../document/project.ts';
import type { Finishing } from '../../document/quilt.ts';
import { BACKING_EXTRA_IN } from '../../quilt/finishing/backing.ts';
import type { FinishingList } from '../../quilt/finishing/finishing-list.ts';
import { phrase } from '../../words/phrase.ts';

/** What a binding shows of itself on either side once it is folded over, as a share of its cut width: common practice. */
const BINDING_SHOWS = 1 / 5;

interface QuiltBackProps {
  readonly list: FinishingList;
  readonly finishing: Finishing;
  readonly fabrics: readonly Fabric[];
  readonly seam: number;
}

/**
 * The quilt from behind, to scale: the backing with what it has more at every side, its panels, and on it the quilt
 * with binding, sleeve and label, each in its fabric.
 */
export function QuiltBack({ list, finishing, fabrics, seam }: QuiltBackProps) {
  const [w, h] = list.size;
  if (!(w > 0) || !(h > 0)) return null;
  const extra = finishing.backing?.extra ?? BACKING_EXTRA_IN;
  const [{ panels, panel, seams }] = list.backing;
  const isUpright = seams === 'upright';
  const colorOf = (id: string | undefined): string =>
    fabrics.find((fabric) => fabric.id === id)?.color ?? 'var(--sheet)';
  const thin = Math.max(w, h) / 200;
  const line = { stroke: 'var(--ink)', strokeWidth: thin };
  const edge = BINDING_SHOWS * list.binding.width;
  // The panels lie about the middle; what is over is trimmed.
  const step = (isUpright ? panel[0] : panel[1]) - 2 * seam;
  const joints = Array.from({ length: panels - 1 }, (_, k) => (k + 1 - panels / 2) * step);
  const { sleeve, label } = list;
  // Cut with a seam all round and folded along its length.
  const [sleeveWidth, sleeveHeight] = sleeve ? [sleeve[0], (sleeve[1] - 2 * seam) / 2] : [0, 0];
  const [labelWidth, labelHeight] = label ? [label[0] - 2 * seam, label[1] - 2 * seam] : [0, 0];
  const pad = Math.max(w, h) / 60;
  const parts = [
    phrase('{panels, plural, =1 {one panel} other {# panels}}', { panels }),
    phrase('binding'),
    ...(sleeve ? [phrase('sleeve')] : []),
    ...(label ? [phrase('label')] : []),
  ];
  return (
    <figure className="quilt-back">
      <svg
        viewBox={`${-extra - pad} ${-extra - pad} ${w + 2 * (extra + pad)} ${h + 2 * (extra + pad)}`}
        role="img"
        aria-label={phrase('The quilt from behind: {parts}', { parts: parts.join(', ') })}
      >
        <rect
          x={-extra}
          y={-extra}
          width={w + 2 * extra}
          height={h + 2 * extra}
          fill={colorOf(finishing.backing?.fabric)}
          {...line}
          strokeDasharray={`${4 * thin} ${3 * thin}`}
        />
        {joints.map((at) => (
          <path
            key={at}
            d={isUpright ? `M${w / 2 + at} ${-extra}V${h + extra}` : `M${-extra} ${h / 2 + at}H${w + extra}`}
            stroke="var(--madder)"
            strokeWidth={2 * thin}
            strokeDasharray={`${5 * thin} ${3 * thin}`}
          />
        ))}
        <path
          d={`M0 0H${w}V${h}H0ZM${edge} ${edge}V${h - edge}H${w - edge}V${edge}Z`}
          fill={colorOf(finishing.binding?.fabric)}
          {...line}
          strokeWidth={thin / 3}
        />
        {sleeve && (
          <rect
            x={(w - sleeveWidth) / 2}
            y={2 * edge}
            width={sleeveWidth}
            height={sleeveHeight}
            fill={colorOf(finishing.sleeve?.fabric)}
            {...line}
          />
        )}
        {label && (
          <rect
            x={w - 4 * edge - labelWidth}
            y={h - 4 * edge - labelHeight}
            width={labelWidth}
            height={labelHeight}
            fill={colorOf(finishing.label?.fabric)}
            {...line}
          />
        )}
      </svg>
      <figcaption className="soft">
        {phrase(
          'From behind, to scale. The dashed outline is the backing before it is trimmed, dashed red its seams.',
        )}
      </figcaption>
    </figure>
  );
}
