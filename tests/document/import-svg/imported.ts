import { addDrawnBlock } from '../../../src/document/add-drawn-block.ts';
import { readSvg, type SvgDrawing } from '../../../src/document/import-svg/read-svg.ts';
import {
  type ImportedBlock,
  type ToBlockOptions,
  toBlock,
} from '../../../src/document/import-svg/to-block.ts';
import { type Block, EMPTY_PROJECT } from '../../../src/document/project.ts';

/** A drawing of this inside, 400 by 400 pixels unless the head says something else. */
export const svg = (inside: string, head = 'width="400px" height="400px" viewBox="0 0 400 400"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${head}>${inside}</svg>`;

export function drawingOf(text: string, chords = 0): SvgDrawing {
  const read = readSvg(text, chords);
  if (!read.ok) throw new Error(read.error);
  return read.drawing;
}

export function importedFrom(
  text: string,
  options: Partial<ToBlockOptions> & { readonly chords?: number } = {},
): ImportedBlock {
  const { chords = 0, ...others } = options;
  const made = toBlock(drawingOf(text, chords), {
    scale: { kind: 'per-inch', pixels: 96 },
    joinWithin: 0.02,
    ...others,
  });
  if (!made.ok) throw new Error(made.error);
  return made.block;
}

/** The imported block as the project would hold it. */
export const heldBlock = ({ outline, cuts }: ImportedBlock): Block =>
  addDrawnBlock(EMPTY_PROJECT, { name: 'Brought in', outline, cuts }).blocks[0]!;

/** Width and height of the outline, inches. */
export function sizeOf({ outline }: ImportedBlock): [number, number] {
  const xs = outline.map(([x]) => x);
  const ys = outline.map(([, y]) => y);
  return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
}

/** A sail over waves: a square of 4 in in a larger page, a mast, two slanted seams and a waterline with two posts. */
export const SAIL = `<svg xmlns="http://www.w3.org/2000/svg" width="4.5in" height="4.5in" viewBox="0 0 450 450">
  <g fill="none" stroke="#000" stroke-width="2">
    <rect x="25" y="25" width="400" height="400"/>
    <path d="M25 325H425M25 125L225 325L425 125M225 25V325M125 325V425M325 425V325"/>
  </g></svg>`;
