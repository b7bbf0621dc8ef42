import * as z from 'zod/mini';
import { createStore } from 'zustand/vanilla';
import { copiesInHand } from '../document/edit-copies.ts';
import {
  DEFAULT_MARGIN_IN,
  marginFault,
  PAGES,
  type Page,
  type PageName,
  readPage,
} from '../document/pages.ts';
import type { Project, Unit } from '../document/project.ts';
import { BOOKLET_PARTS, type BookletPart } from '../foundations/booklet/parts.ts';
import type { FabricStyle } from '../foundations/foundation/fabric-marks.ts';
import type { Tone } from '../foundations/marks.ts';
import { DEFAULT_NESTING, type Together, type Turning } from '../foundations/sheet/filling.ts';
import type { Side } from '../foundations/side.ts';
import { parseLength } from '../geometry/length.ts';
import type { Sheet } from '../making/piece-options.ts';
import { phrase } from '../words/phrase.ts';

/** How the sheets are shown: many at a glance, one across, or as large as they print. */
export type Zoom = 'overview' | 'page' | 'true-size';

/**
 * How this browser prints: page, margin and looks belong to the printer and the person before it, so they are kept
 * here and stay from project to project. What is printed, and how often, belongs to the project (`copiesInHand`).
 */
export interface PaperSettings {
  /** What is printed of the blocks in hand. */
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
  /** Whether papers carry a square code to be scanned; null: where something is in work. */
  readonly codes: boolean | null;
  readonly large: boolean;
  readonly tone: Tone;
  readonly zoom: Zoom;
}

const USUAL: PaperSettings = {
  parts: new Set<BookletPart>(['foundations']),
  page: null,
  otherPage: '',
  margin: null,
  side: 'printed',
  turning: DEFAULT_NESTING.turning,
  together: DEFAULT_NESTING.together,
  style: 'outline',
  grain: false,
  codes: null,
  large: false,
  tone: 'black',
  zoom: 'page',
};

const KEY = 'underpaper-paper';

/** Nobody types a longer page or margin. */
const LONGEST_TYPED = 100;

/** What is kept, as far as it makes sense: the browser may hold what another version wrote, or anything. */
const keptSettings = z.object({
  parts: z.catch(
    z.pipe(
      z.array(z.enum(BOOKLET_PARTS as [BookletPart, ...BookletPart[]])),
      z.transform((parts): ReadonlySet<BookletPart> => new Set(parts)),
    ),
    USUAL.parts,
  ),
  page: z.catch(z.nullable(z.enum([...(Object.keys(PAGES) as PageName[]), 'other'])), USUAL.page),
  otherPage: z.catch(z.string().check(z.maxLength(LONGEST_TYPED)), USUAL.otherPage),
  margin: z.catch(z.nullable(z.string().check(z.maxLength(LONGEST_TYPED))), USUAL.margin),
  side: z.catch(z.enum(['printed', 'front']), USUAL.side),
  turning: z.catch(z.enum(['quarters', 'free']), USUAL.turning),
  together: z.catch(z.enum(['fewest', 'blocks', 'sections']), USUAL.together),
  style: z.catch(z.enum(['outline', 'shaded', 'hatched']), USUAL.style),
  grain: z.catch(z.boolean(), USUAL.grain),
  codes: z.catch(z.nullable(z.boolean()), USUAL.codes),
  large: z.catch(z.boolean(), USUAL.large),
  tone: z.catch(z.enum(['black', 'grey']), USUAL.tone),
  zoom: z.catch(z.enum(['overview', 'page', 'true-size']), USUAL.zoom),
});

function kept(): PaperSettings {
  try {
    return keptSettings.parse(JSON.parse(localStorage.getItem(KEY) ?? '{}'));
  } catch {
    return USUAL;
  }
}

export const paperSettings = createStore<PaperSettings>(kept);

paperSettings.subscribe((settings) => {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...settings, parts: [...settings.parts] }));
  } catch {
    // Private windows and full stores: what was chosen holds until the window is closed.
  }
});

/** Whether papers carry square codes: as chosen, or else where they can be scanned for something in work. */
export const hasCodes = ({ codes }: PaperSettings, { work }: Project): boolean => codes ?? work !== undefined;

/** Copies of each block to print: those in hand, or one of the open block until some are chosen. */
export function chosenCopies(project: Project, openBlock: string | null): ReadonlyMap<string, number> {
  const { blocks } = project;
  const open = blocks.find(({ id }) => id === openBlock) ?? blocks[0];
  return copiesInHand(project) ?? new Map(open ? [[open.id, 1]] : []);
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
    return { ok: false, error: phrase('Type a size, such as 8.5x14in or 210x297mm.') };
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

let last: Sheet | null = null;

/** The sheet chosen for printing, the one before while what is typed makes none; the same object for the same sheet. */
export function chosenSheet(unit: Unit): Sheet | null {
  const settings = paperSettings.getState();
  const page = readChosenPage(settings, unit);
  const margin = readMargin(settings, unit, page.ok ? page.value : null);
  if (!page.ok || !margin.ok) return last;
  const next = { width: page.value.width, height: page.value.height, margin: margin.value };
  if (last?.width !== next.width || last.height !== next.height || last.margin !== next.margin) last = next;
  return last;
}
