import { type PageDraft, withFoot } from '../../foundations/booklet/flow.ts';
import type { Sheet } from '../../foundations/sheet/sheet.ts';
import { cardPages } from './card-pages.ts';
import { checklistPages } from './checklist-pages.ts';
import { dividerPages } from './divider-pages.ts';
import { progressPages } from './progress-pages.ts';
import type { SewPart, SewPrint } from './sew-print.ts';

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
