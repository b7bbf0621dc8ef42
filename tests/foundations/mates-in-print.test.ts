import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import { joiningSides } from '../../src/foundations/mates.ts';
import { PAGES } from '../../src/foundations/pages.ts';
import { toPdf } from '../../src/foundations/pdf.ts';
import { tickCounts } from '../../src/foundations/tick-counts.ts';
import type { Point } from '../../src/geometry/point.ts';
import { piece } from '../../src/piecing/piece.ts';
import { print, typeface } from './harbour.ts';
import { has, lineMiddles, type Raster, renderPdf } from './tools.ts';

const demo = openFile(
  readFileSync(new URL('../../public/demo/harbour-sampler.underpaper.json', import.meta.url), 'utf8'),
);
if (!demo.ok) throw new Error(demo.error.message);
const { project } = demo;

const DPI = 600;
const ALLOWANCE_IN = 0.25;
/** A tenth of a millimetre. */
const TENTH_MM = 0.1 / 25.4;

/** A point of the front on its sheet: mirrored, against the box of the outline as it is drawn, turned and moved. */
function onSheet(
  [x, y]: Point,
  outline: readonly Point[],
  drawn: readonly Point[],
  { at, quarterTurns }: { readonly at: Point; readonly quarterTurns: number },
): Point {
  const right = Math.max(...outline.map((p) => p[0]));
  const top = Math.min(...outline.map((p) => p[1]));
  const left = Math.min(...drawn.map((p) => p[0]));
  const drawnTop = Math.min(...drawn.map((p) => p[1]));
  const [u, v] = [left + right - x, drawnTop + y - top];
  const angle = (quarterTurns * Math.PI) / 2;
  return [
    at[0] + u * Math.cos(angle) - v * Math.sin(angle),
    at[1] + u * Math.sin(angle) + v * Math.cos(angle),
  ];
}

/** Middles of the dark lines across a straight stretch through `middle` along `along`, inches from it. */
function darkAlong(picture: Raster, middle: Point, along: Point, half: number): number[] {
  const step = 1 / (4 * DPI);
  const shades: number[] = [];
  for (let t = -half; t <= half; t += step)
    shades.push(
      picture.at(Math.floor((middle[0] + t * along[0]) * DPI), Math.floor((middle[1] + t * along[1]) * DPI)),
    );
  return lineMiddles(shades).map((i) => -half + (i - 0.5) * step);
}

describe.skipIf(!has('pdftoppm'))('registration points in the printed file', () => {
  it('are as far apart on both mates of every join of every demo block, within 0.1 mm', {
    timeout: 240_000,
  }, async () => {
    let pairs = 0;
    let points = 0;
    let seen = 0;
    for (const block of project.blocks) {
      const plan = piece(block);
      if (plan.joins.length === 0) continue;
      const counts = tickCounts(plan);
      // On A3 every paper is whole.
      const { sheets } = print([block], {
        page: PAGES.a3,
        project: { ...project, blocks: [block], seamAllowance: ALLOWANCE_IN },
      });
      const pdf = await toPdf(sheets, typeface, { title: 'mates', createdAt: new Date(0) });
      /** By join and section, where each point was seen along the seam, counted from its first point as planned. */
      const found = new Map<string, Map<string, number>>();
      for (const [i, sheet] of sheets.entries()) {
        const picture = renderPdf(pdf, DPI, i + 1);
        for (const { paper, marks, placement } of sheet.parts) {
          const section = plan.sections.find(({ letter }) => letter === paper?.section);
          const edge = marks.find((mark) => mark.kind === 'polygon' && mark.pen === 'edge');
          if (!section || edge?.kind !== 'polygon') continue;
          for (const { join, side, points: own } of joiningSides(plan, section)) {
            if (!join) continue;
            const place = (p: Point): Point => onSheet(p, section.outline, edge.ring, placement);
            const [a, b] = side.map(place) as [Point, Point];
            const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
            const along: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
            // The section lies to the left of its mirrored side, so the allowance to the right.
            const outward: Point = [-along[1], along[0]];
            const measured = new Map<string, number>();
            for (const { label, at } of own) {
              points++;
              const p = place(at);
              const count = counts.get(join.step)!;
              const reach = ((count - 1) / 2) * (2.2 / 72) + 0.012;
              // A tick stands square to the seam: what is seen at two depths alike is no other line that fans out.
              const offs = [0.3, 0.45, 0.6, 0.75].flatMap((share): number[] => {
                const depth = share * ALLOWANCE_IN;
                const middle: Point = [p[0] + depth * outward[0], p[1] + depth * outward[1]];
                const dark = darkAlong(picture, middle, along, reach);
                return dark.length === count ? [dark.reduce((sum, t) => sum + t, 0) / count] : [];
              });
              const off = offs.find((one, k) => offs.slice(k + 1).some((two) => Math.abs(one - two) < 2e-4));
              if (off === undefined) continue;
              measured.set(label, (p[0] - a[0]) * along[0] + (p[1] - a[1]) * along[1] + off);
              seen++;
            }
            const key = `${join.step} ${section.letter}`;
            found.set(key, new Map([...(found.get(key) ?? []), ...measured]));
          }
        }
      }
      for (const join of plan.joins) {
        if (join.kind !== 'straight') continue;
        const sides = [join.left, join.right].map((letters) =>
          letters.flatMap((letter) => found.get(`${join.step} ${letter}`) ?? []),
        );
        for (const one of sides[0]!)
          for (const other of sides[1]!) {
            const shared = [...one.keys()].filter((label) => other.has(label));
            for (let k = 1; k < shared.length; k++) {
              const [p, q] = [shared[k - 1]!, shared[k]!];
              const here = Math.abs(one.get(q)! - one.get(p)!);
              const there = Math.abs(other.get(q)! - other.get(p)!);
              expect(Math.abs(here - there), `${block.name} ${p} ${q}`).toBeLessThan(TENTH_MM);
              pairs++;
            }
          }
      }
    }
    expect(pairs).toBeGreaterThan(100);
    expect(seen / points).toBeGreaterThan(0.75);
  });
});
