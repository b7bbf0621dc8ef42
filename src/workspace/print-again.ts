import { DEFAULT_NESTING } from '../foundations/sheet/filling.ts';
import { partsOfPaper } from '../rounds/papers.ts';
import { drawingIn } from '../rounds/take-into-work.ts';
import { paperIn } from '../rounds/work.ts';
import { longDay } from '../words/numeral.ts';
import { appAddress } from './app-address.ts';
import { paperSettings, readChosenPage, readMargin } from './paper-settings.ts';
import { layOut, makePdf } from './pdf-client.ts';
import { chosenCorrection, printers } from './printers.ts';
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
  const { letter, stamp } = plan.sections.find((one) => one.stamp === there.section.stamp) ?? {};
  if (letter === undefined || stamp === undefined) return null;
  const settings = paperSettings.getState();
  const page = readChosenPage(settings, project.unit);
  if (!page.ok) throw new Error(page.error);
  const margin = readMargin(settings, project.unit, page.value);
  if (!margin.ok) throw new Error(margin.error);
  const correction = chosenCorrection(printers.getState());
  const { side, turning, together, style, grain } = settings;
  const { width, height } = page.value;
  await layOut({
    work: {
      project: { ...project, blocks: [block] },
      jobs: [{ block, plan, copies: there.block.copies, isMirrored: false }],
      only: { section: letter, copy: partsOfPaper(paper).copy },
    },
    page: { name: '', width, height },
    margin: margin.value,
    side,
    nesting: { ...DEFAULT_NESTING, turning, together },
    style,
    grain,
    correction: correction?.ok ? correction.correction : null,
    codes: appAddress(),
    parts: ['foundations'],
    printedOn: longDay(new Date()),
  });
  return makePdf(`${block.name}, ${partsOfPaper(paper).letter}`, () => undefined);
}
