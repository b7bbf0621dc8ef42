import { type CSSProperties, type ReactNode, useId } from 'react';
import { useStore } from 'zustand';
import { downOf } from '../document/fabric-picture.ts';
import type { Fabric } from '../document/project.ts';
import type { Point } from '../geometry/point.ts';
import { pictures, tileAddress } from '../workspace/fabric-pictures.ts';

/** Draws again what shows fabrics when a picture has become ready. */
export const usePictures = (): number => useStore(pictures, (state) => state.ready);

interface FabricFills {
  /** To stand in the drawing before what is filled. */
  readonly defs: ReactNode;
  /** The fill of a fabric by its id; undefined for none. */
  readonly fillOf: (fabricId: string | null | undefined) => string | undefined;
}

interface Laid {
  /** CSS pixels to the inch of the block. */
  readonly pxPerIn: number;
  /** Units of the drawing to the inch of the block, 1 unless told, and where the block's [0, 0] lies in it. */
  readonly scale?: number;
  readonly origin?: Point;
}

/** Fills of an SVG drawing: colours, and prints at their true scale where a fabric in `used` has a picture. */
export function useFabricFills(
  fabrics: readonly Fabric[],
  used: ReadonlySet<string>,
  { pxPerIn, scale = 1, origin = [0, 0] }: Laid,
): FabricFills {
  const id = useId();
  usePictures();
  const density = globalThis.devicePixelRatio || 1;
  const fills = new Map(fabrics.map((fabric) => [fabric.id, fabric.color]));
  const patterns: ReactNode[] = [];
  for (const [i, fabric] of fabrics.entries()) {
    const { picture } = fabric;
    if (picture === undefined || !used.has(fabric.id)) continue;
    const address = tileAddress(picture, picture.across * pxPerIn * density);
    if (address === null) continue;
    const [width, height] = [scale * picture.across, scale * downOf(picture)];
    fills.set(fabric.id, `url(#${id}-${i})`);
    patterns.push(
      <pattern
        key={fabric.id}
        id={`${id}-${i}`}
        patternUnits="userSpaceOnUse"
        x={origin[0]}
        y={origin[1]}
        width={width}
        height={height}
      >
        <image href={address} width={width} height={height} preserveAspectRatio="none" />
      </pattern>,
    );
  }
  return {
    defs: patterns.length === 0 ? null : <defs>{patterns}</defs>,
    fillOf: (fabricId) => (fabricId == null ? undefined : fills.get(fabricId)),
  };
}

/** As wide as swatches are, with room for sharp screens, pixels. */
const SWATCH_PX = 88;

/** How a swatch shows a fabric: the whole of its picture, or its colour. */
export function swatchStyle({ color, picture }: Fabric): CSSProperties {
  const address = picture === undefined ? null : tileAddress(picture, SWATCH_PX);
  return address === null
    ? { backgroundColor: color }
    : {
        backgroundColor: color,
        backgroundImage: `url("${address}")`,
        backgroundSize: 'cover',
        backgroundPosition: 'center',
      };
}
