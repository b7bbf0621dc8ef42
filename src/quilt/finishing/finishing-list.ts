import type { Finishing } from '../../document/quilt.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { BACKING_EXTRA_IN, type BackingPanels, backingPanels } from './backing.ts';
import { BATTING_EXTRA_IN, battingFor } from './batting.ts';
import { BINDING_WIDTH_IN, type BindingNeed, bindingNeed } from './binding.ts';
import type { PlainPiece } from './plain-pieces.ts';

/** Cloth is 42 to 44 in wide; so much of it is safe to count on. */
export const USABLE_WIDTH_IN = 40;

/** A sleeve finishing 4 in high takes cloth of this height: common practice. */
export const SLEEVE_HEIGHT_IN = 8.5;

/** What is left free at either side by a sleeve, and hemmed, inches: common practice. */
const SLEEVE_SHORTER_IN = 1;

export interface FinishingList {
  readonly size: Point;
  readonly binding: BindingNeed;
  readonly isBias: boolean;
  /** What a strip of binding is cut across, inches. */
  readonly bindingAcross: number;
  /** The cheaper way first. */
  readonly backing: readonly [BackingPanels, BackingPanels];
  /** The package that covers it, null where the largest does not. */
  readonly batting: Point | null;
  readonly battingNeeded: Point;
  /** Cut size, null where none is wanted. */
  readonly sleeve: Point | null;
  readonly label: Point | null;
}

/** What finishes a quilt of a size, with the usual measures where none are set. `seam` is the seam allowance. */
export function finishingList(
  size: Point,
  finishing: Finishing | undefined,
  seam: number,
  usable: { readonly binding: number; readonly backing: number } = {
    binding: USABLE_WIDTH_IN,
    backing: USABLE_WIDTH_IN,
  },
): FinishingList {
  const [w, h] = size;
  const { binding, backing, batting, sleeve, label } = finishing ?? {};
  const isBias = binding?.isBias ?? false;
  const extra = batting?.extra ?? BATTING_EXTRA_IN;
  return {
    size,
    isBias,
    bindingAcross: usable.binding,
    binding: bindingNeed(2 * (w + h), binding?.width ?? BINDING_WIDTH_IN, isBias, usable.binding),
    backing: backingPanels(size, usable.backing, seam, backing?.extra ?? BACKING_EXTRA_IN),
    batting: battingFor(size, extra),
    battingNeeded: [w + 2 * extra, h + 2 * extra],
    sleeve: sleeve ? [w - SLEEVE_SHORTER_IN, sleeve.height] : null,
    label: label ? [label.size[0] + 2 * seam, label.size[1] + 2 * seam] : null,
  };
}

/** What of it is cut from the strips of a fabric: binding, backing, sleeve and label, as plain rectangles. */
export function finishingPieces(list: FinishingList, finishing: Finishing | undefined): PlainPiece[] {
  const piece = (
    what: string,
    fabric: string | undefined,
    [width, height]: Point,
    count: number,
  ): PlainPiece => ({
    what,
    fabric: fabric ?? null,
    width,
    height,
    count,
    pieces: count,
    kind: 'rectangle',
  });
  const { binding, backing, sleeve, label } = list;
  const strips: Point =
    binding.square === null ? [list.bindingAcross, binding.width] : [binding.square, binding.square];
  const pieces = [
    piece(
      binding.square === null ? phrase('Binding strips') : phrase('Square for bias binding'),
      finishing?.binding?.fabric,
      strips,
      binding.square === null ? binding.strips : 1,
    ),
    piece(phrase('Backing panels'), finishing?.backing?.fabric, backing[0].panel, backing[0].panels),
  ];
  if (sleeve) pieces.push(piece(phrase('Hanging sleeve'), finishing?.sleeve?.fabric, sleeve, 1));
  if (label) pieces.push(piece(phrase('Label'), finishing?.label?.fabric, label, 1));
  return pieces;
}
