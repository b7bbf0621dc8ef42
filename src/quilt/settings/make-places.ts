import { polygonOf, sizeAsLaid } from '../../document/place-polygon.ts';
import { type Border, isBlockPlace, type Place, type Quilt, type Setting } from '../../document/quilt.ts';
import { TOUCH_IN } from '../../geometry/lattice.ts';
import { formatLength, type LengthUnit } from '../../geometry/length.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { type Box, boxOf } from '../../geometry/ring.ts';
import { midSentence, phrase } from '../../words/phrase.ts';
import type { OutlinedBlock } from '../layout.ts';
import { borderRound, type NamelessPlace } from './borders.ts';
import { mixed } from './mixed.ts';
import { onPoint } from './on-point.ts';
import { offset, type SetOut, type Slot, straight, strips } from './slots.ts';

/** What fills a slot: a block as it lies in its slot, a plain piece, or nothing yet. */
export type Content =
  | { readonly block: string; readonly turn: number; readonly mirrored: boolean }
  | { readonly fabric: string }
  | null;

export type Made =
  | { readonly ok: true; readonly places: readonly Place[]; readonly misfits: readonly string[] }
  | { readonly ok: false; readonly message: string };

/** More places than this and a quilt is refused. */
const MAX_PLACES = 2_000;

/** The slots of a setting of cells, empty. */
function setOut(setting: Setting): SetOut {
  switch (setting.kind) {
    case 'straight':
    case 'mixed':
      return straight(setting);
    case 'offset':
      return offset(setting);
    case 'on-point':
      return onPoint(setting);
    case 'strips':
      return strips(setting);
  }
}

/** How many slots a setting has for blocks. */
export const slotCount = (setting: Setting): number => {
  const { kind, columns, rows } = setting;
  if (kind === 'on-point') return columns * rows + (columns - 1) * (rows - 1);
  if (kind === 'offset') return columns * rows - Math.floor(rows / 2);
  return columns * rows;
};

/**
 * The places of a setting, filled in reading order. A block that is not as large as its slot leaves it empty and is
 * named in `misfits`. Borders go round what is made. Refused with a sentence: more places than a quilt may have,
 * and borders that do not come out.
 */
export function makePlaces(
  setting: Setting,
  contents: readonly Content[],
  borders: readonly Border[],
  blocks: readonly OutlinedBlock[],
  unit: LengthUnit = 'in',
): Made {
  if (setting.kind !== 'mixed' && slotCount(setting) > MAX_PLACES)
    return {
      ok: false,
      message: phrase('That makes {slotCount, number} places; a quilt may have 2,000.', {
        slotCount: slotCount(setting),
      }),
    };
  const outlines = new Map(blocks.map(({ id, outline }) => [id, outline]));
  const misfits = new Set<string>();
  const made = setting.kind === 'mixed' ? mixedOut(setting, contents, outlines) : setOut(setting);
  const filled = made.slots.map((slot, k) => fill(slot, contents[k] ?? null, outlines, misfits));
  const inside: NamelessPlace[] = [...filled, ...made.plain];
  return bordered(inside, borders, blocks, [...misfits], unit);
}

/** Places of any kind with borders round them, moved so that the quilt begins at (0, 0), and named p1, p2 …. */
export function bordered(
  inside: readonly NamelessPlace[],
  borders: readonly Border[],
  blocks: readonly OutlinedBlock[],
  misfits: readonly string[] = [],
  unit: LengthUnit = 'in',
): Made {
  const outlines = new Map(blocks.map(({ id, outline }) => [id, outline]));
  const sizeOf = (block: string): Point | null => {
    const outline = outlines.get(block);
    return outline ? sizeAsLaid(outline, 0) : null;
  };
  let box = boxOf(
    inside.flatMap((place) => polygonOf({ ...place, id: '' } as Place, (block) => outlines.get(block)!)),
  );
  const around: NamelessPlace[] = [];
  for (const [k, border] of (inside.length === 0 ? [] : borders).entries()) {
    const result = borderRound(box, border, sizeOf, unit);
    if (!result.ok)
      return {
        ok: false,
        message: phrase('Border {k}: {lowerFirst}', { k: k + 1, lowerFirst: midSentence(result.message) }),
      };
    around.push(...result.places);
    box = result.box;
  }
  const all = [...inside, ...around];
  if (all.length > MAX_PLACES)
    return {
      ok: false,
      message: phrase('That makes {all, number} places; a quilt may have 2,000.', { all: all.length }),
    };
  const [dx, dy] = all.length === 0 ? [0, 0] : [box.minX, box.minY];
  return {
    ok: true,
    misfits,
    places: all.map(
      (place, k) => ({ id: `p${k + 1}`, ...place, at: [place.at[0] - dx, place.at[1] - dy] }) as Place,
    ),
  };
}

