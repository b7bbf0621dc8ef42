/**
 * Colours of the drawing. The sheet is light in the light and in the dark theme, so that fabrics look like
 * themselves; these are the values of `--sheet`, `--sheet-ink` and the threads of the light theme.
 */
export const INKS = {
  sheet: '#fbf9f3',
  ink: '#1f2530',
  inkSoft: '#5e6067',
  rule: '#d5cebe',
  grid: '#ebe6da',
  gridStrong: '#dcd5c4',
  madder: '#a6322b',
  indigo: '#2c4a85',
  moss: '#33704a',
  ochre: '#94630b',
  shade: 'rgb(31 37 48 / 16%)',
  /** Beneath cuts, so that a line between two dark fabrics is still seen. */
  lineHalo: 'rgb(251 249 243 / 38%)',
  /** Beneath lines, stitches and letters on a print: ink on it has a contrast of 4.5 or more, whatever is under it. */
  printHalo: 'rgb(251 249 243 / 84%)',
  /** Beneath cuts between prints: thin, so that little of the print is lost, and still a contrast of 3 or more. */
  printLineHalo: 'rgb(251 249 243 / 60%)',
  veil: 'rgb(251 249 243 / 72%)',
} as const;

/** How a section's edge is told from its neighbours': a colour and a rhythm of stitches, both by its letter. */
export interface Thread {
  readonly color: string;
  /** The same dye on a dark fabric. */
  readonly pale: string;
  /** Stitch and gap in turn, CSS pixels. */
  readonly dash: readonly number[];
}

const COLORS = [
  { color: '#2c4a85', pale: '#b7c8ee' },
  { color: '#33704a', pale: '#a9dcbc' },
  { color: '#94630b', pale: '#f0cf8d' },
  { color: '#6b3f7d', pale: '#dcbdea' },
  { color: '#1f6f78', pale: '#a3dbe2' },
] as const;
const DASHES: readonly (readonly number[])[] = [
  [12, 4],
  [2, 4],
  [12, 4, 2, 4],
  [6, 6],
  [12, 3, 2, 3, 2, 3],
  [2, 9],
];

/** The thread of the section at `index` in letter order. Colour and rhythm repeat together only after thirty. */
export const threadOf = (index: number): Thread => ({
  ...COLORS[index % COLORS.length]!,
  dash: DASHES[index % DASHES.length]!,
});
