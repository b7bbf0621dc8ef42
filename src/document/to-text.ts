import { FILE_VERSION } from './migrations.ts';
import {
  type Block,
  type Cut,
  DEFAULT_SEAM_ALLOWANCE_IN,
  type Fabric,
  type FabricPicture,
  type PatchEntry,
  type Project,
  type UnderPicture,
} from './project.ts';
import { isBlockPlace, type KeptLayout, type Place, type Quilt } from './quilt.ts';
import { USUAL_STRENGTH } from './under-picture.ts';
import type { Work } from './work.ts';

/**
 * The project as the text of a file, in its one canonical form: known keys in the order of the format, then
 * unknown ones by name; what equals its default left out; one fabric, cut or patch a line; a newline at the end.
 * Opening it again gives the same project.
 */
export function toText(project: Project): string {
  const { name, unit, seamAllowance, fabrics, blocks, severities, inHand, quilt, cutting, work, ...rest } =
    project;
  return `${lines('', [
    ['format', '"underpaper"'],
    ['version', String(FILE_VERSION)],
    ['name', inline(name)],
    ['unit', unit === 'in' ? null : inline(unit)],
    ['seamAllowance', seamAllowance === DEFAULT_SEAM_ALLOWANCE_IN ? null : inline(seamAllowance)],
    ['fabrics', fabrics.length === 0 ? null : list('  ', fabrics.map(fabricText))],
    ['blocks', list('  ', blocks.map(blockText))],
    ['severities', severities === undefined || isEmpty(severities) ? null : inline(severities)],
    ['inHand', inHand === undefined ? null : inline(inHand)],
    ['quilt', quilt === undefined ? null : quiltText(quilt)],
    ['cutting', cutting === undefined || isEmpty(cutting) ? null : inline(cutting)],
    ['work', work === undefined ? null : workText(work)],
    ...unknownKeys(rest),
  ])}\n`;
}

const isEmpty = (record: object): boolean => Object.keys(record).length === 0;

/** A key with the text of its value; null leaves it out. */
type Entry = readonly [key: string, value: string | null];

function blockText({ id, name, outline, cuts, patches, plan, orders, picture, ...rest }: Block): string {
  return lines('    ', [
    ['id', inline(id)],
    ['name', inline(name)],
    ['outline', inline(outline)],
    ['cuts', cuts.length === 0 ? null : list('      ', cuts.map(cutText))],
    ['patches', patches.length === 0 ? null : list('      ', patches.map(patchText))],
    ['plan', plan === undefined || plan === 'fewest' ? null : inline(plan)],
    ['orders', orders === undefined || orders.length === 0 ? null : list('      ', orders.map(inline))],
    ['picture', picture === undefined ? null : underPictureText(picture)],
    ...unknownKeys(rest),
  ]);
}

/** What lies on the table: a block, a round and a kind of record a line. */
const workText = ({ blocks, rounds, ...rest }: Work): string => {
  const { sewn, partly, joined, trimmed, quilt, stages, pile, cut, days, time, ...unknown } = rest;
  const known = { sewn, partly, joined, trimmed, quilt, stages, pile, cut, days, time };
  return lines('  ', [
    ['blocks', list('    ', blocks.map(inline))],
    ['rounds', list('    ', rounds.map(inline))],
    ...Object.entries(known).map(([key, value]): Entry => [key, value === undefined ? null : inline(value)]),
    ...unknownKeys(unknown),
  ]);
};

const fabricText = ({ id, name, color, picture, ...rest }: Fabric): string =>
  braces([
    ['id', inline(id)],
    ['name', inline(name)],
    ['color', inline(color)],
    ['picture', picture === undefined ? null : pictureText(picture)],
    ...unknownKeys(rest),
  ]);

const pictureTexts = new WeakMap<FabricPicture, string>();

/** Written out once for each picture: it is most of a file's length, and the file is written after every change. */
function pictureText(picture: FabricPicture): string {
  const known = pictureTexts.get(picture);
  if (known !== undefined) return known;
  const { width, height, across, data, ...rest } = picture;
  const written = braces([
    ['width', inline(width)],
    ['height', inline(height)],
    ['across', inline(across)],
    ['data', inline(data)],
    ...unknownKeys(rest),
  ]);
  pictureTexts.set(picture, written);
  return written;
}

