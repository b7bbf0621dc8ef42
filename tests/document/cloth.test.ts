import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readPrice } from '../../src/document/cloth.ts';
import {
  chooseCutting,
  chooseSize,
  mergeFabric,
  moveFabric,
  noteCut,
  orderByValue,
  updateCloth,
} from '../../src/document/edit-cloth.ts';
import { fabricsToCsv, readFabricsCsv, tableText, takeInFabrics } from '../../src/document/fabric-csv.ts';
import { openFile } from '../../src/document/file.ts';
import { EMPTY_PROJECT, type Fabric, type Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';

const sample = (form: string): string =>
  readFileSync(new URL(`./samples/cloth${form}.underpaper.json`, import.meta.url), 'utf8');

const fabric = (id: string, name: string, color = '#888888'): Fabric => ({ id, name, color });
const project: Project = {
  ...EMPTY_PROJECT,
  fabrics: [
    fabric('f1', 'Night sea', '#1d3557'),
    fabric('f2', 'Sail', '#f4f1e8'),
    fabric('f3', 'Brick', '#b5533c'),
  ],
};
const names = ({ fabrics }: Project): string[] => fabrics.map(({ name }) => name);

describe('a file with cloth in it', () => {
  it('opens to one canonical form, and back to the same', () => {
    const opened = openFile(sample(''));
    if (!opened.ok) throw new Error(opened.error.message);
    expect(toText(opened.project)).toBe(sample('.canonical'));
    const again = openFile(sample('.canonical'));
    expect(again.ok && again.project).toEqual(opened.project);
  });

  it.each([
    ['"width": 42', '"width": 0', 'The usable width is less than 1 in'],
    ['"width": 42', '"width": -3', 'less than 1 in'],
    ['"amount": 12.5', '"amount": -1', 'less than nothing'],
    ['"amount": 12.5', '"amount": "12,5"', 'is not a number'],
    ['"length": 54', '"length": -54', 'less than nothing'],
    ['"count": 3', '"count": 0', 'whole number'],
    ['"ease": 0.375', '"ease": 9', 'is not from 0 to 4'],
  ])('%s written as %s is refused with its place', (right, wrong) => {
    const text = sample('.canonical');
    expect(text).toContain(
      right
        .replace(': ', ':')
        .replace(/"(\w+)":/, '"$1":')
        .slice(0, 6),
    );
    const loose = JSON.stringify(JSON.parse(sample('')), null, 1);
    expect(loose).toContain(right);
    const opened = openFile(loose.replace(right, wrong));
    expect(opened.ok).toBe(false);
    if (!opened.ok) expect(opened.error.message).toMatch(/^[A-Z].*\.$/);
  });
});

describe('edits of cloth', () => {
  it('change what is known, take it away again, and refuse what cannot be', () => {
    const known = updateCloth(project, 'f1', { width: 42, directional: true, atHand: { length: 18 } });
    expect(known.fabrics[0]).toMatchObject({ width: 42, directional: true, atHand: { length: 18 } });
    expect(updateCloth(known, 'f1', { width: null, directional: false, atHand: null })).toEqual(project);
    expect(updateCloth(project, 'f1', { width: 0 })).toBe(project);
    expect(updateCloth(project, 'f1', { atHand: { length: -1 } })).toBe(project);
    expect(updateCloth(project, 'f1', { price: { amount: Number.NaN, per: 'yard' } })).toBe(project);
    expect(updateCloth(project, 'f9', { width: 42 })).toBe(project);
  });

  it('order, merge and sort by value', () => {
    expect(names(moveFabric(project, 'f3', 0))).toEqual(['Brick', 'Night sea', 'Sail']);
    expect(moveFabric(project, 'f3', 9)).toBe(project);
    expect(names(orderByValue(project))).toEqual(['Sail', 'Brick', 'Night sea']);
    expect(orderByValue(orderByValue(project))).toEqual(orderByValue(project));
    expect(names(mergeFabric(project, 'f1', 'f2'))).toEqual(['Sail', 'Brick']);
    expect(mergeFabric(project, 'f1', 'f1')).toBe(project);
    expect(mergeFabric(project, 'f1', 'f9')).toBe(project);
  });

  it('keep what is cut, sizes by hand and choices', () => {
    const cut = noteCut(project, ['b1/A1/1 3 4', 'b1/A2/1 2 2'], true);
    expect(cut.cutting?.done).toHaveLength(2);
    expect(noteCut(cut, ['b1/A1/1 3 4'], true)).toBe(cut);
    expect(noteCut(noteCut(cut, ['b1/A1/1 3 4'], false), ['b1/A2/1 2 2'], false)).toEqual(project);
    const sized = chooseSize(project, 'b1', 'A1', { width: 3, height: 4 });
    expect(sized.cutting?.sizes).toEqual([{ block: 'b1', patch: 'A1', width: 3, height: 4 }]);
    expect(chooseSize(sized, 'b1', 'A1', null)).toEqual(project);
    expect(chooseSize(project, 'b1', 'A1', { width: 0, height: 4 })).toBe(project);
    expect(chooseCutting(chooseCutting(project, { ease: 1 / 8 }), { ease: undefined })).toEqual(project);
  });
});

describe('the list of fabrics as a table', () => {
  it('comes back as it went out', () => {
    const known = updateCloth(
      updateCloth(project, 'f1', {
        code: 'HS-1; "north"',
        width: 42.5,
        directional: true,
        price: { amount: 12.5, per: 'metre' },
        atHand: { length: 54 },
        notes: 'wash, then\ncut',
      }),
      'f2',
      { price: { amount: 9, per: 'yard' } },
    );
    const table = readFabricsCsv(fabricsToCsv(known.fabrics, 'in'), 'in');
    expect(table.troubles).toEqual([]);
    expect(takeInFabrics(project, table)).toEqual(known);
    expect(takeInFabrics(known, table)).toEqual(known);
  });

  it('never writes a cell that a spreadsheet would run', () => {
    const cells = ['=1+1', '+SUM(A1)', '-2', '@cmd', '\t=1', '=HYPERLINK("x")'];
    const text = tableText(cells.map((cell) => [cell]));
    for (const line of text.replace('\uFEFF', '').trim().split('\r\n')) expect(line).toMatch(/^"?'/);
    const hostile = { ...project, fabrics: [fabric('f1', '=cmd|calc')] };
    const read = readFabricsCsv(fabricsToCsv(hostile.fabrics, 'in'), 'in');
    expect(read.fabrics[0]!.name).toBe('=cmd|calc');
  });

  it('is read with semicolons, tabs, a mark at its start, quotes, and columns in any order', () => {
    const read = (text: string) =>
      readFabricsCsv(text, 'mm').fabrics.map(({ name, cloth }) => [name, cloth.width]);
    expect(read('\uFEFFWidth;Name\r\n1066.8 mm;"Sea; deep"\r\n')).toEqual([['Sea; deep', 42]]);
    expect(read('name\tusable width\nSea\t42 in')).toEqual([['Sea', 42]]);
    expect(read('Name,Price\n"A ""fine"" one","12,50 €"')).toEqual([['A "fine" one', undefined]]);
    expect(readFabricsCsv('Name,Price\nSea,"12,50 €"', 'mm').fabrics[0]!.cloth.price).toEqual({
      amount: 12.5,
      per: 'metre',
    });
    expect(readFabricsCsv('Name,At hand\nSea,2 1/2 yd', 'in').fabrics[0]!.cloth.atHand).toEqual({
      length: 90,
    });
  });

  it('says in a sentence what it cannot use, and uses the rest', () => {
    expect(readFabricsCsv('', 'in').troubles).toEqual(['The table is empty.']);
    expect(readFabricsCsv('a,b\n1,2', 'in').troubles[0]).toContain('no column called Name');
    const table = readFabricsCsv(
      'Name,Width,Price,At hand,Colour\nSea,0,much,-3 yd,blue\n,42,,,\nSky,42,,,#abc',
      'in',
    );
    expect(table.fabrics.map(({ name }) => name)).toEqual(['Sea', 'Sky']);
    expect(table.fabrics[1]!.color).toBe('#aabbcc');
    expect(table.troubles).toHaveLength(5);
    for (const trouble of table.troubles) expect(trouble).toMatch(/^Row \d+: .*\.$/);
  });

  it('two of one name stay two, and 300 come in', () => {
    const twins = { ...project, fabrics: [fabric('f1', 'Sea'), fabric('f2', 'Sea')] };
    expect(takeInFabrics(twins, readFabricsCsv('Name\nSea', 'in')).fabrics).toHaveLength(3);
    const many = `Name\n${Array.from({ length: 300 }, (_, i) => `Fabric ${i}`).join('\n')}`;
    expect(takeInFabrics(EMPTY_PROJECT, readFabricsCsv(many, 'in')).fabrics).toHaveLength(300);
  });
});

describe('a price', () => {
  it.each([
    ['12.50', 12.5],
    ['12,50 €', 12.5],
    ['$1,299.00', 1299],
    ['1.299,00', 1299],
    ['12', 12],
    ['1,5', 1.5],
  ])('%s is read as %d', (text, amount) => {
    expect(readPrice(text)).toEqual({ ok: true, value: amount });
  });

  it.each(['', 'much', '-', '-3', '1e9 9 999 999'])('“%s” is refused', (text) => {
    expect(readPrice(text).ok).toBe(false);
  });
});
