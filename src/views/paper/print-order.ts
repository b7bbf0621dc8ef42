import type { Project } from '../../document/project.ts';
import type { Correction } from '../../foundations/sheet/correction.ts';
import { DEFAULT_NESTING } from '../../foundations/sheet/filling.ts';
import type { PrintOrder } from '../../workspace/pdf-client.ts';
import { planOf } from '../../workspace/plans.ts';
import { chosenCorrection, type Printers } from '../../workspace/printers.ts';
import { chosenCopies, type PaperSettings, readChosenPage, readMargin } from './paper-settings.ts';

let last: { readonly from: readonly unknown[]; readonly order: PrintOrder } | null = null;

/**
 * What is printed of a project with these choices; null where nothing is, or a page or margin cannot be read. One and
 * the same object as long as nothing in it changes, so that what is laid out before can be told by it.
 */
export function printOrder(
  project: Project,
  openBlock: string | null,
  settings: PaperSettings,
  known: Printers,
): PrintOrder | null {
  const page = readChosenPage(settings, project.unit);
  const margin = readMargin(settings, project.unit, page.ok ? page.value : null);
  const chosen = chosenCopies(settings, project.blocks, openBlock);
  if (!page.ok || !margin.ok || chosen.size === 0) return null;
  const { width, height } = page.value;
  const { side, turning, together, style, grain, parts } = settings;
  const jobs = project.blocks.flatMap((block) =>
    chosen.has(block.id)
      ? [{ block, plan: planOf(block), copies: chosen.get(block.id)!, isMirrored: false }]
      : [],
  );
  const correction = correctionOf(known);
  const printedOn = new Date().toLocaleDateString('en', { day: 'numeric', month: 'long', year: 'numeric' });
  const choices = [width, height, margin.value, side, turning, together, style, grain, parts, correction];
  const from = [
    project,
    printedOn,
    ...choices,
    ...jobs.flatMap(({ block, plan, copies }) => [block, plan, copies]),
  ];
  if (last?.from.length === from.length && from.every((part, i) => part === last!.from[i])) return last.order;
  const order: PrintOrder = {
    work: { project, jobs },
    page: { name: '', width, height },
    margin: margin.value,
    side,
    nesting: { ...DEFAULT_NESTING, turning, together },
    style,
    grain,
    correction,
    parts: [...parts],
    printedOn,
  };
  last = { from, order };
  return order;
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
