import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import { type PageDraft, type PageSetting, withFoot } from '../../foundations/booklet/flow.ts';
import type { Sheet } from '../../foundations/sheet/sheet.ts';
import { cardPages } from './card-pages.ts';
import { checklistPages } from './checklist-pages.ts';
import { dividerPages } from './divider-pages.ts';
import { progressPages } from './progress-pages.ts';

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

export function sewSheets(print: SewPrint): Sheet[] {
  const has = (part: SewPart): boolean => print.parts.includes(part);
  const drafts: PageDraft[] = [
    ...(has('cards') ? cardPages(print) : []),
    ...(has('dividers') ? dividerPages(print) : []),
    ...(has('checklist') ? checklistPages(print) : []),
    ...(has('map') ? progressPages(print) : []),
  ];
  return drafts.map((draft, k) => withFoot(draft, print.setting, k + 1, drafts.length));
}
