import { MM_PER_IN } from '../geometry/lattice.ts';
import { parseLength } from '../geometry/length.ts';
import { phrase } from '../words/phrase.ts';

/** A size of paper, upright: width is the shorter side. Inches. */
export interface Page {
  readonly name: string;
  readonly width: number;
  readonly height: number;
}

const mm = (name: string, width: number, height: number): Page => ({
  name,
  width: width / MM_PER_IN,
  height: height / MM_PER_IN,
});

/** The named pages. A sizes: ISO 216, exact millimetres. Letter, Legal and Tabloid: 8.5 × 11, 8.5 × 14, 11 × 17 in. */
export const PAGES = {
  letter: { name: phrase('Letter'), width: 8.5, height: 11 },
  legal: { name: phrase('Legal'), width: 8.5, height: 14 },
  tabloid: { name: phrase('Tabloid'), width: 11, height: 17 },
  a4: mm('A4', 210, 297),
  a3: mm('A3', 297, 420),
} as const satisfies Readonly<Record<string, Page>>;

export type PageName = keyof typeof PAGES;

/** Common safe value for what a printer cannot reach, in inches (6.35 mm). */
export const DEFAULT_MARGIN_IN = 0.25;

/** Smallest side of a page: the test square, the 50 mm line and a piece of foundation must find room. */
export const SMALLEST_PAGE_IN = 3.75;

/** Largest side of a page: 14,400 units of 1/72 in, beyond which viewers need not follow (ISO 32000-1, annex C). */
export const LARGEST_PAGE_IN = 200;

export type PageChoice =
  | { readonly ok: true; readonly page: Page }
  /** One plain sentence. */
  | { readonly ok: false; readonly error: string };

/**
 * Reads a page: `letter`, `legal`, `tabloid`, `a4`, `a3`, or a typed size such as `8.5x14in`, `8 1/2 x 11 in`
 * or `210x297mm`. The unit must be typed. Which side is named first does not matter.
 */
export function readPage(text: string): PageChoice {
  const tidy = text.trim().toLowerCase();
  if (Object.hasOwn(PAGES, tidy)) return { ok: true, page: PAGES[tidy as PageName] };
  const [, first, second, unit] = /^(.+?)\s*[x×]\s*(.+?)\s*(in|mm)$/.exec(tidy) ?? [];
  if (first === undefined || second === undefined || unit === undefined) {
    return {
      ok: false,
      error: phrase('“{text}” is no page: use {keys}, or a size such as 8.5x14in or 210x297mm.', {
        text: text.trim().slice(0, 40),
        keys: Object.keys(PAGES).join(', '),
      }),
    };
  }
  const withUnit = (size: string): string => (/(in|mm)$/.test(size) ? size : `${size} ${unit}`);
  const a = parseLength(withUnit(first));
  const b = parseLength(withUnit(second));
  if (!a.ok) return a;
  if (!b.ok) return b;
  const width = Math.min(a.inches, b.inches);
  const height = Math.max(a.inches, b.inches);
  if (width < SMALLEST_PAGE_IN)
    return {
      ok: false,
      error: phrase('A page must be at least 3 3/4 × 3 3/4 in (95.25 × 95.25 mm).'),
    };
  if (height > LARGEST_PAGE_IN)
    return {
      ok: false,
      error: phrase('A page can be at most {largestPage} in (5080 mm) long.', {
        largestPage: LARGEST_PAGE_IN,
      }),
    };
  return { ok: true, page: { name: `${first} × ${second} ${unit}`, width, height } };
}

/** The same page lying down. */
export const landscape = (page: Page): Page => ({ ...page, width: page.height, height: page.width });

/**
 * Whether the margin leaves room on the page; a plain sentence when not. 3 1/4 in must remain for the test
 * square and the 50 mm line beside it.
 */
export function marginFault(page: Page, margin: number): string | null {
  if (!Number.isFinite(margin) || margin < 0) return phrase('The margin cannot be less than 0.');
  if (page.width - 2 * margin >= SMALLEST_USABLE_IN) return null;
  const why =
    margin <= USUAL_MARGIN_IN
      ? phrase('The page is too small for its margins')
      : phrase('A margin of that width leaves too little of the page');
  return phrase('{why}: 3 1/4 in (82.55 mm) must remain between them.', { why });
}

const SMALLEST_USABLE_IN = 3.25;

/** Printers leave free no more than this; a wider margin is a wish. Inches. */
const USUAL_MARGIN_IN = 0.75;
