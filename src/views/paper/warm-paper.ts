import { DEFAULT_MARGIN_IN, PAGES } from '../../foundations/pages.ts';
import { warmUp } from '../../workspace/pdf-client.ts';
import { planOf } from '../../workspace/plans.ts';
import { session, shownProject } from '../../workspace/session.ts';

/** Gets the worker that lays out sheets ready for the open block, so that its sheets are there at once. */
export function warmPaper(): void {
  const state = session.getState();
  const project = shownProject(state);
  const block = project.blocks.find(({ id }) => id === state.blockId) ?? project.blocks[0];
  if (!block) return;
  warmUp({
    work: { project, jobs: [{ block, plan: planOf(block), copies: 1 }] },
    page: PAGES.letter,
    margin: DEFAULT_MARGIN_IN,
    side: 'printed',
    printedOn: '',
  });
}
