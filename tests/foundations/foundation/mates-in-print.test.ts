import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../../src/document/file.ts';
import { PAGES, type Page } from '../../../src/document/pages.ts';
import { toPdf } from '../../../src/foundations/files/pdf.ts';
import { joiningSides } from '../../../src/foundations/foundation/mates.ts';
import { tickCounts } from '../../../src/foundations/foundation/tick-counts.ts';
import type { Point } from '../../../src/geometry/point.ts';
import type { Block } from '../../../src/piecing/block.ts';
import { piece } from '../../../src/piecing/piece.ts';
import type { Join } from '../../../src/piecing/plan.ts';
import { harbourPicture } from '../../designs/harbour-picture.ts';
import { print, typeface } from '../harbour.ts';
import { has, type Raster, renderPdf } from '../tools.ts';

const demo = openFile(
  readFileSync(new URL('../../../public/demo/harbour-sampler.underpaper.json', import.meta.url), 'utf8'),
);
if (!demo.ok) throw new Error(demo.error.message);
const { project } = demo;

const DPI = 400;
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

/** Where a tick stands at most beside the place it is looked for, inches: 0.35 mm. */
const LOOK_IN = 0.35 / 25.4;
/** From tick to tick where there are two or three: 2.2 pt. */
const TICK_GAP_IN = 2.2 / 72;
/** Half the way from one tick to the next: what lies nearer belongs to this tick. */
const HALF_GAP_IN = TICK_GAP_IN / 2;
const STEP_IN = 1 / (4 * DPI);
/**
 * A tick is ink over all of its depth; lines that fan out from the point are so over a part of it. Between what
 * crosses reach over and the dashes of the trim line, or where a corner leaves less room, over half of that.
 */
const DEPTHS_IN: readonly (readonly [number, number])[] = [
  [0.045, 0.22],
  [0.045, 0.13],
];

/**
 * How far the ticks of a point stand along the seam from where they are looked for, measured in the picture: the
 * spot at which there is ink over the whole depth in the place of each of them. Null where there is none.
 */
function ticksBeside(
  picture: Raster,
  point: Point,
  along: Point,
  outward: Point,
  count: number,
): number | null {
  const asides = Array.from({ length: count }, (_, k) => (k - (count - 1) / 2) * TICK_GAP_IN);
  const reach = LOOK_IN + HALF_GAP_IN * count;
  const half = Math.ceil(reach / STEP_IN);
  for (const [near, far] of DEPTHS_IN) {
    const depths = Math.round((far - near) * DPI);
    const ink = Array.from({ length: 2 * half + 1 }, (_, i) => {
      const t = (i - half) * STEP_IN;
      let sum = 0;
      for (let j = 0; j < depths; j++) {
        const depth = near + ((far - near) * (j + 0.5)) / depths;
        const x = point[0] + t * along[0] + depth * outward[0];
        const y = point[1] + t * along[1] + depth * outward[1];
        sum += 255 - picture.at(Math.floor(x * DPI), Math.floor(y * DPI));
      }
      return sum / (255 * depths);
    });
    const inkAt = (t: number): number => ink[half + Math.round(t / STEP_IN)] ?? 0;
    let best = { t: 0, ink: 0 };
    for (let t = -LOOK_IN; t <= LOOK_IN; t += STEP_IN) {
      const least = Math.min(...asides.map((aside) => inkAt(t + aside)));
      if (least > best.ink + 1e-9 || (least > best.ink - 1e-9 && Math.abs(t) < Math.abs(best.t)))
        best = { t, ink: Math.max(least, best.ink) };
    }
    if (best.ink < 0.85) continue;
    let weight = 0;
    let moment = 0;
    for (const aside of asides)
      for (let t = -HALF_GAP_IN / 2; t <= HALF_GAP_IN / 2; t += STEP_IN) {
        const dark = Math.max(0, inkAt(best.t + aside + t) - 0.4);
        weight += dark;
        moment += dark * (best.t + t);
      }
    return moment / weight;
  }
  return null;
}

/** One straight part of one paper's edge, with where its points were seen along it, inches from its first end. */
interface Seen {
  readonly step: number;
  readonly isLeft: boolean;
  readonly section: string;
  readonly at: ReadonlyMap<string, number>;
}

/** Where a set-in join turns its corners: a cross and a ring stand there, without ticks that would lie across each other. */
const turnsOf = ({ stretches }: Join): ReadonlySet<string> => {
  const ends = stretches.flat().map(String);
  return new Set(ends.filter((end, k) => ends.indexOf(end) !== k));
};

