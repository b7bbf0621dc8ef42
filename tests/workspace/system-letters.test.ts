import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { printable } from '../../src/foundations/type/typeface.ts';
import { withSystemLetters } from '../../src/workspace/system-letters.ts';
import { typeface } from '../foundations/harbour.ts';

/** What the machine's fonts hold beside the shipped typeface: how high a letter stands, as a share of the size. */
const MACHINE: ReadonlyMap<string, number> = new Map([
  ['港', 0.8],
  ['灯', 0.75],
  ['ج', 0.5],
  ['🚩', 0.9],
]);
/** A blank of the machine's fonts, which has nothing to be seen (Unicode: ideographic space). */
const WIDE_BLANK = '\u3000';
/** Each letter is so wide, and leans so far out to the left of where it begins. */
const ADVANCE = 0.6;
const LEAN = 0.1;
const BELOW = 0.2;

type Colour = readonly [number, number, number];

/**
 * A canvas with the text calls that are used (HTML Living Standard, CanvasText and CanvasTextDrawingStyles). A letter
 * is a filled box; what no font has is a hollow one, as browsers draw it; a flag comes out red whatever the ink.
 */
class Brush {
  fillStyle = '#000';
  font = '10px sans-serif';
  readonly data: Uint8ClampedArray;

  constructor(
    readonly width: number,
    readonly height: number,
  ) {
    this.data = new Uint8ClampedArray(4 * width * height);
  }

  private get size(): number {
    return Number(/([\d.]+)px/.exec(this.font)![1]);
  }

  private paint(x0: number, y0: number, x1: number, y1: number, colour: Colour): void {
    for (let y = Math.max(0, Math.round(y0)); y < Math.min(this.height, Math.round(y1)); y++)
      for (let x = Math.max(0, Math.round(x0)); x < Math.min(this.width, Math.round(x1)); x++)
        this.data.set([...colour, 255], 4 * (y * this.width + x));
  }

  fillRect(x: number, y: number, width: number, height: number): void {
    this.paint(x, y, x + width, y + height, this.fillStyle === '#fff' ? [255, 255, 255] : [0, 0, 0]);
  }

  fillText(text: string, x: number, y: number): void {
    const em = this.size;
    [...text].forEach((letter, i) => {
      const left = x + (i * ADVANCE - LEAN) * em;
      const right = x + (i + 1) * ADVANCE * em;
      if (letter === ' ' || letter === WIDE_BLANK) return;
      const high = typeface.has(letter.codePointAt(0)!) ? 0.65 : MACHINE.get(letter);
      if (high !== undefined) {
        const ink: Colour = letter === '🚩' ? [255, 0, 0] : [0, 0, 0];
        this.paint(left, y - high * em, right, y + BELOW * em, ink);
        return;
      }
      this.paint(left, y - 0.7 * em, right, y, [0, 0, 0]);
      this.paint(left + 2, y - 0.7 * em + 2, right - 2, y - 2, [255, 255, 255]);
    });
  }

  measureText(text: string) {
    const em = this.size;
    const letters = [...text];
    return {
      width: letters.length * ADVANCE * em,
      actualBoundingBoxLeft: LEAN * em,
      actualBoundingBoxRight: letters.length * ADVANCE * em,
      actualBoundingBoxAscent: Math.max(...letters.map((letter) => MACHINE.get(letter) ?? 0.65)) * em,
      actualBoundingBoxDescent: BELOW * em,
    };
  }

  getImageData(x: number, y: number, width: number, height: number) {
    expect([x, y, width, height]).toEqual([0, 0, this.width, this.height]);
    return { data: this.data };
  }
}

class Canvas {
  private readonly brush: Brush;

  constructor(width: number, height: number) {
    // A canvas has whole dots.
    expect(Number.isInteger(width) && Number.isInteger(height)).toBe(true);
    this.brush = new Brush(width, height);
  }

