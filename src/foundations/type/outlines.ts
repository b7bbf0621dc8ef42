import type { Point } from '../../geometry/point.ts';
import { fontsOf } from './fonts.ts';
import type { Face, FullTypeface } from './typeface.ts';

/** A stroke of a letter's outline: where it goes, and the points it bends by. */
export interface Stroke {
  readonly kind: 'move' | 'line' | 'quadratic' | 'cubic' | 'close';
  readonly points: readonly Point[];
}

/**
 * The outlines of a text's letters, to be filled (non-zero): at type size 1, from where the baseline begins, y down.
 * Set word by word with the blank that follows, as text is measured and as the PDF is set.
 */
export function outlinesOf(
  text: string,
  face: Face,
  typeface: Pick<FullTypeface, 'files'>,
): readonly Stroke[] {
  const font = fontsOf(typeface)[face];
  const strokes: Stroke[] = [];
  let along = 0;
  for (const word of text.match(/[^ ]* ?/g) ?? []) {
    if (word === '') continue;
    const { glyphs, positions } = font.layout(word);
    glyphs.forEach(({ path }, i) => {
      const { xAdvance, xOffset, yOffset } = positions[i]!;
      const [dx, dy] = [along + xOffset, yOffset];
      for (const { command, args } of path.commands) {
        const points: Point[] = [];
        for (let k = 0; k + 1 < args.length; k += 2)
          points.push([(dx + args[k]!) / font.unitsPerEm, -(dy + args[k + 1]!) / font.unitsPerEm]);
        strokes.push({ kind: KINDS[command] ?? 'close', points });
      }
      along += xAdvance;
    });
  }
  return strokes;
}

const KINDS: Readonly<Record<string, Stroke['kind']>> = {
  moveTo: 'move',
  lineTo: 'line',
  quadraticCurveTo: 'quadratic',
  bezierCurveTo: 'cubic',
  closePath: 'close',
};