/** Prints a block, measures every registration point of every paper, and says which were not found. */
async function measured(block: Block, page: Page): Promise<{ seen: Seen[]; missed: string[] }> {
  const plan = piece(block);
  const counts = tickCounts(plan);
  const { sheets } = print([block], {
    page,
    project: { ...project, blocks: [block], seamAllowance: ALLOWANCE_IN },
  });
  const pdf = await toPdf(sheets, typeface, { title: 'mates', createdAt: new Date(0) });
  const seen: Seen[] = [];
  const missed: string[] = [];
  const papers = new Set<string>();
  for (const [i, sheet] of sheets.entries()) {
    const picture = renderPdf(pdf, DPI, i + 1);
    for (const { paper, marks, placement } of sheet.parts) {
      const section = plan.sections.find(({ letter }) => letter === paper?.section);
      const edge = marks.find((mark) => mark.kind === 'polygon' && mark.pen === 'edge');
      if (!section || edge?.kind !== 'polygon') continue;
      papers.add(section.letter);
      for (const { join, side, points } of joiningSides(plan, section)) {
        if (!join) continue;
        const place = (p: Point): Point => onSheet(p, section.outline, edge.ring, placement);
        const [a, b] = side.map(place) as [Point, Point];
        const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
        const along: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
        // The section lies to the left of its mirrored side, so the allowance to the right.
        const outward: Point = [-along[1], along[0]];
        const at = new Map<string, number>();
        const turns = turnsOf(join);
        for (const point of points) {
          if (turns.has(String(point.at))) continue;
          const p = place(point.at);
          const off = ticksBeside(picture, p, along, outward, counts.get(join.step)!);
          if (off === null) missed.push(`${block.name}: ${point.label} on ${section.letter}`);
          else at.set(point.label, (p[0] - a[0]) * along[0] + (p[1] - a[1]) * along[1] + off);
        }
        seen.push({
          step: join.step,
          isLeft: join.left.includes(section.letter),
          section: section.letter,
          at,
        });
      }
    }
  }
  // Whole papers only: none was left out because it came in tiles.
  expect([...papers].sort(), block.name).toEqual(plan.sections.map(({ letter }) => letter).sort());
  // Each point of each join stands on both sides of it.
  for (const join of plan.joins)
    for (const isLeft of [true, false]) {
      const here = seen.filter((one) => one.step === join.step && one.isLeft === isLeft);
      for (const { label, at: spot } of join.points)
        if (!turnsOf(join).has(String(spot)) && !here.some(({ at }) => at.has(label)))
          missed.push(`${block.name}: ${label}`);
    }
  return { seen, missed };
}

/** Checks each two points that two mates have in common, and counts them. */
function comparePairs(seen: readonly Seen[], name: string): number {
  let pairs = 0;
  for (const one of seen)
    for (const other of seen) {
      if (one.step !== other.step || !one.isLeft || other.isLeft) continue;
      const shared = [...one.at.keys()].filter((label) => other.at.has(label));
      shared.forEach((p, k) => {
        for (const q of shared.slice(k + 1)) {
          const here = Math.abs(one.at.get(q)! - one.at.get(p)!);
          const there = Math.abs(other.at.get(q)! - other.at.get(p)!);
          expect(
            Math.abs(here - there),
            `${name}: ${p} to ${q} on ${one.section} and ${other.section}`,
          ).toBeLessThan(TENTH_MM);
          pairs++;
        }
      });
    }
  return pairs;
}

describe.skipIf(!has('pdftoppm'))('registration points in the printed file', () => {
  // On these pages every paper is whole.
  const prints: readonly (readonly [Block, Page])[] = [
    ...project.blocks.map((block) => [block, PAGES.a3] as const),
    [harbourPicture().block, { name: 'Roll', width: 13, height: 28 }],
  ];

  it('are all found, and as far apart on both mates of every join, within 0.1 mm: demo blocks and one of 208 patches', {
    timeout: 240_000,
  }, async () => {
    let pairs = 0;
    const missed: string[] = [];
    for (const [block, page] of prints) {
      if (piece(block).joins.length === 0) continue;
      const found = await measured(block, page);
      missed.push(...found.missed);
      pairs += comparePairs(found.seen, block.name);
    }
    expect(missed).toEqual([]);
    expect(pairs).toBeGreaterThan(1000);
  });
});
