import { labOfColor } from '../document/lab.ts';
import type { Block, Fabric } from '../document/project.ts';
import { snapPoint } from '../geometry/lattice.ts';
import type { Point } from '../geometry/point.ts';
import { phrase } from '../words/phrase.ts';
import type { PictureDrawing } from './blocks-of.ts';
import { middleOf } from './convex.ts';

/** A block made from a picture, as any other block is: every line editable, every patch painted. */
export interface Drawn {
  readonly block: Block;
  /** New fabrics, in the order of their lightness; none of those that were at hand. */
  readonly fabrics: readonly Fabric[];
}

/**
 * The block drawn on the lattice. `atHand`: ids of the fabrics that were offered; `freshId(n)` gives the id of the nth
 * new fabric. A spot inside stands for each patch.
 */
export function drawnBlock(
  picture: PictureDrawing,
  { id, name, outline }: Pick<Block, 'id' | 'name' | 'outline'>,
  atHand: readonly string[],
  freshId: (n: number) => string,
): Drawn {
  const names = new Map<string, number>();
  const fresh: Fabric[] = [];
  const ids = picture.fabrics.map(({ color, atHand: known }) => {
    if (known !== undefined) return atHand[known]!;
    const fabric = { id: freshId(fresh.length + 1), name: numbered(nameOf(color), names), color };
    fresh.push(fabric);
    return fabric.id;
  });
  return {
    fabrics: fresh,
    block: {
      id,
      name,
      outline,
      cuts: picture.lines.map(([x1, y1, x2, y2], k) => ({
        id: `c${k + 1}`,
        from: snapPoint([x1, y1]),
        to: snapPoint([x2, y2]),
        role: 'auto' as const,
      })),
      patches: picture.patches.map(({ piece, fabric }, k) => ({
        id: `p${k + 1}`,
        at: snapPoint(middleOf(piece) as Point),
        fabric: ids[fabric]!,
      })),
    },
  };
}

function numbered(name: string, names: Map<string, number>): string {
  const nth = (names.get(name) ?? 0) + 1;
  names.set(name, nth);
  return nth === 1 ? name : `${name} ${nth}`;
}

/** Hue angles in CIELAB where one name gives way to the next, degrees; by eye, from memory. */
const HUES: readonly (readonly [end: number, name: string])[] = [
  [20, phrase('[[hue]] pink')],
  [55, phrase('[[hue]] red')],
  [75, phrase('[[hue]] orange')],
  [105, phrase('[[hue]] yellow')],
  [165, phrase('[[hue]] green')],
  [220, phrase('[[hue]] teal')],
  [290, phrase('[[hue]] blue')],
  [325, phrase('[[hue]] violet')],
  [360, phrase('[[hue]] pink')],
];

/** From red to green: what is dark or dull here anybody calls brown. */
const BROWN_HUES = [55, 105] as const;

/** What a colour would be called on a swatch: how light, and which hue. */
export function nameOf(color: string): string {
  const { l, a, b } = labOfColor(color);
  const chroma = Math.hypot(a, b);
  const depth =
    l > 80
      ? phrase('Light')
      : l > 60
        ? phrase('Soft')
        : l > 35
          ? phrase('Medium')
          : l > 15
            ? phrase('Dark')
            : phrase('Deep');
  if (chroma < 6)
    return l > 95 ? phrase('White') : l < 8 ? phrase('Black') : phrase('{depth} grey', { depth });
  const angle = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  const isWarm = angle >= BROWN_HUES[0] && angle < BROWN_HUES[1];
  if (isWarm && (l < 55 || (l < 75 && chroma < 25))) return phrase('{depth} brown', { depth });
  return phrase('{depth} {hue}', { depth, hue: HUES.find(([end]) => angle < end)![1] });
}