function fill(
  slot: Slot,
  content: Content,
  outlines: ReadonlyMap<string, Ring>,
  misfits: Set<string>,
): NamelessPlace {
  if (content && 'block' in content) {
    const outline = outlines.get(content.block);
    const turn = (content.turn + slot.turn) % 4;
    const size = outline && sizeAsLaid(outline, turn, content.mirrored);
    if (size?.every((side, axis) => Math.abs(side - slot.size[axis as 0 | 1]) <= TOUCH_IN))
      return { at: slot.at, block: content.block, turn, mirrored: content.mirrored };
    misfits.add(content.block);
  }
  const fabric = content && 'fabric' in content ? { fabric: content.fabric } : {};
  if (slot.turn === 0) return { at: slot.at, size: slot.size, ...fabric };
  const [w, h] = slot.size;
  const shape: Ring = [
    [w / 2, 0],
    [w, h / 2],
    [w / 2, h],
    [0, h / 2],
  ];
  return { at: slot.at, size: slot.size, shape, ...fabric };
}

/** Blocks of several sizes in bands; contents without a size of their own take one cell. */
function mixedOut(
  setting: Setting,
  contents: readonly Content[],
  outlines: ReadonlyMap<string, Ring>,
): SetOut {
  const sizes = contents.map((content): Point => {
    const outline = content && 'block' in content ? outlines.get(content.block) : undefined;
    return outline && content && 'block' in content
      ? sizeAsLaid(outline, content.turn, content.mirrored)
      : setting.cell;
  });
  const width = Math.max(setting.columns * setting.cell[0], ...sizes.map(([w]) => w));
  return mixed(sizes, width, setting.fabric);
}

/**
 * What fills the places of a quilt, in their order, without borders and pieces that a setting brings along: so a setting
 * can be made anew with the same blocks in it, turned as they are.
 */
export function contentsOf({ places, setting }: Quilt): Content[] {
  const own = setting?.kind === 'on-point' ? 0.5 : 0;
  return places.flatMap((place): Content[] => {
    if (place.part !== undefined) return [];
    if (isBlockPlace(place))
      return [{ block: place.block, turn: (place.turn - own + 4) % 4, mirrored: place.mirrored }];
    return [place.fabric === undefined ? null : { fabric: place.fabric }];
  });
}

/** Box round the places inside the borders. */
export function innerBox({ places }: Quilt, blocks: readonly OutlinedBlock[]): Box {
  const outlines = new Map(blocks.map(({ id, outline }) => [id, outline]));
  return boxOf(
    places
      .filter(({ part }) => part !== 'border')
      .flatMap((place) => polygonOf(place, (block) => outlines.get(block)!)),
  );
}

/** Is a length a whole number of modules? */
export const isOnModule = (length: number, module: number): boolean =>
  Math.abs(length / module - Math.round(length / module)) * module <= TOUCH_IN;

/**
 * The largest step that all sizes are whole multiples of, down to 1/4 in; null where they share none: then a grid cannot
 * hold them all without plain pieces between.
 */
export function sharedModule(sizes: readonly Point[]): number | null {
  const sides = [...new Set(sizes.flat())].sort((a, b) => a - b);
  const least = sides[0];
  if (least === undefined) return null;
  for (let parts = 1; least / parts >= 0.25; parts++) {
    const step = least / parts;
    if (sides.every((side) => isOnModule(side, step))) return step;
  }
  return null;
}

/** A sentence on blocks whose sizes share no module. */
export const noModuleMessage = (sizes: readonly Point[], unit: LengthUnit): string =>
  phrase(
    'These blocks share no module: {value}. A copy of one of them at another size, or plain strips between, brings them together.',
    {
      value: [...new Set(sizes.map(([w, h]) => `${formatLength(w, unit)} × ${formatLength(h, unit)}`))]
        .slice(0, 4)
        .join(', '),
    },
  );
