declare module 'polylabel' {
  /** Inmost point of a polygon (outer ring, then holes) within `precision`; `distance` to the nearest edge, negative outside. */
  export default function polylabel(
    polygon: readonly (readonly (readonly [number, number])[])[],
    precision?: number,
  ): [number, number] & { readonly distance: number };
}
