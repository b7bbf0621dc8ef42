import Papa from 'papaparse';
import { MM_PER_IN } from '../geometry/lattice.ts';
import { formatLength, parseLength } from '../geometry/length.ts';
import { phrase } from '../words/phrase.ts';
import { CODE_LENGTH, checkStockLength, checkWidth, NOTES_LENGTH, readPrice } from './cloth.ts';
import { type ClothChange, updateCloth } from './edit-cloth.ts';
import { addFabric, updateFabric } from './edit-fabrics.ts';
import { nextFabricId } from './ids.ts';
import { checkName, FABRICS_PER_PROJECT, isColor } from './limits.ts';
import type { Fabric, Project, Unit } from './project.ts';

/**
 * The list of fabrics as a table for spreadsheets. Cells that a spreadsheet would run as a formula get an apostrophe
 * before them when written, which is taken off again when read (common practice, as the OWASP page on CSV injection
 * advises).
 */

/** Column heads as they are written; a head is known by its first word when read. */
const HEADS = ['Name', 'Code', 'Colour', 'Width', 'Directional', 'Price', 'Per', 'At hand', 'Notes'] as const;

/** A table as text: commas, quotes where needed, CRLF, a mark at the start that tells spreadsheets it is UTF-8. */
export const tableText = (rows: readonly (readonly string[])[]): string =>
  `\uFEFF${Papa.unparse(rows as string[][], { escapeFormulae: true, newline: '\r\n' })}\r\n`;

export function fabricsToCsv(fabrics: readonly Fabric[], unit: Unit): string {
  const rows = fabrics.map(({ name, code, color, width, directional, price, atHand, notes }) => [
    name,
    code ?? '',
    color,
    width === undefined ? '' : formatLength(width, unit),
    directional === true ? 'yes' : '',
    price === undefined ? '' : price.amount.toFixed(2),
    price?.per ?? '',
    atHand?.length === undefined ? '' : formatLength(atHand.length, unit),
    notes ?? '',
  ]);
  return tableText([[...HEADS], ...rows]);
}

/** A fabric as a table tells it. */
export interface ReadFabric {
  readonly name: string;
  /** Undefined where the table gives none. */
  readonly color?: string;
  readonly cloth: ClothChange;
}

export interface ReadTable {
  readonly fabrics: readonly ReadFabric[];
  /** One plain sentence for each row, or part of one, that could not be used. */
  readonly troubles: readonly string[];
}

const WORDS: Readonly<Record<string, (typeof HEADS)[number]>> = {
  name: 'Name',
  fabric: 'Name',
  code: 'Code',
  number: 'Code',
  colour: 'Colour',
  color: 'Colour',
  width: 'Width',
  usable: 'Width',
  directional: 'Directional',
  price: 'Price',
  per: 'Per',
  at: 'At hand',
  hand: 'At hand',
  stock: 'At hand',
  length: 'At hand',
  notes: 'Notes',
  note: 'Notes',
};

/** Rows read of one table at most. */
const MOST_ROWS = 10_000;

/**
 * Reads a table of fabrics: commas, semicolons or tabs between its cells, quotes, a mark at its start. Its first row
 * names the columns, in any order; a name is the least a row needs. Lengths as people write them.
 */
export function readFabricsCsv(text: string, unit: Unit): ReadTable {
  const { data } = Papa.parse<string[]>(text.replace(/^\uFEFF/, ''), {
    skipEmptyLines: 'greedy',
    delimiter: delimiterOf(text),
    preview: MOST_ROWS,
  });
  const [head, ...rows] = data;
  if (!head) return { fabrics: [], troubles: [phrase('The table is empty.')] };
  const columns = head.map(
    (cell) =>
      WORDS[
        cell
          .trim()
          .toLowerCase()
          .split(/[^a-z]+/)[0] ?? ''
      ],
  );
  if (!columns.includes('Name'))
    return { fabrics: [], troubles: [phrase('The first row of the table has no column called Name.')] };
  const troubles: string[] = [];
  const fabrics = rows.flatMap((row, i): ReadFabric[] => {
    const cells = new Map(columns.map((column, c) => [column, plain(row[c] ?? '')]));
    return readRow(cells, unit, (why) => troubles.push(phrase('Row {row}: {why}', { row: i + 2, why })));
  });
  return { fabrics, troubles };
}

