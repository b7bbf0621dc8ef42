import { contrast } from '../../board/draw/contrast.ts';
import { lightnessOfColor } from '../../document/lightness.ts';

/** Lightness as it is shown: L* in whole numbers, 0 black … 100 white. */
export const lightnessNumber = (color: string): number => Math.round(100 * lightnessOfColor(color));

/** How light a fabric is, written on its swatch, in black or white: one of them always has a contrast of 4.5 or more. */
export function FabricNumber({ color }: { readonly color: string }) {
  const ink = contrast(color, '#000000') >= contrast(color, '#ffffff') ? '#000000' : '#ffffff';
  return (
    <span className="fabric-number" style={{ color: ink }} aria-hidden="true">
      {lightnessNumber(color)}
    </span>
  );
}
