import { phrase } from '../words/phrase.ts';

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
  if (place === null) return `${capital(subject ?? phrase('the project'))} ${predicate}.`;
  return subject === null ? `${place} ${predicate}.` : `${place}: ${subject} ${predicate}.`;
}

const ITEM_WORDS: Readonly<Record<string, string>> = {
  fabrics: phrase('fabric'),
  blocks: phrase('block'),
  cuts: phrase('line'),
  paint: phrase('paint'),
  patches: phrase('patch'),
  outline: phrase('outline point'),
  orders: phrase('order by hand'),
  places: phrase('place'),
  borders: phrase('border'),
  layouts: phrase('arrangement'),
  units: phrase('unit'),
  copies: phrase('copy'),
  pieces: phrase('piece at hand'),
  sizes: phrase('size by hand'),
  done: phrase('mark'),
};

const SUBJECTS: Readonly<Record<string, string>> = {
  id: phrase('the id'),
  code: phrase('the code'),
  grain: phrase('the grain'),
  directional: phrase('whether it is directional'),
  price: phrase('the price'),
  amount: phrase('the amount of the price'),
  per: phrase('what the price is for'),
  atHand: phrase('what is at hand'),
  length: phrase('the length at hand'),
  count: phrase('the number at hand'),
  notes: phrase('the notes'),
  cutting: phrase('what is chosen about cutting'),
  ease: phrase('the ease'),
  step: phrase('what sizes are rounded to'),
  savings: phrase('which cuts may save'),
  spare: phrase('what is to spare'),
  shrinkage: phrase('the shrinkage'),
  stockFirst: phrase('whether what is at hand comes first'),
  name: phrase('the name'),
  color: phrase('the colour'),
  picture: phrase('the picture'),
  data: phrase('the data of the picture'),
  width: phrase('the width'),
  height: phrase('the height'),
  across: phrase('the width of the piece in the picture'),
  corners: phrase('the corners in the picture'),
  strength: phrase('the opacity of the picture'),
  shown: phrase('whether the picture is shown'),
  unit: phrase('the unit'),
  seamAllowance: phrase('the seam allowance'),
  fabrics: phrase('the list of fabrics'),
  blocks: phrase('the list of blocks'),
  cuts: phrase('the list of lines'),
  paint: phrase('the list of paint'),
  patches: phrase('the list of patches'),
  outline: phrase('the outline'),
  from: phrase('the start point'),
  to: phrase('the end point'),
  role: phrase('the role'),
  locked: phrase('the lock'),
  plan: phrase('the chosen plan'),
  orders: phrase('the list of orders by hand'),
  severities: phrase('the list of severities'),
  inHand: phrase('the list of copies in hand'),
  at: phrase('the spot'),
  fabric: phrase('the fabric'),
  quilt: phrase('the quilt'),
  work: phrase('what is in work'),
  rounds: phrase('the list of rounds'),
  sewn: phrase('the list of what is sewn'),
  joined: phrase('the list of what is joined'),
  trimmed: phrase('the list of what is trimmed'),
  places: phrase('the list of places'),
  block: phrase('the block'),
  turn: phrase('the turn'),
  mirrored: phrase('whether it is mirrored'),
  size: phrase('the size'),
  shape: phrase('the shape'),
  part: phrase('what it serves as'),
  module: phrase('the module of the quilt'),
  setting: phrase('the setting'),
  kind: phrase('the kind of the setting'),
  columns: phrase('the number of columns'),
  rows: phrase('the number of rows'),
  cell: phrase('the size of a cell'),
  sashing: phrase('the sashing'),
  strip: phrase('the strip'),
  borders: phrase('the list of borders'),
  joining: phrase('the way of joining'),
  units: phrase('the list of units'),
  copies: phrase('the list of copies'),
  finishing: phrase('the finishing'),
  layouts: phrase('the list of arrangements'),
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
  const last = String(known.at(-1));
  if (depth === 0 && last === 'name') return phrase('the project name');
  if (path.includes('picture') && last === 'width') return phrase('the width of the picture');
  if (path.includes('picture') && last === 'height') return phrase('the height of the picture');
  return SUBJECTS[last] ?? null;
}

const isRecord = (value: unknown): value is Readonly<Record<PropertyKey, unknown>> =>
  typeof value === 'object' && value !== null;

/** Text from a file, fit to stand in a sentence: one line, of at most so many letters. */
export function oneLine(text: string, most = 40): string {
  const flat = text.replace(/[\s\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim();
  return flat.length <= most ? flat : `${flat.slice(0, most - 1).replace(/[\uD800-\uDBFF]$/, '')}…`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
