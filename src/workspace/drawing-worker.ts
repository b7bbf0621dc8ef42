import { expose } from 'comlink';
import { addDrawnBlock } from '../document/add-drawn-block.ts';
import { type LeftOutKind, type ReadSvg, readSvg, type StatedSize } from '../document/import-svg/read-svg.ts';
import { type ToBlock, type ToBlockOptions, toBlock } from '../document/import-svg/to-block.ts';
import { patchesOf } from '../document/patches-of.ts';
import { EMPTY_PROJECT } from '../document/project.ts';
import { phrase } from '../words/phrase.ts';
import { numbersOf, type StarterNumbers } from './starter-numbers.ts';

/** How a drawing is to be read and to become a block. */
export interface DrawingWish extends ToBlockOptions {
  /** Straight stretches for each curved one; 0 leaves curves out. */
  readonly chords: number;
}

/** What was understood of a drawing. */
export interface Understood {
  readonly stated: StatedSize;
  /** Curved stretches, whether drawn as chords or left out. */
  readonly curves: number;
  readonly leftOut: ReadonlyMap<LeftOutKind, number>;
  readonly made: ToBlock;
  /** Of the block it becomes; null where it becomes none. */
  readonly patches: number | null;
  /** How it is sewn; null where that is not worked out before the block is there. */
  readonly numbers: StarterNumbers | null;
}

export type Understanding =
  | { readonly ok: true; readonly understood: Understood }
  /** A whole sentence: nothing of the file can be used. */
  | { readonly ok: false; readonly error: string };

/** More patches than this and how they are sewn is not worked out while the drawing is still being set. */
const QUICK_PATCHES = 200;

let text = '';
let last: { readonly chords: number; readonly read: ReadSvg } | null = null;

const drawing = {
  /** The text of the file, before anything is asked of it. */
  hold(given: string): void {
    text = given;
    last = null;
  },

  /** `onShare`: how much of the file has been read, 0 to 1. */
  understand({ chords, ...options }: DrawingWish, onShare: (share: number) => void): Understanding {
    if (last?.chords !== chords) last = { chords, read: readSvg(text, chords, onShare) };
    const { read } = last;
    if (!read.ok) return read;
    const { stated, curves, leftOut, runs } = read.drawing;
    if (runs.length === 0 && curves === 0)
      return { ok: false, error: phrase('No line was found in it that a block could be made of.') };
    const made = toBlock(read.drawing, options);
    const block = made.ok
      ? addDrawnBlock(EMPTY_PROJECT, { name: 'Drawing', outline: made.block.outline, cuts: made.block.cuts })
          .blocks[0]!
      : null;
    const patches = block && patchesOf(block).length;
    const numbers = block && patches! > 1 && patches! <= QUICK_PATCHES ? numbersOf(block) : null;
    return { ok: true, understood: { stated, curves, leftOut, made, patches, numbers } };
  },
};

export type DrawingHand = typeof drawing;

expose(drawing);
