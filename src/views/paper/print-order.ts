import type { Project } from '../../document/project.ts';
import { copiesForQuilts } from '../../document/recoloured-blocks.ts';
import { clothOfQuilts } from '../../quilt/finishing/project-finishing.ts';
import { appAddress } from '../../workspace/app-address.ts';
import { makingAtHand } from '../../workspace/making.ts';
import { chosenCopies, hasCodes, type PaperSettings } from '../../workspace/paper-settings.ts';
import type { PrintOrder } from '../../workspace/pdf-client.ts';
import { printLook } from '../../workspace/print-look.ts';
import type { Printers } from '../../workspace/printers.ts';

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
  const look = printLook(settings, project.unit, known);
  const chosen = chosenCopies(project, openBlock);
  if (!look.ok || chosen.size === 0) return { order: null, toCome: 0 };
  const { parts } = settings;
  const codes = hasCodes(settings, project) ? appAddress() : null;
  const { blocks: jobs, toCome } = makingAtHand(project, chosen);
  if (toCome > 0) return { order: last?.order ?? null, toCome };
  const isQuilt = isQuiltInHand(project, chosen);
  const from = [
    project,
    JSON.stringify(look.value),
    codes,
    parts,
    isQuilt,
    ...jobs.flatMap(({ block, plan, copies }) => [block, plan, copies]),
  ];
  if (last?.from.length === from.length && from.every((part, i) => part === last!.from[i]))
    return { order: last.order, toCome };
  const order: PrintOrder = {
    ...look.value,
    work: { project, jobs, ...(isQuilt && { plain: clothOfQuilts(project) }) },
    codes,
    parts: [...parts],
  };
  last = { from, order };
  return { order, toCome };
}

/** Whether the copies in hand make the whole quilt, so that its plain cloth is on the cutting list too. */
function isQuiltInHand(project: Project, chosen: ReadonlyMap<string, number>): boolean {
  const needed = copiesForQuilts(project);
  return needed.size > 0 && [...needed].every(([id, count]) => (chosen.get(id) ?? 0) >= count);
}
