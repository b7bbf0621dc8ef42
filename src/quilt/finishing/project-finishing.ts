import { clothsOf, cuttingRulesOf } from '../../cutting/project-cutting.ts';
import type { Project } from '../../document/project.ts';
import { type Layout, layOut } from '../layout.ts';
import { type FinishingList, finishingList, finishingPieces } from './finishing-list.ts';
import { type PlainPiece, plainPieces } from './plain-pieces.ts';

/** What finishes the quilt of a project, with the fabrics as wide as they are. */
export function finishingOf(project: Project, { box }: Pick<Layout, 'box'>): FinishingList {
  const { quilt, seamAllowance } = project;
  const widths = new Map(clothsOf(project).map(({ fabric, usableWidth }) => [fabric, usableWidth]));
  const usual = cuttingRulesOf(project).usableWidth;
  const widthOf = (fabric: string | undefined): number =>
    (fabric === undefined ? undefined : widths.get(fabric)) ?? usual;
  const { binding, backing } = quilt?.finishing ?? {};
  return finishingList([box.maxX - box.minX, box.maxY - box.minY], quilt?.finishing, seamAllowance, {
    binding: widthOf(binding?.fabric),
    backing: widthOf(backing?.fabric),
  });
}

/** All plain cloth of the quilts of a project: sashing, triangles, borders, and what finishes them. */
export function clothOfQuilts(
  project: Project,
  layout: Layout = layOut(project.quilt ?? { places: [] }, project.blocks),
): readonly PlainPiece[] {
  const { quilt, seamAllowance } = project;
  if (!quilt || quilt.places.length === 0) return [];
  const pieces = [
    ...plainPieces(layout, seamAllowance),
    ...finishingPieces(finishingOf(project, layout), quilt.finishing),
  ];
  return [
    ...pieces,
    ...(quilt.copies ?? []).flatMap(({ fabrics }) =>
      pieces.map((piece) => ({
        ...piece,
        fabric: piece.fabric === null ? null : (fabrics[piece.fabric] ?? piece.fabric),
      })),
    ),
  ];
}
