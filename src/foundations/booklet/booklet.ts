import { marginFault } from '../../document/pages.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { fabricLabels, foundationsOf, type PrintNote, type PrintWork } from '../print-work.ts';
import { changesAnything, correctionWords } from '../sheet/correction.ts';
import { layOutSheets } from '../sheet/layout.ts';
import { asPage, type Sheet, type SheetLayout, type SheetOptions } from '../sheet/sheet.ts';
import { printable } from '../type/typeface.ts';
import type { BlockWork, FabricWork } from './block-work.ts';
import { cautionPages } from './cautions.ts';
import { coverPages } from './cover.ts';
import { cuttingPages } from './cutting-pages.ts';
import { type PageDraft, type PageSetting, withFoot } from './flow.ts';
import { freezerPages } from './freezer-pages.ts';
import { guidePages } from './guide/guide-pages.ts';
import { indexPages } from './index-pages.ts';
import { lineDrawingPages } from './line-drawing.ts';
import { BOOKLET_PARTS, type BookletPart, type Bookmark, PART_NAMES, type PagePart } from './parts.ts';
import { pileLabelPages } from './pile-labels.ts';
import { templatePages } from './template-pages.ts';

/** Everything that is printed, in order, with what the outline of a file says of it. */
export interface Booklet extends SheetLayout {
  readonly bookmarks: readonly Bookmark[];
}

/**
 * Lays out the chosen parts of some blocks: pages to read first, then those to cut up, the foundations last. All
 * pages are numbered through; foundations also say which of the foundations they are, and alone only that.
 * A plan that fails the last check is refused with a note, in every part. `foundations` lays out the foundations;
 * a caller who keeps what was laid out before gives its own.
 */
export function layOutBooklet(
  work: PrintWork,
  options: SheetOptions,
  parts: ReadonlySet<BookletPart>,
  foundations: (work: PrintWork, options: SheetOptions) => SheetLayout = layOutSheets,
): Booklet {
  const fault = marginFault(options.page, options.margin);
  if (fault !== null)
    return {
      sheets: [],
      foundations: 0,
      bookmarks: [],
      notes: [{ kind: 'refused', block: null, message: fault }],
    };
  const pageNotes: PrintNote[] = [];
  const blocks = blocksOf(work, options, pageNotes);
  // The index tells where the foundations lie, whether they are printed with it or not.
  const laid = parts.has('foundations') || parts.has('index') ? foundations(work, options) : null;
  const drafts = draftPages(blocks, work, options, parts, laid?.sheets ?? []);
  const layout: SheetLayout =
    laid && parts.has('foundations')
      ? laid
      : {
          sheets: [],
          foundations: 0,
          notes: laid?.notes ?? (drafts.length > 0 || pageNotes.length > 0 ? pageNotes : [NOTHING]),
        };
  const total = drafts.length + layout.sheets.length;
  const pages = drafts.map((draft, i) => finished(draft, work, options, i + 1, total));
  // Foundations alone are sheets; among other pages they are counted with them.
  const papers =
    drafts.length === 0
      ? layout.sheets
      : layout.sheets.map((sheet, i) =>
          asPage(
            sheet,
            { page: drafts.length + i + 1, pages: total, sheet: i + 1, sheets: layout.sheets.length },
            options.typeface,
          ),
        );
  const sheets = [...pages, ...papers];
  return {
    sheets,
    notes: layout.notes,
    foundations: layout.foundations,
    bookmarks: bookmarksOf(blocks, drafts, layout.sheets),
  };
}

/**
 * The first page of a booklet while the rest is still to be laid out: as it will be, but that it does not say of how
 * many. Null where it cannot be known yet: papers of several blocks share sheets as it comes out when all are there.
 */
export function firstPage(
  work: PrintWork,
  options: SheetOptions,
  parts: ReadonlySet<BookletPart>,
): Sheet | null {
  const part = BOOKLET_PARTS.find((one) => parts.has(one));
  if (
    part === undefined ||
    part === 'foundations' ||
    part === 'index' ||
    marginFault(options.page, options.margin) !== null
  )
    return null;
  const isAboutAll = part === 'cover' || part === 'labels' || part === 'cutting';
  const jobs = isAboutAll ? work.jobs : work.jobs.slice(0, 1);
  const [draft] = draftPages(blocksOf({ ...work, jobs }, options, []), work, options, new Set([part]), []);
  return draft ? finished(draft, work, options, 1, null) : null;
}

/** How much larger all type of the pages to read is where it is to be large: 9.5 pt becomes 14. */
const LARGE = 1.5;

/** Pages that hold drawings at true size. */
const TRUE_SIZE: ReadonlySet<PagePart> = new Set<PagePart>(['templates']);

const enlargement = ({ large }: SheetOptions, part: PagePart): number =>
  large && !TRUE_SIZE.has(part) ? LARGE : 1;

