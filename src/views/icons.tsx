import type { ReactNode } from 'react';

const dot = (x: number, y: number, r = 1.6) => (
  <circle cx={x} cy={y} r={r} fill="currentColor" stroke="none" />
);

const DRAWINGS = {
  // The board's tools.
  select: <path d="M5 3.2 15.2 10.4 10.6 11.3 8.2 16.2Z" />,
  cut: (
    <>
      <path d="M4.6 15.4 15.4 4.6" />
      {dot(4, 16, 2)}
      {dot(16, 4, 2)}
    </>
  ),
  chain: (
    <>
      <path d="M3.4 14.6 8 6.4 12 12.4 16.6 4.6" />
      {dot(3.4, 15, 1.7)}
      {dot(8, 6, 1.7)}
      {dot(12, 12.8, 1.7)}
      {dot(16.6, 4.4, 1.7)}
    </>
  ),
  // A line that ends at another, what reached past it dotted.
  shorten: (
    <>
      <path d="M11 3V17M2.6 10H11" />
      {dot(13.4, 10, 1)}
      {dot(17, 10, 1)}
    </>
  ),
  outline: (
    <>
      <path d="M5 6 12.5 3.8 16.2 11 10.4 16.2 3.8 13Z" />
      {dot(5, 6)}
      {dot(12.5, 3.8)}
      {dot(16.2, 11)}
      {dot(10.4, 16.2)}
      {dot(3.8, 13)}
    </>
  ),
  paint: (
    <>
      <path d="M8.4 3.2 15.2 10 9 16.2A1.4 1.4 0 0 1 7 16.2L2.2 11.4A1.4 1.4 0 0 1 2.2 9.4Z" />
      <path d="M2 10.4H14.8L9 16.2A1.4 1.4 0 0 1 7 16.2L2.2 11.4Z" fill="currentColor" stroke="none" />
      <path
        d="M17 12.2C17 12.2 18.7 14.3 18.7 15.5A1.7 1.7 0 0 1 15.3 15.5C15.3 14.3 17 12.2 17 12.2Z"
        fill="currentColor"
        stroke="none"
      />
    </>
  ),
  measure: (
    <>
      <path d="M2.6 13.6 13.6 2.6 17.4 6.4 6.4 17.4Z" />
      <path d="M5.2 11 7 12.8M7.8 8.4 10.4 11M10.4 5.8 12.2 7.6" />
    </>
  ),
  pan: (
    <>
      <path d="M10 2.6V17.4M2.6 10H17.4" />
      <path d="M8 4.4 10 2.4 12 4.4M8 15.6 10 17.6 12 15.6M4.4 8 2.4 10 4.4 12M15.6 8 17.6 10 15.6 12" />
    </>
  ),
  fit: (
    <>
      <path d="M3 6.6V3H6.6M13.4 3H17V6.6M17 13.4V17H13.4M6.6 17H3V13.4" />
      <path d="M7 7H13V13H7Z" />
    </>
  ),

  // Plain acts.
  'bring-in': <path d="M10 3V11.4M6.4 8 10 11.6 13.6 8M3.4 10.6V16.6H16.6V10.6" />,
  shelf: (
    <path d="M2.4 15.8H17.6M3.4 7.4H9.2V13.2H3.4ZM10.8 7.4H16.6V13.2H10.8ZM3.4 13.2 9.2 7.4M10.8 7.4 16.6 13.2" />
  ),
  photo: <path d="M3 4.2H17V15.8H3ZM3 13.4 7.6 8.6 11 12.2 13 10.2 17 14M13.4 7.4H13.5" />,
  plus: <path d="M10 4V16M4 10H16" />,
  minus: <path d="M4 10H16" />,
  close: <path d="M5 5 15 15M15 5 5 15" />,
  undo: <path d="M7.4 4.4 3.8 8 7.4 11.6M4.2 8H12A4.2 4.2 0 0 1 12 16.4H8.4" />,
  redo: <path d="M12.6 4.4 16.2 8 12.6 11.6M15.8 8H8A4.2 4.2 0 0 0 8 16.4H11.6" />,
  up: <path d="M10 15.6V4.6M5.4 9 10 4.4 14.6 9" />,
  down: <path d="M10 4.4V15.4M5.4 11 10 15.6 14.6 11" />,
  duplicate: <path d="M7.4 7.4H16.4V16.4H7.4ZM12.6 4.6V3.6H3.6V12.6H4.6" />,
  delete: (
    <path d="M3.8 5.4H16.2M8 5.2V3.4H12V5.2M5.4 5.6 6.2 16.6H13.8L14.6 5.6M8.4 8.6V13.4M11.6 8.6V13.4" />
  ),
  // A piece of printed cloth, its edge pinked.
  cloth: (
    <>
      <path d="M3.4 3.4H16.6V14.6L14.4 16.8 12.2 14.6 10 16.8 7.8 14.6 5.6 16.8 3.4 14.6Z" />
      {dot(7.4, 7, 1.1)}
      {dot(12.6, 7, 1.1)}
      {dot(10, 10.2, 1.1)}
    </>
  ),
  swap: <path d="M3.6 7H15.4M12 3.6 15.6 7 12 10.4M16.4 13H4.6M8 9.6 4.4 13 8 16.4" />,
  values: (
    <>
      <circle cx={10} cy={10} r={6.8} />
      <path d="M10 3.2A6.8 6.8 0 0 0 10 16.8Z" fill="currentColor" />
    </>
  ),
  // What is to be seen without marks.
  eye: (
    <>
      <path d="M2.4 10C4.4 6.6 7 5 10 5S15.6 6.6 17.6 10C15.6 13.4 13 15 10 15S4.4 13.4 2.4 10Z" />
      <circle cx={10} cy={10} r={2.4} />
    </>
  ),
  rename: <path d="M4 16 4.8 12.4 13.4 3.8 16.2 6.6 7.6 15.2ZM11.6 5.6 14.4 8.4" />,
  // The places of the window.
  block: <path d="M3.4 3.4H16.6V16.6H3.4ZM3.4 12.8 16.6 7.2M9.6 10.2V3.4" />,
  quilt: <path d="M3 3H17V17H3ZM3 12.4H17M12.4 3V17M12.4 7.7H17M7.7 12.4V17" />,
  turn: <path d="M15.8 9A6 6 0 1 0 15.2 12.6M16.6 4.6 15.8 9 11.4 8.4" />,
  // A needle with its thread.
  sew: (
    <path d="M3.4 16.6 13 7M13 7A2.1 2.1 0 1 0 16 4 2.1 2.1 0 0 0 13 7ZM15.6 4.6C18 8 14.6 9.6 13 11S11.4 15 14 17" />
  ),
  mirror: <path d="M10 2.6V17.4M7.6 5 2.6 14.6H7.6ZM12.4 5 17.4 14.6H12.4Z" />,
  // Sheets that lie on each other, one with a paper on it.
  sheets: <path d="M6.4 3H16.6V14.2M3.4 5.8H13.8V17H3.4ZM6.2 13.8 11 9V13.8Z" />,
  menu: <path d="M4.4 3.4H12L15.6 7V16.6H4.4ZM12 3.6V7H15.4M7.2 10.4H12.8M7.2 13.2H11" />,
  help: (
    <>
      <circle cx={10} cy={10} r={7} />
      <path d="M7.9 8.2A2.1 2.1 0 1 1 11 9.9C10.3 10.3 10 10.7 10 11.6" />
      {dot(10, 14, 1)}
    </>
  ),
  chevron: <path d="M5.6 7.8 10 12.2 14.4 7.8" />,
  play: <path d="M6.4 3.8 15.8 10 6.4 16.2Z" />,
  pause: <path d="M7 4.4V15.6M13 4.4V15.6" />,
  previous: <path d="M12.2 5 7.4 10 12.2 15" />,
  next: <path d="M7.8 5 12.6 10 7.8 15" />,
  first: <path d="M4.6 4H15.4M10 16.4V7.4M6 11.2 10 7.2 14 11.2" />,
  grip: (
    <>
      {dot(7.4, 5.4, 1.2)}
      {dot(12.6, 5.4, 1.2)}
      {dot(7.4, 10, 1.2)}
      {dot(12.6, 10, 1.2)}
      {dot(7.4, 14.6, 1.2)}
      {dot(12.6, 14.6, 1.2)}
    </>
  ),

  // The check at work, what mends a drawing, and what is looked for.
  updating: (
    <>
      <path d="M15.6 8.2A6 6 0 0 0 4.9 6.8M4.4 11.8A6 6 0 0 0 15.1 13.2" />
      <path d="M4.6 3.4V7.1H8.3M15.4 16.6V12.9H11.7" />
    </>
  ),
  repair: (
    <>
      <path d="M16.8 3.2 8.6 11.4" />
      <path d="M14.7 3.6 16.4 5.3" />
      <path d="M8.6 11.4C5 10.4 2.6 12.6 3 16.6C6 17.4 8.8 16 8 13.4" strokeDasharray="2.4 1.8" />
    </>
  ),
  adjust: (
    <>
      <path d="M3 6H10M14 6H17M3 14H6M10 14H17" />
      <circle cx={12} cy={6} r={2} />
      <circle cx={8} cy={14} r={2} />
    </>
  ),

  // What a finding says. Each has a shape of its own, so that colour is never the only word.
  good: (
    <>
      <circle cx={10} cy={10} r={7.2} />
      <path d="M6.6 10.4 9 12.8 13.6 7.4" />
    </>
  ),
  trouble: (
    <>
      <path d="M7 2.6H13L17.4 7V13L13 17.4H7L2.6 13V7Z" />
      <path d="M10 6V10.6" />
      {dot(10, 13.6, 1.1)}
    </>
  ),
  caution: (
    <>
      <path d="M10 2.8 17.8 16.4H2.2Z" />
      <path d="M10 7.6V11.4" />
      {dot(10, 13.9, 1)}
    </>
  ),
  note: (
    <>
      <circle cx={10} cy={10} r={7.2} />
      <path d="M10 9.2V14" />
      {dot(10, 6.4, 1.1)}
    </>
  ),
} satisfies Record<string, ReactNode>;