  getContext(): Brush {
    return this.brush;
  }
}

beforeEach(() => {
  vi.stubGlobal('OffscreenCanvas', Canvas);
});

afterEach(() => {
  vi.unstubAllGlobals();
});

const both = () => withSystemLetters(typeface, 'Underpaper print');

describe('letters that the shipped typeface lacks', () => {
  it('stay lacking where no canvas can be had', () => {
    vi.stubGlobal('OffscreenCanvas', undefined);
    expect(both()).toBe(typeface);
    vi.stubGlobal(
      'OffscreenCanvas',
      class {
        getContext(): null {
          return null;
        }
      },
    );
    expect(both()).toBe(typeface);
  });

  it('are there when the machine has them, and lacking when it would draw an empty box or nothing', () => {
    const letters = both();
    for (const letter of MACHINE.keys()) {
      expect(typeface.has(letter.codePointAt(0)!)).toBe(false);
      expect(letters.has(letter.codePointAt(0)!)).toBe(true);
    }
    // An unassigned letter, one of a script the machine lacks, and a blank.
    for (const letter of ['\u0378', 'ᚠ', WIDE_BLANK]) expect(letters.has(letter.codePointAt(0)!)).toBe(false);
    expect(letters.has('A'.codePointAt(0)!)).toBe(true);
  });

  it('let a name be printed in full, and otherwise leave a gap, never a box', () => {
    expect(printable(both(), '港の灯', '#1').text).toBe('港·灯');
    expect(printable(both(), '港灯', '#1')).toEqual({ text: '港灯', lacking: '' });
    expect(printable(typeface, '港灯', '#1').text).toBe('#1');
  });

  it('leave texts that the typeface has as they are: set, measured by it, no picture', () => {
    for (const face of ['regular', 'semibold'] as const) {
      expect(both().picture!('Żółta latarnia', face, 0.1)).toBeNull();
      expect(both().extent('Night sea', face)).toEqual(typeface.extent('Night sea', face));
    }
  });

  it('are measured as the machine draws them, at a size of 1', () => {
    const { width, up, down } = both().extent('港 灯', 'regular');
    expect(width).toBeCloseTo(3 * ADVANCE, 9);
    expect(up).toBeCloseTo(0.8, 9);
    expect(down).toBeCloseTo(BELOW, 9);
  });

  it('come as a picture of 600 dots to the inch, whole, with its baseline where it is said to be', () => {
    for (const size of [6 / 72, 9.5 / 72, 0.31]) {
      const { dpi, width, height, left, up, grey } = both().picture!('港A', 'semibold', size)!;
      expect(dpi).toBe(600);
      expect(grey).toHaveLength(width * height);
      const ink = Array.from(grey.keys()).filter((i) => grey[i]! < 128);
      const across = ink.map((i) => i % width);
      const down = ink.map((i) => Math.floor(i / width));
      const box = {
        left: Math.min(...across),
        right: Math.max(...across) + 1,
        top: Math.min(...down),
        bottom: Math.max(...down) + 1,
      };
      // Nothing is cut off: a clear rim all round, also where a letter leans out of its room.
      expect(Math.min(box.left, box.top, width - box.right, height - box.bottom)).toBeGreaterThan(0);
      const dots = size * dpi;
      const near = (found: number, wanted: number) => expect(Math.abs(found - wanted)).toBeLessThanOrEqual(1);
      near(box.left - left * dpi, -LEAN * dots);
      near(box.right - left * dpi, 2 * ADVANCE * dots);
      near(box.top - up * dpi, -0.8 * dots);
      near(box.bottom - up * dpi, BELOW * dots);
    }
  });

  it('in colour come out as light as they look: full red weighs 0.2126 (ITU-R BT.709)', () => {
    const { grey } = both().picture!('🚩', 'regular', 0.2)!;
    expect(new Set(grey)).toEqual(new Set([255, Math.round(0.2126 * 255)]));
  });
});
