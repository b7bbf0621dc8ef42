import { formatLength, type LengthUnit } from '../../geometry/length.ts';
import { boxOf } from '../../geometry/ring.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import type { FabricLabel } from '../foundation/label-request.ts';
import type { Mark } from '../marks.ts';
import type { Foundation, PrintWork } from '../print-work.ts';
import type { Typeface } from '../type/typeface.ts';
import { LINE_DOWN_SIZE, numberLine, type SheetWords, testLineDown, timesOf } from './band.ts';
import { CAPTION_IN, captioned, PICTURE_GAP_IN, PICTURE_HIGH_IN, PICTURE_IN } from './captioned.ts';
import { copiesOf } from './copies.ts';
import type { DrawnFoundation } from './draw.ts';
import { emptySheet, type FilledSheet, filledSheets, layAt, layBetween, onSheet } from './filled.ts';
import { DEFAULT_NESTING } from './filling.ts';
import { frontPicture } from './front-picture.ts';
import { itemsOf } from './items.ts';
import { type Print, scaleOf } from './orientation.ts';
import { type PieceList, pieceLists } from './piece-list.ts';
import type { Part, Sheet, SheetOptions } from './sheet.ts';

/** The sheets with all that stands on them: papers, the line down, pictures and maps, and the foot. */
export function assemble(
  drawn: readonly DrawnFoundation[],
  print: Print,
  options: SheetOptions,
  work: PrintWork,
  fabrics: ReadonlyMap<string, FabricLabel>,
): { readonly sheets: readonly Sheet[]; readonly unseen: readonly string[] } {
  const { typeface, nesting = DEFAULT_NESTING } = options;
  const items = copiesOf(
    drawn.map((one) => ({ ...one, job: one.foundation.job, onlyCopy: one.foundation.onlyCopy })),
    nesting,
    (one) => itemsOf(one, nesting, typeface, options.codes),
  );
  const filled = filledSheets(items, print, nesting);
  layLineDown(filled, print, typeface);
  const { page, band } = print;
  const foot = onSheet(print, [0, print.room.height]);
  const { at } = band.number;
  const number = { ...band.number, at: [foot[0] + at[0], foot[1] + at[1]] as const };
  const scale = scaleOf(options);
  const footOf = remembered(band.draw, (words: SheetWords) => JSON.stringify(words));
  const sizeOf = remembered(
    (block: string) => {
      const { job, blockName } = foundationOf(drawn, block);
      return `${blockName} ${sizeWords(job.plan, work.project.unit)}`;
    },
    (block) => block,
  );
  const pictures = picturesFor(drawn, print, typeface);
  /** Signs of the fabrics whose hatching lies on a sheet. */
  const hatched = ({ parts }: FilledSheet): readonly string[] =>
    options.style !== 'hatched'
      ? []
      : parts.flatMap(({ paper }) =>
          paper === null
            ? []
            : foundationOf(drawn, paper.block).job.plan.patches.flatMap((patch) =>
                patch.section === paper.section && patch.fabric !== null
                  ? (fabrics.get(patch.fabric)?.code ?? [])
                  : [],
              ),
        );
  const layLists = listLayer(drawn, print, pieceLists(work, fabrics, typeface, timesOf(options)));
  const sheets = filled.map((one, i): Sheet => {
    const words = {
      isFirst: i === 0,
      tiles: one.hasTiles,
      signs: [...new Set([...signsOn(one.parts), ...hatched(one)])].sort(),
      sizes: blocksOn(one).map(sizeOf),
    };
    const title = phrase('Sheet {i} of {filled}', { i: i + 1, filled: filled.length });
    const beside = pictures.on(one, words.isFirst);
    layLists(one);
    const parts = [
      ...one.parts,
      { marks: footOf(words), placement: { at: foot, quarterTurns: 0 }, paper: null, isFoot: true as const },
    ];
    return {
      width: page.width,
      height: page.height,
      title,
      parts: [...parts, ...beside],
      number: { line: numberLine(typeface, [title], number), room: number },
      ...(scale ? { scale } : {}),
      ...(options.tone && { tone: options.tone }),
    };
  });
  return { sheets, unseen: [...pictures.unseen()] };
}

/**
 * The line down on every sheet: at the right of the foot and a little above it, elsewhere between the papers where one
 * lies there; else one of half its length in the foot. Where no sheet has room for it, it comes on one of its own.
 */
function layLineDown(filled: FilledSheet[], print: Print, typeface: Typeface): void {
  const line = testLineDown(typeface);
  const { lineDownAt, halfLineAt } = print.band;
  const half = testLineDown(typeface, 0.5);
  const lay = (one: FilledSheet): boolean =>
    (lineDownAt !== null &&
      layAt(one, line, LINE_DOWN_SIZE, [lineDownAt[0], print.room.height + lineDownAt[1]], print)) ||
    layBetween(one, line, LINE_DOWN_SIZE, print);
  const isLaid = filled.map(lay);
  for (const [i, { parts }] of filled.entries()) {
    const at = onSheet(print, [halfLineAt[0], print.room.height + halfLineAt[1]]);
    if (!isLaid[i] && lineDownAt !== null)
      parts.push({ marks: half, placement: { at, quarterTurns: 0 }, paper: null });
  }
  if (isLaid.some(Boolean)) return;
  const last = emptySheet(Number.POSITIVE_INFINITY);
  if (lay(last)) filled.push(last);
}

