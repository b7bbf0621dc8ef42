/** Places in a file, in plain words: `['blocks', 2, 'cuts', 1, 'to', 0]` is block 3 ‘Gull’, cut 2, the end point. */

export type Path = readonly PropertyKey[];

/** What is wrong between parts of a file that are each well formed. */
export interface Fault {
  readonly path: Path;
  /** To follow the subject that the path names. */
  readonly predicate: string;
}

/** The thing a path leads into, down to the last item of a list: `Block 3 ‘Gull’, cut 2`. Null above all lists. */
export function placeOf(path: Path, file: unknown): string | null {
  const words = itemsOn(path, file).map(
    ({ word, nth, name }) => `${word} ${nth}${name === null ? '' : ` ‘${name}’`}`,
  );
  return words.length === 0 ? null : capital(words.join(', '));
}

/** One sentence on one line: the place, the subject at the end of the path, and what is said about it. */
export function sentenceOf(path: Path, predicate: string, file: unknown): string {
  const place = placeOf(path, file);
  const subject = subjectOf(path, file);
  if (place === null) return `${capital(subject ?? 'the project')} ${predicate}.`;
  return subject === null ? `${place} ${predicate}.` : `${place}: ${subject} ${predicate}.`;
}

const ITEM_WORDS: Readonly<Record<string, string>> = {
  fabrics: 'fabric',
  blocks: 'block',
  cuts: 'cut',
  paint: 'paint',
  patches: 'patch',
  outline: 'outline point',
  orders: 'order by hand',
  places: 'place',
  borders: 'border',
  layouts: 'arrangement',
  units: 'unit',
  copies: 'copy',
  pieces: 'piece at hand',
  sizes: 'size by hand',
  done: 'mark',
};

const SUBJECTS: Readonly<Record<string, string>> = {
  id: 'the id',
  code: 'the code',
  grain: 'the grain',
  directional: 'whether it is directional',
  price: 'the price',
  amount: 'the amount of the price',
  per: 'what the price is for',
  atHand: 'what is at hand',
  length: 'the length at hand',
  count: 'the number at hand',
  notes: 'the notes',
  cutting: 'what is chosen about cutting',
  ease: 'the ease',
  step: 'what sizes are rounded to',
  savings: 'which cuts may save',
  spare: 'what is to spare',
  shrinkage: 'the shrinkage',
  stockFirst: 'whether what is at hand comes first',
  name: 'the name',
  color: 'the colour',
  picture: 'the picture',
  data: 'the data of the picture',
  width: 'the width',
  height: 'the height',
  across: 'the width of the piece in the picture',
  corners: 'the corners in the picture',
  strength: 'the strength of the picture',
  shown: 'whether the picture is shown',
  unit: 'the unit',
  seamAllowance: 'the seam allowance',
  fabrics: 'the list of fabrics',
  blocks: 'the list of blocks',
  cuts: 'the list of cuts',
  paint: 'the list of paint',
  patches: 'the list of patches',
  outline: 'the outline',
  from: 'the start point',
  to: 'the end point',
  role: 'the role',
  locked: 'the lock',
  plan: 'the chosen plan',
  orders: 'the list of orders by hand',
  severities: 'the list of severities',
  inHand: 'the list of copies in hand',
  at: 'the spot',
  fabric: 'the fabric',
  quilt: 'the quilt',
  work: 'what is in work',
  rounds: 'the list of rounds',
  sewn: 'the list of what is sewn',
  joined: 'the list of what is joined',
  trimmed: 'the list of what is trimmed',
  places: 'the list of places',
  block: 'the block',
  turn: 'the turn',
  mirrored: 'whether it is mirrored',
  size: 'the size',
  shape: 'the shape',
  part: 'what it serves as',
  module: 'the module of the quilt',
  setting: 'the setting',
  kind: 'the kind of the setting',
  columns: 'the number of columns',
  rows: 'the number of rows',
  cell: 'the size of a cell',
  sashing: 'the sashing',
  strip: 'the strip',
  borders: 'the list of borders',
  joining: 'the way of joining',
  units: 'the list of units',
  copies: 'the list of copies',
  finishing: 'the finishing',
  layouts: 'the list of arrangements',
};

interface Item {
  readonly word: string;
  readonly nth: number;
  readonly name: string | null;
  /** How much of the path leads to it. */
  readonly depth: number;
}

function itemsOn(path: Path, file: unknown): readonly Item[] {
  const items: Item[] = [];
  let value: unknown = file;
  for (const [i, key] of path.entries()) {
    value = isRecord(value) ? value[key] : undefined;
    const word = ITEM_WORDS[String(path[i - 1])];
    if (typeof key !== 'number' || word === undefined) continue;
    const name = isRecord(value) && typeof value.name === 'string' ? oneLine(value.name) : '';
    items.push({ word, nth: key + 1, name: name === '' ? null : name, depth: i + 1 });
  }
  return items;
}

/** What the path names after its last item; null when that is the item itself, or nothing known. */
function subjectOf(path: Path, file: unknown): string | null {
  const depth = itemsOn(path, file).at(-1)?.depth ?? 0;
  const known = path.slice(depth).filter((key) => typeof key === 'string' && Object.hasOwn(SUBJECTS, key));
  const last = SUBJECTS[String(known.at(-1))];
  if (depth === 0 && last === 'the name') return 'the project name';
  const isOfPicture = path.includes('picture') && (last === 'the width' || last === 'the height');
  return isOfPicture ? `${last} of the picture` : (last ?? null);
}

const isRecord = (value: unknown): value is Readonly<Record<PropertyKey, unknown>> =>
  typeof value === 'object' && value !== null;

/** Text from a file, fit to stand in a sentence: one line, of at most so many letters. */
export function oneLine(text: string, most = 40): string {
  const flat = text.replace(/[\s\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim();
  return flat.length <= most ? flat : `${flat.slice(0, most - 1).replace(/[\uD800-\uDBFF]$/, '')}…`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
