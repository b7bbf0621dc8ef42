import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import type { PageSetting } from '../../foundations/booklet/flow.ts';

/**
 * Pages to have beside the machine: a card a round, a divider a fabric, what is done ticked paper by paper, and a picture
 * of the quilt to colour.
 */
export type SewPart = 'cards' | 'dividers' | 'checklist' | 'map';

export const SEW_PARTS: readonly SewPart[] = ['cards', 'dividers', 'checklist', 'map'];

export interface SewPrint {
  readonly project: Project;
  readonly work: Work;
  readonly parts: readonly SewPart[];
  readonly setting: PageSetting;
  /** The address that printed codes lead to, see `codedAddress`; no codes where it is null. */
  readonly address: string | null;
}
