import { createStore } from 'zustand/vanilla';
import {
  DEFAULT_MARGIN_IN,
  marginFault,
  PAGES,
  type Page,
  type PageName,
  readPage,
} from '../../document/pages.ts';
import type { Block, Unit } from '../../document/project.ts';
import type { BookletPart } from '../../foundations/booklet/parts.ts';
import type { FabricStyle } from '../../foundations/foundation/fabric-marks.ts';
import { DEFAULT_NESTING, type Together, type Turning } from '../../foundations/sheet/filling.ts';
import type { Side } from '../../foundations/side.ts';
import { parseLength } from '../../geometry/length.ts';
import { onOtherProject } from '../../workspace/session.ts';

/** How the sheets are shown: many at a glance, one across, or as large as they print. */
export type Zoom = 'overview' | 'page' | 'true-size';

/** What is chosen in the Paper place. Lives while the window is open; no part of the project. */
export interface PaperSettings {
  /** Copies of each chosen block; null until something is chosen by hand, which means one of the open block. */
  readonly copies: ReadonlyMap<string, number> | null;
  /** What is printed of them. */
  readonly parts: ReadonlySet<BookletPart>;
  /** Null until chosen: Letter where the project counts in inches, A4 where in millimetres. */
  readonly page: PageName | 'other' | null;
  readonly otherPage: string;
  /** As typed; null while it is the usual one. */
  readonly margin: string | null;
  readonly side: Side;
  readonly turning: Turning;
  readonly together: Together;
  readonly style: FabricStyle;
  readonly grain: boolean;
  readonly zoom: Zoom;
}

export const paperSettings = createStore<PaperSettings>(() => ({
  copies: null,
  parts: new Set<BookletPart>(['foundations']),
  page: null,
  otherPage: '',
  margin: null,
  side: 'printed',
  turning: DEFAULT_NESTING.turning,
  together: DEFAULT_NESTING.together,
  style: 'outline',
  grain: false,
  zoom: 'page',
}));

// Blocks of another project only have the same ids.
onOtherProject(() => paperSettings.setState({ copies: null }));

export const MOST_COPIES = 999;

/** Copies of each block to print, only of blocks that are there. */
export function chosenCopies(
  { copies }: PaperSettings,
  blocks: readonly Block[],
  openBlock: string | null,
): ReadonlyMap<string, number> {
  if (copies === null) {
    const open = blocks.find(({ id }) => id === openBlock) ?? blocks[0];
    return new Map(open ? [[open.id, 1]] : []);
  }
  return new Map(blocks.flatMap(({ id }) => (copies.has(id) ? [[id, copies.get(id)!] as const] : [])));
}

/** A usable value, or the sentence that says why the typed one is not. */
export type Read<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly error: string };

export const pageName = ({ page }: PaperSettings, unit: Unit): PageName | 'other' =>
  page ?? (unit === 'mm' ? 'a4' : 'letter');

export function readChosenPage(settings: PaperSettings, unit: Unit): Read<Page> {
  const name = pageName(settings, unit);
  if (name !== 'other') return { ok: true, value: PAGES[name] };
  if (settings.otherPage.trim() === '')
    return { ok: false, error: 'Type a size, such as 8.5x14in or 210x297mm.' };
  const choice = readPage(settings.otherPage);
  return choice.ok ? { ok: true, value: choice.page } : choice;
}

export function readMargin({ margin }: PaperSettings, unit: Unit, page: Page | null): Read<number> {
  const typed: Read<number> =
    margin === null ? { ok: true, value: DEFAULT_MARGIN_IN } : readLength(margin, unit);
  if (!typed.ok) return typed;
  const fault = page && marginFault(page, typed.value);
  return fault ? { ok: false, error: fault } : typed;
}

function readLength(text: string, unit: Unit): Read<number> {
  const parsed = parseLength(text, unit);
  return parsed.ok ? { ok: true, value: parsed.inches } : parsed;
}