/** What the pages of a part are set with. */
function settingOf(work: PrintWork, options: SheetOptions, part: PagePart): PageSetting {
  const scale = scaleOf(options);
  const [across, down] = scale ?? [1, 1];
  const times = enlargement(options, part);
  return {
    ...options,
    // A drawing that is corrected or enlarged is laid out on what the page is before it is scaled.
    page: {
      ...options.page,
      width: options.page.width / across / times,
      height: options.page.height / down / times,
    },
    margin: options.margin / times,
    correction: scale
      ? correctionWords(
          options.correction!,
          printable(options.typeface, options.correction!.printer, '·').text,
        )
      : '',
    project: printable(options.typeface, work.project.name, phrase('Project')).text,
    printedOn: printable(options.typeface, options.printedOn, '·').text,
  };
}

/** A page with its foot, scaled as it is printed. */
function finished(
  draft: PageDraft,
  work: PrintWork,
  options: SheetOptions,
  number: number,
  of: number | null,
): Sheet {
  const sheet = withFoot(draft, settingOf(work, options, draft.part), number, of);
  const [across, down] = scaleOf(options) ?? [1, 1];
  const times = enlargement(options, draft.part);
  const scale: Point = [across * times, down * times];
  return {
    ...sheet,
    ...((scale[0] !== 1 || scale[1] !== 1) && {
      width: scale[0] * sheet.width,
      height: scale[1] * sheet.height,
      scale,
    }),
    ...(options.tone && { tone: options.tone }),
  };
}

const scaleOf = ({ correction }: SheetOptions): Point | null =>
  correction && changesAnything(correction) ? [correction.across, correction.down] : null;

const NOTHING: PrintNote = {
  kind: 'empty',
  block: null,
  message: phrase('There is nothing to print: choose a block, and what to print of it.'),
};

/** The blocks whose plans pass the last check, as pages are made of them. */
function blocksOf(
  work: PrintWork,
  { typeface, side }: SheetOptions,
  notes: PrintNote[],
): readonly BlockWork[] {
  const labels = fabricLabels(work, typeface, notes);
  const fabrics = work.project.fabrics.flatMap(({ id, color, picture }): FabricWork[] => {
    const label = labels.get(id);
    return label ? [{ id, color, label, ...(picture && { picture }) }] : [];
  });
  const seen = new Set<string>();
  return foundationsOf(work, side, typeface, notes).flatMap(({ job, blockName }): BlockWork[] => {
    if (seen.has(job.block.id)) return [];
    seen.add(job.block.id);
    return [
      {
        plan: job.plan,
        blockId: job.block.id,
        blockName,
        copies: job.copies,
        unit: work.project.unit,
        allowance: work.project.seamAllowance,
        fabrics,
      },
    ];
  });
}

function draftPages(
  blocks: readonly BlockWork[],
  work: PrintWork,
  options: SheetOptions,
  parts: ReadonlySet<BookletPart>,
  sheets: readonly Sheet[],
): readonly PageDraft[] {
  if (blocks.length === 0) return [];
  const makers: Readonly<Record<PagePart, (setting: PageSetting) => readonly PageDraft[]>> = {
    cover: (setting) => coverPages(blocks, setting),
    cautions: cautionPages,
    freezer: freezerPages,
    cutting: (setting) => cuttingPages(blocks, work, setting),
    guide: (setting) => blocks.flatMap((block) => guidePages(block, setting)),
    'line-drawing': (setting) => blocks.flatMap((block) => lineDrawingPages(block, setting)),
    labels: (setting) => pileLabelPages(blocks, setting),
    index: (setting) => indexPages(blocks, sheets, setting),
    templates: (setting) => blocks.flatMap((block) => templatePages(block, setting)),
  };
  return BOOKLET_PARTS.flatMap((part) =>
    part !== 'foundations' && parts.has(part) ? makers[part](settingOf(work, options, part)) : [],
  );
}

/** The outline: what is about the whole project first, then each block with its parts. */
function bookmarksOf(
  blocks: readonly BlockWork[],
  drafts: readonly PageDraft[],
  foundations: readonly Sheet[],
): readonly Bookmark[] {
  const whole = BOOKLET_PARTS.flatMap((part): Bookmark[] => {
    const sheet = drafts.findIndex((draft) => draft.part === part && draft.block === null);
    return sheet < 0 ? [] : [{ title: PART_NAMES[part], sheet, within: [] }];
  });
  const each = blocks.flatMap(({ blockId, blockName }): Bookmark[] => {
    const within = BOOKLET_PARTS.flatMap((part): Bookmark[] => {
      const found =
        part === 'foundations'
          ? foundations.findIndex((sheet) => sheet.parts.some(({ paper }) => paper?.block === blockId))
          : drafts.findIndex((draft) => draft.part === part && draft.block === blockId);
      if (found < 0) return [];
      return [
        {
          title: PART_NAMES[part],
          sheet: part === 'foundations' ? drafts.length + found : found,
          within: [],
        },
      ];
    });
    const [first] = within;
    return first ? [{ title: blockName, sheet: first.sheet, within }] : [];
  });
  return [...whole, ...each];
}