export type IconName = keyof typeof DRAWINGS;

interface IconProps {
  readonly name: IconName;
  /** CSS pixels; 20 unless told. */
  readonly size?: number;
}

/** One drawing of the set: 20 units square, 1.5 wide strokes with round ends, in the colour of the text. */
export function Icon({ name, size = 20 }: IconProps) {
  return (
    <svg
      className="icon"
      width={size}
      height={size}
      viewBox="0 0 20 20"
      fill="none"
      stroke="currentColor"
      strokeWidth={1.5}
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
      focusable="false"
    >
      {DRAWINGS[name]}
    </svg>
  );
}

/** The maker's mark: a sheet with a folded corner and one line of stitches. */
export function MarkIcon({ size = 24 }: { readonly size?: number }) {
  return (
    <svg width={size} height={size} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path
        d="M3.5 3.5H15L20.5 9V20.5H3.5Z"
        fill="var(--sheet)"
        stroke="var(--ink)"
        strokeWidth={1.4}
        strokeLinejoin="round"
      />
      <path
        d="M15 3.5 20.5 9H15Z"
        fill="var(--madder)"
        stroke="var(--ink)"
        strokeWidth={1.4}
        strokeLinejoin="round"
      />
      <path
        d="M3.5 17.5 17 6.5"
        stroke="var(--madder)"
        strokeWidth={1.8}
        strokeDasharray="2.6 2"
        fill="none"
      />
    </svg>
  );
}