/** The sign that parts the cells: the one found most often in the first line outside quotes. */
function delimiterOf(text: string): string {
  const line = (text.split(/\r?\n/).find((one) => one.trim() !== '') ?? '').replace(/"[^"]*"/g, '');
  const count = (sign: string): number => line.split(sign).length - 1;
  return [',', ';', '\t'].reduce((most, sign) => (count(sign) > count(most) ? sign : most));
}

/** A cell without the apostrophe that keeps it from being run. */
const plain = (cell: string): string => cell.trim().replace(/^'(?=[=+\-@\t\r])/, '');

function readRow(
  cells: ReadonlyMap<string | undefined, string>,
  unit: Unit,
  trouble: (why: string) => void,
): ReadFabric[] {
  const cell = (head: (typeof HEADS)[number]): string => cells.get(head) ?? '';
  const name = checkName(cell('Name').replace(/\s+/g, ' '));
  if (!name.ok) {
    trouble(phrase('{error} The row is left out.', { error: name.error }));
    return [];
  }
  const cloth: { -readonly [Key in keyof ClothChange]: ClothChange[Key] } = {};
  const colour = /^#?([0-9a-f]{6}|[0-9a-f]{3})$/i.exec(cell('Colour'))?.[1];
  if (cell('Colour') !== '' && colour === undefined)
    trouble(
      phrase('“{colour}” is no colour written as #1d3557; the fabric keeps its own.', {
        colour: cell('Colour').slice(0, 24),
      }),
    );
  const inches = (head: 'Width' | 'At hand', check: typeof checkWidth): number | undefined => {
    if (cell(head) === '') return undefined;
    const parsed = readClothLength(cell(head), unit);
    const checked = parsed.ok ? check(parsed.inches) : parsed;
    if (checked.ok) return checked.value;
    trouble(phrase('{error} It is left out.', { error: checked.error }));
    return undefined;
  };
  const width = inches('Width', checkWidth);
  if (width !== undefined) cloth.width = width;
  const atHand = inches('At hand', checkStockLength);
  if (atHand !== undefined) cloth.atHand = { length: atHand };
  if (/^(y|yes|true|x|1)$/i.test(cell('Directional'))) cloth.directional = true;
  if (cell('Price') !== '') {
    const price = readPrice(cell('Price'));
    if (price.ok)
      cloth.price = {
        amount: price.value,
        per: /^m/i.test(cell('Per')) || (cell('Per') === '' && unit === 'mm') ? 'metre' : 'yard',
      };
    else trouble(phrase('{error} It is left out.', { error: price.error }));
  }
  if (cell('Code') !== '') cloth.code = cell('Code').slice(0, CODE_LENGTH);
  if (cell('Notes') !== '') cloth.notes = cell('Notes').slice(0, NOTES_LENGTH);
  return [
    {
      name: name.value,
      ...(colour && {
        color: `#${colour.length === 3 ? colour.replace(/./g, '$&$&') : colour}`.toLowerCase(),
      }),
      cloth,
    },
  ];
}

/** A length, yards and metres too: `2 1/2 yd`, `0.6 m`. */
export function readClothLength(text: string, unit: Unit): ReturnType<typeof parseLength> {
  const [, amount, word] = /^(.*[^a-z\s])\s*(yds?|yards?|m|metres?|meters?)\.?$/i.exec(text) ?? [];
  if (amount === undefined || word === undefined) return parseLength(text, unit);
  const bare = parseLength(amount, 'in');
  if (!bare.ok) return bare;
  return { ok: true, inches: bare.inches * (word.toLowerCase().startsWith('y') ? 36 : 1_000 / MM_PER_IN) };
}

/** What a fabric is given that a table names without a colour. */
const NO_COLOUR = '#c8c2b4';

/**
 * Takes a table over: a fabric of the same name, where the project has just one, is brought up to date; all others are
 * added at the end. Nothing is taken away.
 */
export function takeInFabrics(project: Project, { fabrics }: ReadTable): Project {
  let next = project;
  for (const { name, color, cloth } of fabrics) {
    const same = project.fabrics.filter((one) => one.name.toLowerCase() === name.toLowerCase());
    let id = same.length === 1 ? same[0]!.id : null;
    if (id === null) {
      if (next.fabrics.length >= FABRICS_PER_PROJECT) break;
      id = nextFabricId(next);
      next = addFabric(next, { name, color: color ?? NO_COLOUR });
    } else if (color !== undefined && isColor(color)) next = updateFabric(next, id, { color });
    next = updateCloth(next, id, cloth);
  }
  return next;
}
