import { contrast } from '../../board/draw/contrast.ts';
import { lightnessOfColor } from '../../document/lightness.ts';

/** Lightness as it is shown: L* in whole numbers, 0 black … 100 white. */
export const lightnessNumber = (color: string): number => Math.round(100 * lightnessOfColor(color));

interface FabricNumberProps {
  readonly color: string;
  /** A picture is under it, so that the number needs a slip of paper of its own. */
  readonly isOnPrint?: boolean;
}

/** How light a fabric is, written on its swatch, in black or white: one of them always has a contrast of 4.5 or more. */
export function FabricNumber({ color, isOnPrint = false }: FabricNumberProps) {
  const isLight = contrast(color, '#000000') >= contrast(color, '#ffffff');
  return (
    <span
      className={isOnPrint ? 'fabric-number fabric-number-slip' : 'fabric-number'}
      style={{ color: isLight || isOnPrint ? '#000000' : '#ffffff' }}
      aria-hidden="true"
    >
      {lightnessNumber(color)}
    </span>
  );
}
