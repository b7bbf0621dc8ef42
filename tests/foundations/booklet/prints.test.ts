import { describe, expect, it } from 'vitest';
import { givePicture } from '../../../src/document/edit-fabrics.ts';
import { PAGES } from '../../../src/document/pages.ts';
import type { Project } from '../../../src/document/project.ts';
import { layOutBooklet } from '../../../src/foundations/booklet/booklet.ts';
import type { BookletPart } from '../../../src/foundations/booklet/parts.ts';
import { toPdf } from '../../../src/foundations/files/pdf.ts';
import { toSvg } from '../../../src/foundations/files/svg.ts';
import { type PolygonMark, type Print, placeMark } from '../../../src/foundations/marks.ts';
import { marksOf, type Sheet, type SheetOptions } from '../../../src/foundations/sheet/sheet.ts';
import { holdsPoint } from '../../../src/geometry/inner-spot.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { boxOf } from '../../../src/geometry/ring.ts';
import { piece } from '../../../src/piecing/piece.ts';
import { chequer } from '../../document/prints.ts';
import { harbour, quarters } from '../../document/projects.ts';
import { typeface } from '../harbour.ts';
import { has, type Raster, renderPdf, runOn } from '../tools.ts';

const setting: SheetOptions = {
  page: PAGES.letter,
  margin: 0.25,
  side: 'printed',
  style: 'shaded',
  printedOn: '24 November 2026',
  typeface,
};

/** Quarters of 12 in; top left lies a chequer of a piece 4 in wide, 2 in high. */
const printed: Project = givePicture(harbour, 'f1', chequer({ across: 4 }));

const sheetsOf = (project: Project, parts: readonly BookletPart[], options = setting): readonly Sheet[] => {
  const jobs = [{ block: quarters, plan: piece(quarters), copies: 1, isMirrored: false }];
  return layOutBooklet({ project, jobs }, options, new Set(parts)).sheets;
};

const printsOn = (sheet: Sheet): readonly (PolygonMark & { readonly print: Print })[] =>
  marksOf(sheet).filter(
    (mark): mark is PolygonMark & { readonly print: Print } =>
      mark.kind === 'polygon' && mark.print !== undefined,
  );

/** How dark the chequer is at a place of the sheet: it is black in its upper left and lower right quarters. */
function isBlack({ at, width, height, quarterTurns }: Print, [x, y]: Point): boolean {
  const angle = (-quarterTurns * Math.PI) / 2;
  const [dx, dy] = [x - at[0], y - at[1]];
  const u = (dx * Math.cos(angle) - dy * Math.sin(angle)) / width;
  const v = (dx * Math.sin(angle) + dy * Math.cos(angle)) / height;
  const share = (n: number): number => n - Math.floor(n);
  return share(u) < 0.5 === share(v) < 0.5;
}

/** Compares what was rendered with the chequer as it must lie, in the middles of its squares. */
function expectChequer(
  page: Raster,
  dpi: number,
  { ring, print }: PolygonMark & { readonly print: Print },
): void {
  const { minX, minY, maxX, maxY } = boxOf(ring);
  const isOnItsSide = print.quarterTurns % 2 !== 0;
  const [w, h] = isOnItsSide ? [print.height, print.width] : [print.width, print.height];
  let [looked, dark] = [0, 0];
  for (let x = print.at[0] - 40 * w + w / 4; x < maxX - 0.04; x += w / 2) {
    for (let y = print.at[1] - 40 * h + h / 4; y < maxY - 0.04; y += h / 2) {
      if (x < minX + 0.04 || y < minY + 0.04 || !holdsPoint({ polygon: ring, holes: [] }, [x, y])) continue;
      looked++;
      const shade = page.at(Math.round(x * dpi), Math.round(y * dpi));
      const black = isBlack(print, [x, y]);
      if (black) dark++;
      expect(black ? shade < 70 : shade > 185, `${x}, ${y}: ${shade}`).toBe(true);
    }
  }
  expect(looked).toBeGreaterThan(8);
  expect(Math.abs(dark / looked - 0.5)).toBeLessThan(0.26);
}