/**
 * The small pictures of each sheet in turn, in its foot: the front of its first block first, then maps of tiles, then
 * other fronts. What has no room there stands among the papers; a map without any room goes to the next sheet, and so
 * does a front that has not been seen. `unseen`: the blocks whose fronts have found no room by then.
 */
function picturesFor(
  drawn: readonly DrawnFoundation[],
  print: Print,
  typeface: Typeface,
): {
  readonly on: (filled: FilledSheet, isFirst: boolean) => readonly Part[];
  readonly unseen: () => ReadonlySet<string>;
} {
  const frontOf = remembered(
    (block: string): readonly Mark[] => {
      const { job, blockName } = foundationOf(drawn, block);
      const picture = frontPicture(job.plan, PICTURE_IN, PICTURE_HIGH_IN, typeface);
      return captioned(picture, phrase('Front: {blockName}', { blockName }), '', typeface);
    },
    (block) => block,
  );
  const size = { width: PICTURE_IN, height: PICTURE_HIGH_IN + CAPTION_IN };
  const step = PICTURE_IN + PICTURE_GAP_IN;
  let homeless: readonly (readonly Mark[])[] = [];
  const seen = new Set<string>();
  const unseen = new Set<string>();
  const on = (filled: FilledSheet, isFirst: boolean): readonly Part[] => {
    const blocks = [...blocksOn(filled), ...[...unseen].filter((id) => !blocksOn(filled).includes(id))];
    const { x, y, width } = print.band.pictureRoom(isFirst);
    const fit = Math.max(0, Math.floor((width + PICTURE_GAP_IN + 1e-9) / step));
    // Copies have one map in common; it need not stand twice on a sheet.
    const maps = [...new Set([...homeless, ...filled.maps])];
    const wanted = [...blocks.slice(0, 1).map(frontOf), ...maps, ...blocks.slice(1).map(frontOf)];
    const shown = wanted.slice(0, fit);
    const left = wanted.slice(fit).filter((picture) => !layBetween(filled, picture, size, print));
    homeless = maps.filter((map) => left.includes(map));
    for (const block of blocks) {
      if (!left.includes(frontOf(block))) seen.add(block);
      if (seen.has(block)) unseen.delete(block);
      else unseen.add(block);
    }
    return shown.map((marks, k): Part => {
      const across = x + width - (shown.length - k) * step + PICTURE_GAP_IN;
      return {
        marks,
        placement: { at: onSheet(print, [across, print.room.height + y]), quarterTurns: 0 },
        paper: null,
      };
    });
  };
  return { on, unseen: () => unseen };
}

/**
 * Lays the piece list of every foundation once, on the first sheet with a paper of it that has room for the list in one
 * of its shapes.
 */
function listLayer(
  drawn: readonly DrawnFoundation[],
  print: Print,
  listsOf: (foundation: Foundation) => readonly PieceList[],
): (filled: FilledSheet) => void {
  const wanted = new Map(
    drawn.map(({ foundation }) => [`${foundation.job.block.id} ${foundation.section.letter}`, foundation]),
  );
  return (filled) => {
    for (const { paper } of [...filled.parts]) {
      const name = paper && `${paper.block} ${paper.section}`;
      const foundation = name === null ? undefined : wanted.get(name);
      if (!foundation) continue;
      if (listsOf(foundation).some((list) => layBetween(filled, list.marks, list, print)))
        wanted.delete(name!);
    }
  };
}

/** `6 × 4 in`, finished. */
function sizeWords({ sections }: PiecingPlan, unit: LengthUnit): string {
  const { minX, minY, maxX, maxY } = boxOf(sections.flatMap(({ outline }) => outline));
  const [across, down] = [maxX - minX, maxY - minY].map((inches) => formatLength(inches, unit));
  return `${across!.replace(/ (in|mm)$/, '')} × ${down}`;
}

const foundationOf = (drawn: readonly DrawnFoundation[], block: string): Foundation =>
  drawn.find(({ foundation }) => foundation.job.block.id === block)!.foundation;

/** Ids of the blocks that have papers on a sheet, in their order there. */
const blocksOn = ({ parts }: FilledSheet): readonly string[] => [
  ...new Set(parts.flatMap(({ paper }) => paper?.block ?? [])),
];

/** The same as before for what has the same name: drawings that several sheets have in common are one object. */
function remembered<Asked, Made>(
  make: (asked: Asked) => Made,
  nameOf: (asked: Asked) => string,
): (asked: Asked) => Made {
  const made = new Map<string, Made>();
  return (asked) => {
    const name = nameOf(asked);
    const known = made.get(name) ?? make(asked);
    made.set(name, known);
    return known;
  };
}

/** The signs that the key explains, where they stand on papers: codes of fabrics, and `↔` for straight-grain arrows. */
function signsOn(parts: readonly Part[]): readonly string[] {
  const signs = new Set<string>();
  for (const { marks } of parts)
    for (const mark of marks) {
      const code = mark.kind === 'text' ? /(?:^| )(#\d+)$/.exec(mark.text)?.[1] : undefined;
      if (code !== undefined) signs.add(code);
      else if (mark.kind === 'line' && mark.pen === 'grain') signs.add('↔');
    }
  return [...signs].sort();
}
