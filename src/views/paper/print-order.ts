import type { Project } from '../../document/project.ts';
import { copiesForQuilts } from '../../document/recoloured-blocks.ts';
import type { Correction } from '../../foundations/sheet/correction.ts';
import { DEFAULT_NESTING } from '../../foundations/sheet/filling.ts';
import { clothOfQuilts } from '../../quilt/finishing/project-finishing.ts';
import { appAddress } from '../../workspace/app-address.ts';
import { makingAtHand } from '../../workspace/making.ts';
import {
  chosenCopies,
  hasCodes,
  type PaperSettings,
  readChosenPage,
  readMargin,
} from '../../workspace/paper-settings.ts';
import type { PrintOrder } from '../../workspace/pdf-client.ts';
import { chosenCorrection, type Printers } from '../../workspace/printers.ts';

let last: { readonly from: readonly unknown[]; readonly order: PrintOrder } | null = null;

/** What is to be printed, as far as it is known. */
interface OrderAtHand {
  /** Null where nothing is printed; the order before while blocks of the newest are still to come. */
  readonly order: PrintOrder | null;
  /** How many of the chosen blocks are still to be worked out. */
  readonly toCome: number;
}

/**
 * What is printed of a project with these choices; nothing where a page or margin cannot be read. One and
 * the same object as long as nothing in it changes, so that what is laid out before can be told by it.
 */
export function printOrder(
  project: Project,
  openBlock: string | null,
  settings: PaperSettings,
  known: Printers,
): OrderAtHand {
  const page = readChosenPage(settings, project.unit);
  const margin = readMargin(settings, project.unit, page.ok ? page.value : null);
  const chosen = chosenCopies(project, openBlock);
  if (!page.ok || !margin.ok || chosen.size === 0) return { order: null, toCome: 0 };
  const { width, height } = page.value;
  const { side, turning, together, style, grain, large, tone, parts } = settings;
  const codes = hasCodes(settings, project) ? appAddress() : null;
  const { blocks: jobs, toCome } = makingAtHand(project, chosen);
  if (toCome > 0) return { order: last?.order ?? null, toCome };
  const correction = correctionOf(known);
  const printedOn = new Date().toLocaleDateString('en', { day: 'numeric', month: 'long', year: 'numeric' });
  const isQuilt = isQuiltInHand(project, chosen);
  const choices = [
    width,
    height,
    margin.value,
    side,
    turning,
    together,
    style,
    grain,
    codes,
    large,
    tone,
    parts,
    correction,
  ];
  const from = [
    project,
    printedOn,
    ...choices,
    isQuilt,
    ...jobs.flatMap(({ block, plan, copies }) => [block, plan, copies]),
  ];
  if (last?.from.length === from.length && from.every((part, i) => part === last!.from[i]))
    return { order: last.order, toCome };
  const order: PrintOrder = {
    work: { project, jobs, ...(isQuilt && { plain: clothOfQuilts(project) }) },
    page: { name: '', width, height },
    margin: margin.value,
    side,
    nesting: { ...DEFAULT_NESTING, turning, together },
    style,
    grain,
    codes,
    large,
    tone,
    correction,
    parts: [...parts],
    printedOn,
  };
  last = { from, order };
  return { order, toCome };
}

/** Whether the copies in hand make the whole quilt, so that its plain cloth is on the cutting list too. */
function isQuiltInHand({ quilt, blocks }: Project, chosen: ReadonlyMap<string, number>): boolean {
  if (!quilt || quilt.places.length === 0) return false;
  const needed = copiesForQuilts(quilt, (id) => blocks.some((block) => block.id === id));
  return needed.size > 0 && [...needed].every(([id, count]) => (chosen.get(id) ?? 0) >= count);
}

const corrections = new WeakMap<Printers, Correction | null>();

/** The correction for the chosen printer; the same object for the same measures. */
function correctionOf(known: Printers): Correction | null {
  const made = corrections.get(known);
  if (made !== undefined) return made;
  const choice = chosenCorrection(known);
  const correction = choice?.ok ? choice.correction : null;
  corrections.set(known, correction);
  return correction;
}
