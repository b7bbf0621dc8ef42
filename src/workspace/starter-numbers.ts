import { addDrawnBlock, type DrawnBlock } from '../document/add-drawn-block.ts';
import { type Block, EMPTY_PROJECT } from '../document/project.ts';
import { drawnAt, SHELF } from '../document/starters/shelf.ts';
import { type Starter, usualValues } from '../document/starters/starter.ts';
import { piece } from '../piecing/piece.ts';

/** What a starting point comes to with its usual settings, as `piece` has it. */
export interface StarterNumbers {
  readonly patches: number;
  readonly foundations: number;
  readonly isSetIn: boolean;
}

/** A common block size: the numbers are the same at any. */
const WIDTH_IN = 6;

const known = new WeakMap<Starter, StarterNumbers>();

/** The block a drawing would become, apart from any project. */
export const blockOf = (drawn: DrawnBlock): Block => addDrawnBlock(EMPTY_PROJECT, drawn).blocks[0]!;

const apart = new WeakMap<Block, StarterNumbers>();

/** What a block that is in no project comes to; worked out once. */
export function numbersOf(block: Block): StarterNumbers {
  const made = apart.get(block);
  if (made !== undefined) return made;
  const { patches, sections, verdict } = piece(block);
  const numbers = {
    patches: patches.length,
    foundations: sections.length,
    isSetIn: verdict === 'set-in-seams',
  };
  apart.set(block, numbers);
  return numbers;
}

/** The numbers of a starting point when they have been worked out already. */
export const knownNumbers = (starter: Starter): StarterNumbers | null => known.get(starter) ?? null;

/** Works out the numbers of the next starting point that has none yet; false when all have. */
export function workOutNext(): boolean {
  const starter = SHELF.find((one) => !known.has(one));
  if (starter === undefined) return false;
  const drawing = starter.draw(usualValues(starter.parameters));
  known.set(starter, numbersOf(blockOf(drawnAt(starter.name, drawing, WIDTH_IN))));
  return true;
}
