import { marginFault } from '../../document/pages.ts';
import { phrase } from '../../words/phrase.ts';
import type { FabricLabel } from '../foundation/label-request.ts';
import type { DrawingStore } from '../foundation/store.ts';
import { tickCounts } from '../foundation/tick-counts.ts';
import {
  type Foundation,
  fabricLabels,
  foundationsOf,
  keyEntry,
  nameNote,
  type PrintNote,
  type PrintWork,
} from '../print-work.ts';
import { printable } from '../type/typeface.ts';
import { assemble } from './assemble.ts';
import type { BandWords, KeyEntry } from './band.ts';
import { type DrawnFoundation, drawIn } from './draw.ts';
import { DEFAULT_NESTING } from './filling.ts';
import { roomOf } from './label-rooms.ts';
import { frontNotes, layoutNotes } from './layout-notes.ts';
import { bestOrientation, correctionOf, type Print, REFUSALS } from './orientation.ts';
import { numbered, type Sheet, type SheetLayout, type SheetOptions } from './sheet.ts';

/**
 * Lays the foundations of the chosen blocks on sheets: several small ones a sheet, one larger than a sheet over
 * several with overlap. Upright or lying sheets, whichever are fewer. A plan that fails the last check is refused
 * with a note and never printed.
 * The same input gives the same sheets; `drawings` keeps what is drawn for the next layout.
 */
export function layOutSheets(
  work: PrintWork,
  options: SheetOptions,
  drawings: DrawingStore = (request, drawNew) => drawNew(request),
): SheetLayout {
  const notes: PrintNote[] = [];
  const refused = (message: string, kind: PrintNote['kind'] = 'refused'): SheetLayout => ({
    sheets: [],
    foundations: 0,
    notes: [...notes, { kind, block: null, message }],
  });
  const fault = marginFault(options.page, options.margin);
  if (fault !== null) return refused(fault);
  const foundations = foundationsOf(work, options.side, options.typeface, notes);
  if (foundations.length === 0)
    return refused(phrase('There is no foundation to print: choose a block that can be sewn.'), 'empty');
  const fabrics = fabricLabels(work, options.typeface, notes);
  const project = printable(options.typeface, work.project.name, phrase('Project'));
  if (project.lacking !== '') notes.push(nameNote(null, phrase('The project’s name'), project));

  const settled = settle(work, options, foundations, fabrics, project.text, drawings);
  if (typeof settled === 'string') return refused(REFUSALS[settled]);
  const { print, drawn } = settled;
  notes.push(...layoutNotes(drawn, print.room));
  const { sheets, unseen } = assemble(drawn, print, options, work, fabrics);
  notes.push(...frontNotes(foundations, unseen));
  return {
    sheets,
    notes,
    foundations: foundations.reduce((sum, { job }) => sum + job.copies, 0),
  };
}

/**
 * How the sheets lie, and every foundation drawn for them; or why they cannot. Fabrics shown by their code need a key,
 * the key takes room, and less room can make more codes: it is gone round until nothing new comes. The key only grows,
 * so this ends.
 */
function settle(
  work: PrintWork,
  options: SheetOptions,
  foundations: readonly Foundation[],
  fabrics: ReadonlyMap<string, FabricLabel>,
  project: string,
  drawings: DrawingStore,
): { readonly print: Print; readonly drawn: readonly DrawnFoundation[] } | keyof typeof REFUSALS {
  const ticksOf = new Map(work.jobs.map(({ plan }) => [plan, tickCounts(plan)]));
  // A foundation is drawn again only where its room has changed.
  const drawnIn = new Map<Foundation, { readonly room: string; readonly drawn: DrawnFoundation }>();
  // Hatching is explained for every fabric, codes where they are used.
  let key: ReadonlySet<string> = new Set(
    options.style === 'hatched'
      ? foundations.flatMap(({ job }) => job.plan.patches.flatMap(({ fabric }) => fabric ?? []))
      : [],
  );
  for (;;) {
    const print = bestOrientation(foundations, options, bandWords(work, options, fabrics, project, key));
    if (typeof print === 'string') return print;
    const drawn = foundations.map((one) => {
      const room = roomOf(one, print, work.project.seamAllowance, options.side);
      const asked = JSON.stringify(room);
      const before = drawnIn.get(one);
      if (before?.room === asked) return before.drawn;
      const now = drawIn(one, room, fabrics, ticksOf.get(one.job.plan)!, work, options, drawings);
      drawnIn.set(one, { room: asked, drawn: now });
      return now;
    });
    const coded = new Set([...key, ...drawn.flatMap(({ drawing }) => drawing.codedFabrics)]);
    if (coded.size === key.size) return { print, drawn };
    key = coded;
  }
}

/** What the foot of every sheet says, with these fabrics in its key. */
const bandWords = (
  { project: { fabrics: all, seamAllowance, unit }, jobs }: PrintWork,
  options: SheetOptions,
  fabrics: ReadonlyMap<string, FabricLabel>,
  project: string,
  key: ReadonlySet<string>,
): BandWords => ({
  project,
  printedOn: printable(options.typeface, options.printedOn, '·').text,
  side: options.side,
  key: all
    .filter(({ id }) => key.has(id))
    .map(({ id }): KeyEntry => {
      const label = fabrics.get(id)!;
      const hatch = options.style === 'hatched' ? label.look?.number : undefined;
      return { sign: label.code, text: keyEntry(label), ...(hatch !== undefined && { hatch }) };
    })
    .concat(options.grain ? [{ sign: '↔', text: phrase('↔ straight grain of the fabric') }] : []),
  large: options.large ?? false,
  tiles: false,
  correction: correctionOf(options),
  legend: {
    allowance: seamAllowance,
    unit,
    joins: jobs.some(({ plan }) => plan.joins.length > 0),
    units: jobs.some(({ plan }) => plan.sections.some(({ startsFrom }) => startsFrom.length > 0)),
  },
});

/**
 * The first sheet of the first block that can be printed, laid out by itself: something to look at while the whole of
 * many papers is laid out. There the papers may share sheets in another way, so it is not what is printed, and it does
 * not say of how many it is. Null where nothing can be printed.
 */
export function firstLook(work: PrintWork, options: SheetOptions, drawings?: DrawingStore): Sheet | null {
  const nesting = { ...(options.nesting ?? DEFAULT_NESTING), effort: 0 };
  for (const job of work.jobs) {
    const [sheet] = layOutSheets({ ...work, jobs: [job] }, { ...options, nesting }, drawings).sheets;
    if (sheet) return numbered(sheet, phrase('Sheet 1'), [phrase('Sheet 1')], options.typeface);
  }
  return null;
}