const underPictureTexts = new WeakMap<UnderPicture, string>();

function underPictureText(picture: UnderPicture): string {
  const known = underPictureTexts.get(picture);
  if (known !== undefined) return known;
  const { width, height, corners, strength, shown, locked, data, ...rest } = picture;
  const written = braces([
    ['width', inline(width)],
    ['height', inline(height)],
    ['corners', inline(corners)],
    ['strength', strength === USUAL_STRENGTH ? null : inline(strength)],
    ['shown', shown ? null : inline(shown)],
    ['locked', locked ? inline(locked) : null],
    ['data', inline(data)],
    ...unknownKeys(rest),
  ]);
  underPictureTexts.set(picture, written);
  return written;
}

const cutText = ({ id, from, to, role, locked, ...rest }: Cut): string =>
  braces([
    ['id', inline(id)],
    ['from', inline(from)],
    ['to', inline(to)],
    ['role', role === 'auto' ? null : inline(role)],
    ['locked', locked === true ? inline(locked) : null],
    ...unknownKeys(rest),
  ]);

const patchText = ({ id, at, fabric, ...rest }: PatchEntry): string =>
  braces([
    ['id', inline(id)],
    ['at', inline(at)],
    ['fabric', fabric === undefined ? null : inline(fabric)],
    ...unknownKeys(rest),
  ]);

/** A place a line, and every other key on one. */
function quiltText({ places, layouts, ...rest }: Quilt): string {
  return lines('  ', [
    ['places', list('    ', places.map(placeText))],
    ...unknownKeys(rest),
    ['layouts', layouts === undefined || layouts.length === 0 ? null : list('    ', layouts.map(layoutText))],
  ]);
}

const layoutText = ({ name, places, ...rest }: KeptLayout): string =>
  lines('      ', [
    ['name', inline(name)],
    ['places', list('        ', places.map(placeText))],
    ...unknownKeys(rest),
  ]);

function placeText(place: Place): string {
  if (isBlockPlace(place)) {
    const { id, block, at, turn, mirrored, ...rest } = place;
    return braces([
      ['id', inline(id)],
      ['block', inline(block)],
      ['at', inline(at)],
      ['turn', turn === 0 ? null : inline(turn)],
      ['mirrored', mirrored ? inline(mirrored) : null],
      ...unknownKeys(rest),
    ]);
  }
  const { id, fabric, at, size, shape, ...rest } = place;
  return braces([
    ['id', inline(id)],
    ['fabric', fabric === undefined ? null : inline(fabric)],
    ['at', inline(at)],
    ['size', inline(size)],
    ['shape', shape === undefined ? null : inline(shape)],
    ...unknownKeys(rest),
  ]);
}

/** An object with a key a line, its own brace standing at `indent`. */
function lines(indent: string, entries: readonly Entry[]): string {
  return `{\n${pairs(entries)
    .map((pair) => `${indent}  ${pair}`)
    .join(',\n')}\n${indent}}`;
}

/** An object on one line. */
const braces = (entries: readonly Entry[]): string => `{ ${pairs(entries).join(', ')} }`;

const pairs = (entries: readonly Entry[]): readonly string[] =>
  entries.flatMap(([key, value]) => (value === null ? [] : [`${JSON.stringify(key)}: ${value}`]));

/** A list with an item a line, its own bracket standing at `indent`. */
const list = (indent: string, items: readonly string[]): string =>
  items.length === 0 ? '[]' : `[\n${items.map((item) => `${indent}  ${item}`).join(',\n')}\n${indent}]`;

const unknownKeys = (rest: object): readonly Entry[] =>
  Object.entries(rest)
    .filter(([, value]) => value !== undefined)
    .sort(byKey)
    .map(([key, value]) => [key, inline(value)]);

/** Any JSON value on one line without blanks, keys by name at every level: `[3.5,2]`. */
const inline = (value: unknown): string =>
  JSON.stringify(value, (_key, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(byKey))
      : inner,
  );

/** By code unit, not by a language's order, so that every machine writes the same file. */
const byKey = ([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number =>
  a < b ? -1 : a > b ? 1 : 0;
