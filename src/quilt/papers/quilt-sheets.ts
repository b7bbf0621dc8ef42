import type { Project } from '../../document/project.ts';
import { type PageDraft, type PageSetting, withFoot } from '../../foundations/booklet/flow.ts';
import type { Sheet } from '../../foundations/sheet/sheet.ts';
import { layOut } from '../layout.ts';
import type { Pinned } from '../matching.ts';
import { finishingPages } from './finishing-pages.ts';
import { guidePages } from './guide-pages.ts';
import { mapPages } from './map-pages.ts';
import { posterDrafts } from './poster-pages.ts';

export type QuiltPart = 'map' | 'guide' | 'finishing' | 'poster';

export interface QuiltPrint {
  readonly project: Project;
  readonly parts: readonly QuiltPart[];
  readonly setting: PageSetting;
  /** How wide the poster is to be, inches. */
  readonly posterWidth: number;
  /** What meets each step's seam, where it is known. */
  readonly pinned: readonly Pinned[];
}

/** The pages of a quilt: its map, the guide to its joining, what finishes it, its picture as a poster in tiles. */
export function quiltSheets({ project, parts, setting, posterWidth, pinned }: QuiltPrint): Sheet[] {
  const layout = layOut({ places: project.quilt?.places ?? [] }, project.blocks);
  if (layout.pieces.length === 0) return [];
  const has = (part: QuiltPart): boolean => parts.includes(part);
  const drafts: PageDraft[] = [
    ...(has('map') ? mapPages(project, layout, setting) : []),
    ...(has('guide') ? guidePages(project, layout, setting, pinned) : []),
    ...(has('finishing') ? finishingPages(project, layout, setting) : []),
    ...(has('poster') ? posterDrafts(project, layout, setting, posterWidth) : []),
  ];
  return drafts.map((draft, k) => withFoot(draft, setting, k + 1, drafts.length));
}
