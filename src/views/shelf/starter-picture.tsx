import type { Fabric } from '../../document/project.ts';
import { suggestFabrics } from '../../document/starters/shelf.ts';
import type { GridDrawing } from '../../document/starters/starter.ts';
import { SmallBlock } from '../small-block.tsx';

interface StarterPictureProps {
  readonly drawing: GridDrawing;
  /** The project's, when they are to be laid; with none the tones are hinted at in greys. */
  readonly fabrics: readonly Fabric[];
  /** CSS pixels, both ways. */
  readonly size: number;
  /** Without any hint at tones: as it will be when no fabric is laid. */
  readonly isBare?: boolean;
}

/** Starting points have no size yet; prints are shown as in a block of this many inches, a common one (common practice). */
const USUAL_IN = 12;

const GREYS = { light: 'var(--sheet)', medium: 'var(--tone-medium)', dark: 'var(--tone-dark)' } as const;

/** A starting point, small: its tiles as they are drawn, before anything is worked out. */
export function StarterPicture({ drawing, fabrics, size, isBare = false }: StarterPictureProps) {
  const suggested = suggestFabrics(fabrics);
  // Tiles have no names, and stay in their order.
  const pieces = drawing.tiles.map(({ ring, tone }, i) => ({
    key: i,
    rings: [ring],
    fabric: suggested?.[tone],
    bare: GREYS[isBare ? 'light' : tone],
  }));
  return (
    <SmallBlock outline={drawing.outline} pieces={pieces} fabrics={fabrics} size={size} inches={USUAL_IN} />
  );
}