const DPI = 200;
const info = { title: 'Prints', createdAt: new Date(0) };
const ofPdf = async (sheet: Sheet): Promise<Raster> => renderPdf(await toPdf([sheet], typeface, info), DPI);
const ofSvg = (sheet: Sheet): Raster =>
  renderPdf(runOn(toSvg(sheet), 'svg', 'rsvg-convert', ['-f', 'pdf', '{}']), DPI);

describe('fabrics with pictures on paper', () => {
  it('are printed in colour alone on foundations: a picture would cost ink and hide the lines', () => {
    const sheets = sheetsOf(printed, ['foundations', 'guide', 'line-drawing', 'templates']);
    expect(sheets.length).toBeGreaterThan(3);
    expect(sheets.flatMap(printsOn)).toEqual([]);
    expect(sheets.map(toSvg).join('')).not.toContain('data:image');
  });

  it('show on the cover at the scale of the drawing, and whole in the key', () => {
    const [cover] = sheetsOf(printed, ['cover']);
    const [patch, key, ...more] = printsOn(cover!);
    expect(more).toEqual([]);
    // A quarter of the block is 6 in: its ring tells how large an inch of the block is drawn.
    const { minX, minY, maxX } = boxOf(patch!.ring);
    const scale = (maxX - minX) / 6;
    expect(patch!.print.width).toBeCloseTo(4 * scale, 6);
    expect(patch!.print.height).toBeCloseTo(2 * scale, 6);
    expect(patch!.print.at[0]).toBeCloseTo(minX, 6);
    expect(patch!.print.at[1]).toBeCloseTo(minY, 6);
    const side = boxOf(key!.ring);
    expect(key!.print.height).toBeCloseTo(side.maxY - side.minY, 6);
  });

  it.skipIf(!has('pdftoppm'))(
    'lie in the PDF where they must, in a corrected one too (needs pdftoppm)',
    async () => {
      for (const correction of [null, { printer: 'Inkjet', across: 1.02, down: 0.98 }]) {
        const [cover] = sheetsOf(printed, ['cover'], { ...setting, correction });
        expectChequer(await ofPdf(cover!), DPI, printsOn(cover!)[0]!);
      }
    },
  );

  it.skipIf(!has('pdftoppm') || !has('rsvg-convert'))('and in the SVG (needs rsvg-convert)', () => {
    const [cover] = sheetsOf(printed, ['cover']);
    expectChequer(ofSvg(cover!), DPI, printsOn(cover!)[0]!);
  });

  it.skipIf(!has('pdftoppm') || !has('rsvg-convert'))(
    'turn with the drawing they are part of (needs pdftoppm, rsvg-convert)',
    async () => {
      const square: PolygonMark = {
        kind: 'polygon',
        pen: 'patch',
        fill: '#808080',
        ring: [
          [0, 0],
          [2, 0],
          [2, 3],
          [0, 3],
        ],
        print: { data: chequer({ across: 1 }).data, at: [0.1, 0.2], width: 1, height: 0.5, quarterTurns: 0 },
      };
      for (const quarterTurns of [0, 1, 2, 3]) {
        const placement = { at: [4, 4] as const, quarterTurns };
        const sheet: Sheet = {
          width: 8,
          height: 8,
          title: 'Turned',
          parts: [{ marks: [square], placement, paper: null }],
        };
        const mark = placeMark(square, placement) as PolygonMark & { readonly print: Print };
        expectChequer(await ofPdf(sheet), DPI, mark);
        expectChequer(ofSvg(sheet), DPI, mark);
      }
    },
  );

  it.skipIf(!has('pdftoppm'))(
    'leave their colour where a PDF cannot hold them (needs pdftoppm)',
    async () => {
      const picture = { ...chequer({ across: 4 }), data: 'data:image/webp;base64,UklGRgAAAABXRUJQ' };
      const [cover] = sheetsOf(givePicture(harbour, 'f1', picture), ['cover']);
      const { ring } = printsOn(cover!)[0]!;
      const { minX, minY, maxX, maxY } = boxOf(ring);
      const page = await ofPdf(cover!);
      // #1d3557 is 51 of 255 in grey, by the weights of ITU-R BT.601 that poppler uses.
      const shade = page.at(Math.round(((minX + maxX) / 2) * DPI), Math.round(((minY + maxY) / 2) * DPI));
      expect(Math.abs(shade - 51)).toBeLessThan(4);
    },
  );
});
