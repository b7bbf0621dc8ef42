import type { Point } from '../../geometry/point.ts';
import type { Mark } from '../marks.ts';
import type { Typeface } from '../type/typeface.ts';
import { LINE_DOWN_SIZE, numberLine, type SheetWords, testLineDown } from './band.ts';
import { CAPTION_IN, captioned, PICTURE_GAP_IN, PICTURE_HIGH_IN, PICTURE_IN } from './captioned.ts';
import { copiesOf } from './copies.ts';
import type { DrawnFoundation } from './draw.ts';
import { emptySheet, type FilledSheet, filledSheets, layBetween, onSheet } from './filled.ts';
import { DEFAULT_NESTING } from './filling.ts';
import { frontPicture } from './front-picture.ts';
import { itemsOf } from './items.ts';
import { type Print, scaleOf } from './orientation.ts';
import type { Part, Sheet, SheetOptions } from './sheet.ts';

/** The sheets with all that stands on them: papers, the line down, pictures and maps, and the foot. */
export function assemble(
  drawn: readonly DrawnFoundation[],
  print: Print,
  options: SheetOptions,
): readonly Sheet[] {
  const { typeface, nesting = DEFAULT_NESTING } = options;
  const items = copiesOf(
    drawn.map((one) => ({ ...one, job: one.foundation.job })),
    nesting,
    (one) => itemsOf(one, nesting, typeface),
  );
  const filled = filledSheets(items, print, nesting);
  layLineDown(filled, print, typeface);
  const { page, band } = print;
  const foot = onSheet(print, [0, print.room.height]);
  const numberAt: Point = [foot[0] + band.numberAt[0], foot[1] + band.numberAt[1]];
  const scale = scaleOf(options);
  const footOf = remembered(band.draw, (words: SheetWords) => JSON.stringify(words));
  const pictures = picturesFor(drawn, print, typeface);
  return filled.map((one, i): Sheet => {
    const words = { isFirst: i === 0, tiles: one.hasTiles, signs: signsOn(one.parts) };
    const title = `Sheet ${i + 1} of ${filled.length}`;
    const beside = pictures(one, words.isFirst);
    const parts = [
      ...one.parts,
      { marks: footOf(words), placement: { at: foot, quarterTurns: 0 }, paper: null },
    ];
    return {
      width: page.width,
      height: page.height,
      title,
      parts: [...parts, ...beside],
      number: { line: numberLine(typeface, [title], numberAt, band.numberWidth), widest: band.numberWidth },
      ...(scale ? { scale } : {}),
    };
  });
}

/** The line down on every sheet that has room for it; on one of its own where none has. */
function layLineDown(filled: FilledSheet[], print: Print, typeface: Typeface): void {
  const line = testLineDown(typeface);
  const lay = (one: FilledSheet): boolean => layBetween(one, line, LINE_DOWN_SIZE, print);
  if (filled.map(lay).some(Boolean)) return;
  const last = emptySheet(Number.POSITIVE_INFINITY);
  if (lay(last)) filled.push(last);
}

/**
 * The small pictures of each sheet in turn, in its foot: the front of its first block first, then maps of tiles, then
 * other fronts. What has no room there stands among the papers; a map without any room goes to the next sheet, and a
 * front is left out.
 */
function picturesFor(
  drawn: readonly DrawnFoundation[],
  print: Print,
  typeface: Typeface,
): (filled: FilledSheet, isFirst: boolean) => readonly Part[] {
  const frontOf = remembered(
    (block: string): readonly Mark[] => {
      const { foundation } = drawn.find((one) => one.foundation.job.block.id === block)!;
      const picture = frontPicture(foundation.job.plan, PICTURE_IN, PICTURE_HIGH_IN, typeface);
      return captioned(picture, `Front: ${foundation.blockName}`, '', typeface);
    },
    (block) => block,
  );
  const size = { width: PICTURE_IN, height: PICTURE_HIGH_IN + CAPTION_IN };
  const step = PICTURE_IN + PICTURE_GAP_IN;
  let homeless: readonly (readonly Mark[])[] = [];
  return (filled, isFirst) => {
    const blocks = [...new Set(filled.parts.flatMap(({ paper }) => paper?.block ?? []))];
    const { x, y, width } = print.band.pictureRoom(isFirst);
    const fit = Math.max(0, Math.floor((width + PICTURE_GAP_IN + 1e-9) / step));
    // Copies have one map in common; it need not stand twice on a sheet.
    const maps = [...new Set([...homeless, ...filled.maps])];
    const wanted = [...blocks.slice(0, 1).map(frontOf), ...maps, ...blocks.slice(1).map(frontOf)];
    const shown = wanted.slice(0, fit);
    const left = wanted.slice(fit).filter((picture) => !layBetween(filled, picture, size, print));
    homeless = maps.filter((map) => left.includes(map));
    return shown.map((marks, k): Part => {
      const across = x + width - (shown.length - k) * step + PICTURE_GAP_IN;
      return {
        marks,
        placement: { at: onSheet(print, [across, print.room.height + y]), quarterTurns: 0 },
        paper: null,
      };
    });
  };
}

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
