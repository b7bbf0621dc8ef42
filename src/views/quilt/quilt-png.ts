import type { Project } from '../../document/project.ts';
import { drawEdges, drawPieces, type QuiltPen } from './draw-quilt.ts';
import { layoutOf } from './shown-quilt.ts';

/** Dots of the longer side. */
const LONGEST_DOTS = 3200;

/** The quilt as it is shown, as a PNG picture. */
export async function quiltPng(project: Project): Promise<Blob> {
  const layout = layoutOf(project);
  const { minX, minY, maxX, maxY } = layout.box;
  const scale = LONGEST_DOTS / Math.max(maxX - minX, maxY - minY);
  const canvas = document.createElement('canvas');
  canvas.width = Math.round((maxX - minX) * scale);
  canvas.height = Math.round((maxY - minY) * scale);
  const ctx = canvas.getContext('2d');
  if (ctx === null) throw new Error('no canvas');
  const pen: QuiltPen = {
    ctx,
    project,
    shows: 'fabric',
    camera: { scale, x: -minX * scale, y: -minY * scale },
  };
  drawPieces(pen, layout.pieces);
  drawEdges(pen, layout.pieces);
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('no picture'))), 'image/png'),
  );
}
