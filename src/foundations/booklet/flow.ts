import type { Page } from '../../document/pages.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { type Mark, PT, placeMark } from '../marks.ts';
import type { Part, Sheet } from '../sheet/sheet.ts';
import type { Side } from '../side.ts';
import { lengthOf, shortened, type TextLine, textAt, wrapped } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import type { PagePart } from './parts.ts';

/** A page to read or to cut up, before it has its number. */
export interface PageDraft {
  readonly part: PagePart;
  /** Id of the block it is about; null for the whole project. */
  readonly block: string | null;
  readonly title: string;
  /** As it is printed: upright or lying. */
  readonly page: Page;
  readonly parts: readonly Part[];
}

/** What pages depend on beside what they show. */
export interface PageSetting {
  readonly page: Page;
  /** What the printer leaves free on every side, inches. */
  readonly margin: number;
  /** Which side the foundations of this print show. */
  readonly side: Side;
  readonly typeface: Typeface;
  /** Name of the project, as the typeface can print it. */
  readonly project: string;
  /** The day of printing, written out. */
  readonly printedOn: string;
  /** How the drawing is corrected for a printer that is a little off; nothing when it is not. */
  readonly correction?: string;
}

/** Where a page's own matter stands. Inches from the upper left corner of the page. */
export interface Frame {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Height of the line along the foot with the space above it, inches. */
const FOOT_IN = 0.3;

/** The frame of a page that is read: wider margins where the page is large enough for them. */
export function readingFrame({ page, margin }: PageSetting): Frame {
  const side = Math.max(margin, Math.min(0.65, 0.075 * page.width));
  const top = Math.max(margin, Math.min(0.6, 0.055 * page.height));
  return frameOf(page, side, top, Math.max(margin, Math.min(0.45, 0.045 * page.height)));
}

/** The frame of a page that is cut up: as wide as the printer reaches, above the same foot. */
export function fullFrame(setting: PageSetting): Frame {
  const { page, margin } = setting;
  const { y, height } = readingFrame(setting);
  return { x: margin, y: margin, width: page.width - 2 * margin, height: y + height - margin };
}

const frameOf = (page: Page, side: number, top: number, bottom: number): Frame => ({
  x: side,
  y: top,
  width: page.width - 2 * side,
  height: page.height - top - bottom - FOOT_IN,
});

/** A page as a sheet, with its foot: project, what the page is, its number, of how many where that is known. */
export function withFoot(draft: PageDraft, setting: PageSetting, number: number, of: number | null): Sheet {
  const { typeface, margin } = setting;
  const { page } = draft;
  const ofAll = of === null ? '' : phrase(' of {of}', { of });
  const frame = readingFrame({ ...setting, page });
  const baseline = frame.y + frame.height + FOOT_IN - 0.04;
  const size = 7.5 * PT;
  const right: TextLine = { text: phrase('Page {number}{ofAll}', { number, ofAll }), face: 'semibold', size };
  const rightWidth = lengthOf(typeface, right);
  const left: TextLine = {
    text: `${[setting.project, draft.title, setting.printedOn, setting.correction ?? ''].filter((text) => text !== '').join('  ·  ')}`,
    face: 'regular',
    size,
  };
  const marks: Mark[] = [
    {
      kind: 'line',
      pen: 'rule',
      points: [
        [frame.x, baseline - 0.14],
        [frame.x + frame.width, baseline - 0.14],
      ],
    },
    textAt(typeface, { ...left, text: shortened(typeface, left, frame.width - rightWidth - 0.2) }, [
      frame.x,
      baseline,
    ]),
    textAt(typeface, right, [frame.x + frame.width - rightWidth, baseline]),
  ];
  const inside = baseline <= page.height - margin;
  return {
    width: page.width,
    height: page.height,
    title: phrase('{title}, page {number}{ofAll}', { title: draft.title, number, ofAll }),
    parts: [
      ...draft.parts,
      ...(inside ? [{ marks, placement: { at: [0, 0], quarterTurns: 0 }, paper: null } as const] : []),
    ],
  };
}

// ---------------------------------------------------------------- matter that runs on from page to page

/** Something that stands on a page whole: its marks from its own upper left corner. Inches. */
export interface FlowItem {
  readonly height: number;
  readonly marks: readonly Mark[];
  /** Space above it, left out at the head of a page. */
  readonly space: number;
  /** Not parted from what follows. */
  readonly keepsWithNext?: boolean;
}

/**
 * Sets items one under the other into pages of a height. An item that is not parted from the next goes with it to
 * the next page. One higher than a page has a page to itself. Gives the marks of each page, from its upper left corner.
 */
export function flowInto(items: readonly FlowItem[], height: number): readonly (readonly Mark[])[] {
  const pages: Mark[][] = [];
  let page: Mark[] = [];
  let y = 0;
  const close = (): void => {
    if (page.length > 0) pages.push(page);
    page = [];
    y = 0;
  };
  for (let i = 0; i < items.length; ) {
    let end = i + 1;
    while (items[end - 1]!.keepsWithNext && end < items.length) end++;
    const group = items.slice(i, end);
    const high = group.reduce((sum, one, k) => sum + one.height + (k > 0 || y > 0 ? one.space : 0), 0);
    if (y > 0 && y + high > height + 1e-6) close();
    for (const item of group) {
      if (y > 0) y += item.space;
      if (y > 0 && y + item.height > height + 1e-6) close();
      page.push(...moved(item.marks, [0, y]));
      y += item.height;
    }
    i = end;
  }
  close();
  return pages;
}

/** Items side by side, or where the first would leave too little room, one under the other. */
export function beside(left: FlowItem, right: readonly FlowItem[], x: number): FlowItem {
  let y = 0;
  const marks: Mark[] = [...left.marks];
  for (const item of right) {
    y += y > 0 ? item.space : 0;
    marks.push(...moved(item.marks, [x, y]));
    y += item.height;
  }
  return { height: Math.max(left.height, y), marks, space: left.space };
}

export const moved = (marks: readonly Mark[], at: Point): Mark[] =>
  marks.map((mark) => placeMark(mark, { at, quarterTurns: 0 }));

export interface TextStyle {
  readonly face: 'regular' | 'semibold';
  /** Type size in points. */
  readonly points: number;
}

export const TITLE: TextStyle = { face: 'semibold', points: 20 };
/** The style of a title: a sentence of a name is set smaller. */
export const titleStyle = (text: string): TextStyle => ([...text].length > 80 ? HEADING : TITLE);
export const HEADING: TextStyle = { face: 'semibold', points: 12 };
export const BODY: TextStyle = { face: 'regular', points: 9.5 };
export const STRONG: TextStyle = { face: 'semibold', points: 9.5 };
export const SMALL: TextStyle = { face: 'regular', points: 8 };

/** Baseline to baseline, as a multiple of the type size. */
const LEADING = 1.32;

/** A paragraph, an item a line; the first two lines and the last two stay together. */
export function paragraph(
  typeface: Typeface,
  text: string,
  style: TextStyle,
  width: number,
  space = 0,
): FlowItem[] {
  const size = style.points * PT;
  const lines = wrapped(typeface, { text, face: style.face, size }, width);
  return lines.map(
    (line, i): FlowItem => ({
      height: LEADING * size,
      space: i === 0 ? space : 0,
      marks: [textAt(typeface, { text: line, face: style.face, size }, [0, 0.98 * size])],
      keepsWithNext: i < lines.length - 1 && (i === 0 || i === lines.length - 2),
    }),
  );
}

/** Several items as one that is not parted. */
export function together(items: readonly FlowItem[], space = items[0]?.space ?? 0): FlowItem {
  let y = 0;
  const marks: Mark[] = [];
  items.forEach((item, i) => {
    y += i > 0 ? item.space : 0;
    marks.push(...moved(item.marks, [0, y]));
    y += item.height;
  });
  return { height: y, marks, space };
}

/** A line of text in one item, shortened to the width. */
export function oneLine(
  typeface: Typeface,
  text: string,
  { face, points }: TextStyle,
  width: number,
  space = 0,
): FlowItem {
  const line = { text, face, size: points * PT };
  return {
    height: LEADING * line.size,
    space,
    marks: [textAt(typeface, { ...line, text: shortened(typeface, line, width) }, [0, 0.98 * line.size])],
  };
}

/** A box to tick, its upper left corner at `at`. */
export function tickBox([x, y]: Point, side = 0.13): Mark {
  return {
    kind: 'polygon',
    pen: 'frame',
    ring: [
      [x, y],
      [x + side, y],
      [x + side, y + side],
      [x, y + side],
    ],
  };
}

/** A thin rule across. */
export const ruleItem = (width: number, space: number): FlowItem => ({
  height: 0.01,
  space,
  marks: [
    {
      kind: 'line',
      pen: 'rule',
      points: [
        [0, 0.005],
        [width, 0.005],
      ],
    },
  ],
});

/** The pages of some running matter, titled, as drafts. */
export function draftsOf(
  pages: readonly (readonly Mark[])[],
  frame: Frame,
  draft: Omit<PageDraft, 'parts' | 'page'>,
  { page }: PageSetting,
): PageDraft[] {
  return pages.map((marks) => ({
    ...draft,
    page,
    parts: [{ marks, placement: { at: [frame.x, frame.y], quarterTurns: 0 }, paper: null }],
  }));
}
