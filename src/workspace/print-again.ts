import { partsOfPaper } from '../rounds/papers.ts';
import { drawingIn } from '../rounds/take-into-work.ts';
import { paperIn } from '../rounds/work.ts';
import { appAddress } from './app-address.ts';
import { paperSettings } from './paper-settings.ts';
import { layOut, makePdf } from './pdf-client.ts';
import { printLook } from './print-look.ts';
import { printers } from './printers.ts';
import { session } from './session.ts';
import { planInWork } from './sewing.ts';

/**
 * A PDF of one paper in work, as it was when it was taken into work, on the page chosen in the Paper place. Null where
 * its drawing was not kept, or no longer gives that very paper: it is known by its stamp, so no other is ever printed.
 * Throws with one sentence where writing fails.
 */
export async function printAgain(paper: string): Promise<Blob | null> {
  const { project } = session.getState();
  const there = project.work && paperIn(project.work, paper);
  const block = there && drawingIn(there.block);
  const plan = there && (await planInWork(there.block));
  if (!there || !block || !plan) return null;
  const letter = plan.sections.find(({ stamp }) => stamp === there.section.stamp)?.letter;
  if (letter === undefined) return null;
  const look = printLook(paperSettings.getState(), project.unit, printers.getState());
  if (!look.ok) throw new Error(look.error);
  const { copy } = partsOfPaper(paper);
  await layOut({
    ...look.value,
    work: {
      project: { ...project, blocks: [block] },
      jobs: [{ block, plan, copies: there.block.copies, isMirrored: false }],
      only: { section: letter, copy },
    },
    codes: appAddress(),
    parts: ['foundations'],
  });
  return makePdf(`${block.name}, ${there.section.letter}`, () => undefined);
}
