import { encode } from 'uqr';
import type { Mark } from '../marks.ts';

/** The clear rim that readers need round a code, in its own squares: ISO/IEC 18004 asks for four. */
const QUIET = 4;

/**
 * A QR code (ISO/IEC 18004, middle error correction) as marks, its clear rim included: black squares on white, from its
 * upper left corner, `side` inches wide. Squares in a row are drawn as one, so that no hairline shows between them.
 */
export function squareCode(text: string, side: number): Mark[] {
  const { data, size } = encode(text, { ecc: 'M', border: 0 });
  const unit = side / (size + 2 * QUIET);
  const box = (x: number, y: number, width: number, height: number, fill: string): Mark => ({
    kind: 'polygon',
    pen: 'code',
    fill,
    ring: [
      [x * unit, y * unit],
      [(x + width) * unit, y * unit],
      [(x + width) * unit, (y + height) * unit],
      [x * unit, (y + height) * unit],
    ],
  });
  const marks: Mark[] = [box(0, 0, size + 2 * QUIET, size + 2 * QUIET, '#ffffff')];
  data.forEach((row, y) => {
    for (let x = 0; x < size; x++) {
      if (!row[x]) continue;
      const start = x;
      while (x + 1 < size && row[x + 1]) x++;
      marks.push(box(start + QUIET, y + QUIET, x + 1 - start, 1, '#000000'));
    }
  });
  return marks;
}
