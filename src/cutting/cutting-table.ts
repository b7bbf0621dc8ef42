import { formatLength, type LengthUnit } from '../geometry/length.ts';
import { phrase } from '../words/phrase.ts';
import type { FabricPlan, Strip, StripCut } from './cutting-plan.ts';

/** What is done with a cut once it lies on the mat. */
export const KIND_WORDS: Readonly<Record<StripCut['kind'], string>> = {
  rectangle: '',
  'half-square': phrase('cut once from corner to corner'),
  'quarter-square': phrase('cut twice from corner to corner'),
  'half-rectangle': phrase('cut once at a slant'),
};

/** The cutting list of some fabrics as a table: a row a cut, in the order to make them, under a row of heads. */
export function cuttingTable(
  fabrics: readonly FabricPlan[],
  unit: LengthUnit,
  names: { readonly fabric: (id: string | null) => string; readonly block: (id: string) => string },
): readonly (readonly string[])[] {
  const said = (inches: number): string => formatLength(inches, unit);
  const rows = (fabric: FabricPlan, from: string, strips: readonly Strip[]): string[][] =>
    strips.flatMap(({ height, cuts }, s) =>
      cuts.map((cut, c) => [
        names.fabric(fabric.fabric),
        from,
        String(s + 1),
        said(height),
        String(c + 1),
        said(cut.width),
        said(cut.height),
        KIND_WORDS[cut.kind],
        cut.what ??
          cut.for
            .map(([block, patch, copy]) =>
              phrase('{block} {patch} copy {copy}', { block: names.block(block), patch, copy }),
            )
            .join('; '),
      ]),
    );
  return [
    [
      phrase('Fabric'),
      phrase('From'),
      phrase('Strip'),
      phrase('Strip height'),
      phrase('Cut'),
      phrase('Width'),
      phrase('Height'),
      phrase('Then'),
      phrase('For'),
    ],
    ...fabrics.flatMap((fabric) => [
      ...fabric.fromStock.flatMap((one, i) =>
        rows(
          fabric,
          phrase('piece {i} at hand, {width} × {height}', {
            i: i + 1,
            width: said(one.width),
            height: said(one.height),
          }),
          one.strips,
        ),
      ),
      ...rows(fabric, phrase('the bolt'), fabric.strips),
    ]),
  ];
}
