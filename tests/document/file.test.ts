import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkFileSize, openFile } from '../../src/document/file.ts';
import { MAX_FILE_BYTES } from '../../src/document/limits.ts';
import type { Block, Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { piece } from '../../src/piecing/piece.ts';

const sample = (name: string): string =>
  readFileSync(new URL(`./samples/${name}.underpaper.json`, import.meta.url), 'utf8');

const opened = (text: string): Project => {
  const file = openFile(text);
  if (!file.ok) throw new Error(file.error.message);
  return file.project;
};

const refused = (text: string) => {
  const file = openFile(text);
  if (file.ok) throw new Error('It opened.');
  return file.error;
};

/** The smallest good file, with changes. */
const fileWith = (change: object): string =>
  JSON.stringify({ format: 'underpaper', version: 2, name: 'Harbour', blocks: [], ...change });

const gull = {
  id: 'b1',
  name: 'Gull',
  outline: [
    [0, 0],
    [6, 0],
    [6, 6],
    [0, 6],
  ],
};
const cut = { id: 'c1', from: [0, 3], to: [6, 3] };

const patch = { id: 'p1', at: [1, 1] };

const blockWith = (change: object, version = 2): string =>
  fileWith({ version, blocks: [{ ...gull, ...change }] });

/** The same text with one piece in place of another, to write what JSON.stringify cannot. */
const swapped = (text: string, from: string, to: string): string => {
  expect(text).toContain(from);
  return text.replace(from, to);
};

describe('a stored file of each version', () => {
  it.each(['version-1', 'version-1-orders', 'version-2', 'work'])(
    '%s opens to its one canonical form',
    (name) => {
      const text = sample(`${name}.canonical`);
      expect(toText(opened(sample(name)))).toBe(text);
      expect(toText(opened(text))).toBe(text);
      expect(opened(text)).toEqual(opened(sample(name)));
    },
  );

  it('of work keeps what is done, and what another version noted beside it', () => {
    const { work } = opened(sample('work'));
    expect(work!.sewn).toEqual({ 'b1/A/1': 2, 'b1/B/1': 2 });
    expect(work!.partly).toEqual({ 'b1/A/1': 'sewn', 'b1/B/1': 'sewn' });
    expect(work!.days).toEqual({ '2026-05-09': 4 });
    expect(work!.blocks[0]!.drawing!.cuts.map(({ id }) => id)).toEqual(['c1', 'c2', 'c3']);
    expect(work).toHaveProperty('noteOfAnotherVersion', { kept: true });
  });

  it('of version 1 keeps picture and orders, seen by place', () => {
    const [jetty, quay] = opened(sample('version-1-orders')).blocks;
    const sewn = (block: Block | undefined) =>
      piece(block!).patches.map(({ polygon, fabric }) => [Math.min(...polygon.map(([x]) => x)), fabric]);
    // Sewn as the file says: the second strip first, then the first, which wears what was laid on it last.
    expect(sewn(jetty)).toEqual([
      [2, 'f2'],
      [0, 'f1'],
      [4, null],
      [6, null],
    ]);
    expect(sewn(quay).map(([x]) => x)).toEqual([2, 0, 3, 0]);
  });
});

describe('openFile', () => {
  it('fills in what the minimal form leaves out', () => {
    expect(opened(fileWith({ blocks: [gull] }))).toEqual({
      name: 'Harbour',
      unit: 'in',
      seamAllowance: 0.25,
      fabrics: [],
      blocks: [{ ...gull, cuts: [], patches: [] }],
    });
    expect(opened(blockWith({ cuts: [cut] })).blocks[0]?.cuts).toEqual([{ ...cut, role: 'auto' }]);
  });

  it('puts every coordinate on the lattice of 2^-16 in', () => {
    const block = opened(blockWith({ cuts: [{ id: 'c1', from: [1 / 3, -1e-9], to: [6, 92 / 25.4] }] }))
      .blocks[0]!;
    for (const value of block.cuts.flatMap(({ from, to }) => [...from, ...to])) {
      expect(Number.isInteger(value * 65536)).toBe(true);
    }
    expect(block.cuts[0]?.from[0]).toBeCloseTo(1 / 3, 4);
    expect(Object.is(block.cuts[0]?.from[1], 0)).toBe(true);
    // A metric length moves by less than 0.0002 mm.
    expect(Math.abs(block.cuts[0]!.to[1] * 25.4 - 92)).toBeLessThan(0.0002);
  });

  it('reads a file that begins with a byte order mark', () => {
    expect(opened(`\uFEFF${fileWith({})}`).name).toBe('Harbour');
  });

  it('keeps keys it does not know at every level', () => {
    const text = fileWith({
      mooring: { rope: [1, { b: 2 }] },
      fabrics: [{ id: 'f1', name: 'Sand', color: '#e9e4d8', bolt: 44 }],
      blocks: [
        {
          ...gull,
          tide: 'low',
          cuts: [{ ...cut, thread: 50 }],
          patches: [{ id: 'p1', at: [1, 1], fabric: 'f1', glue: true }],
          orders: [['p1']],
        },
      ],
    });
    expect(JSON.parse(toText(opened(text)))).toEqual(JSON.parse(text));
  });

  it.each([
    [
      'crosses itself',
      [
        [0, 0],
        [6, 6],
        [6, 0],
        [0, 6],
      ],
    ],
    [
      'has no area',
      [
        [0, 0],
        [3, 3],
        [6, 6],
      ],
    ],
    [
      'has all its points on one spot',
      [
        [1, 1],
        [1, 1],
        [1, 1],
      ],
    ],
  ])('opens a block whose outline %s: its plan says why, and other blocks go on', (_, outline) => {
    expect(
      opened(
        fileWith({
          blocks: [
            { ...gull, outline },
            { ...gull, id: 'b2' },
          ],
        }),
      ).blocks,
    ).toHaveLength(2);
  });
});

describe('openFile refuses', () => {
  const many = (n: number) => Array.from({ length: n }, (_, i) => ({ ...cut, id: `c${i}` }));

  it.each([
    ['an empty file', '', 'empty', 'The file is empty.'],
    ['blanks', ' \n\t\uFEFF ', 'empty', 'The file is empty.'],
    [
      'a file cut off in the middle',
      fileWith({}).slice(0, -9),
      'cut-off',
      'The file stops in the middle: its end is missing.',
    ],
    [
      'a file cut off in a string',
      '{"format":"underp',
      'cut-off',
      'The file stops in the middle: its end is missing.',
    ],
    [
      'text that is no JSON',
      'Dear quilter,',
      'not-json',
      'The file is not an Underpaper project: it is not valid JSON.',
    ],
    [
      'a page of the web',
      '<!doctype html>\n<p>[',
      'not-json',
      'The file is not an Underpaper project: it is not valid JSON.',
    ],
    [
      'a comma too many',
      '{"format":"underpaper",\n"version":1,\n}',
      'not-json',
      'The file is not an Underpaper project: line 3 is not valid JSON.',
    ],
    [
      'another program’s JSON',
      '{"type":"FeatureCollection","features":[]}',
      'other-program',
      'The file is not an Underpaper project: it does not begin with "format": "underpaper".',
    ],
    [
      'a bare number',
      '7',
      'other-program',
      'The file is not an Underpaper project: it does not begin with "format": "underpaper".',
    ],
    [
      'a bare list',
      '[]',
      'other-program',
      'The file is not an Underpaper project: it does not begin with "format": "underpaper".',
    ],
    [
      'null',
      'null',
      'other-program',
      'The file is not an Underpaper project: it does not begin with "format": "underpaper".',
    ],
    [
      'a newer version',
      fileWith({ version: 3 }),
      'newer-version',
      'The file has version 3 of the format, and this Underpaper reads up to version 2: open it with a newer Underpaper.',
    ],
    [
      'a newer version, whatever else it holds',
      '{"format":"underpaper","version":70}',
      'newer-version',
      'The file has version 70 of the format, and this Underpaper reads up to version 2: open it with a newer Underpaper.',
    ],
    [
      'no version',
      '{"format":"underpaper"}',
      'invalid',
      'The file does not say which version of the format it has.',
    ],
    [
      'version 0',
      fileWith({ version: 0 }),
      'invalid',
      'The file does not say which version of the format it has.',
    ],
    [
      'version "1"',
      fileWith({ version: '1' }),
      'invalid',
      'The file does not say which version of the format it has.',
    ],
    ['no name', '{"format":"underpaper","version":1,"blocks":[]}', 'invalid', 'The project name is missing.'],
    ['a blank name', fileWith({ name: ' ' }), 'invalid', 'The project name is empty.'],
    ['a name of another type', fileWith({ name: 5 }), 'invalid', 'The project name is not text.'],
    [
      'a name without end',
      fileWith({ name: 'x'.repeat(201) }),
      'invalid',
      'The project name is longer than 200 letters.',
    ],
    [
      'no blocks',
      '{"format":"underpaper","version":1,"name":"x"}',
      'invalid',
      'The list of blocks is missing.',
    ],
    ['blocks that are no list', fileWith({ blocks: {} }), 'invalid', 'The list of blocks is not a list.'],
    [
      'too many blocks',
      fileWith({ blocks: Array.from({ length: 10_001 }, () => 0) }),
      'invalid',
      'The list of blocks holds 10,001, more than the 10,000 allowed.',
    ],
    ['a unit no one knows', fileWith({ unit: 'ell' }), 'invalid', 'The unit is neither in nor mm.'],
    [
      'a seam allowance in words',
      fileWith({ seamAllowance: '1/4' }),
      'invalid',
      'The seam allowance is not a number.',
    ],
    [
      'a seam allowance below 0',
      fileWith({ seamAllowance: -1 }),
      'invalid',
      'The seam allowance cannot be less than 0.',
    ],
    [
      'a seam allowance of yards',
      fileWith({ seamAllowance: 36 }),
      'invalid',
      'The seam allowance can be at most 2 in.',
    ],
    [
      'a block that is no record',
      fileWith({ blocks: [gull, 5] }),
      'invalid',
      'Block 2 is not a record in braces.',
    ],
    [
      'a block without id',
      fileWith({ blocks: [{ ...gull, id: undefined }] }),
      'invalid',
      'Block 1 ‘Gull’: the id is missing.',
    ],
    [
      'an empty id',
      fileWith({ blocks: [{ ...gull, id: '' }] }),
      'invalid',
      'Block 1 ‘Gull’: the id is empty.',
    ],
    [
      'a block without name',
      fileWith({ blocks: [{ ...gull, name: undefined }] }),
      'invalid',
      'Block 1: the name is missing.',
    ],
    [
      'two blocks of one id',
      fileWith({ blocks: [gull, { ...gull, name: 'Ferry' }] }),
      'invalid',
      'Block 2 ‘Ferry’: the id ‘b1’ is already that of block 1.',
    ],
    [
      'two cuts of one id',
      blockWith({ cuts: [cut, { ...cut, id: 'c2' }, cut] }),
      'invalid',
      'Block 1 ‘Gull’, line 3: the id ‘c1’ is already that of line 1.',
    ],
    [
      'two fabrics of one id',
      fileWith({ fabrics: [1, 2].map(() => ({ id: 'f', name: 'Sand', color: '#ffffff' })) }),
      'invalid',
      'Fabric 2 ‘Sand’: the id ‘f’ is already that of fabric 1.',
    ],
    [
      'a colour in words',
      fileWith({ fabrics: [{ id: 'f1', name: 'Sand', color: 'sand' }] }),
      'invalid',
      'Fabric 1 ‘Sand’: the colour is not written as # and six digits 0-9 or a-f.',
    ],
    ['no outline', blockWith({ outline: undefined }), 'invalid', 'Block 1 ‘Gull’: the outline is missing.'],
    [
      'an outline of two points',
      blockWith({
        outline: [
          [0, 0],
          [1, 1],
        ],
      }),
      'invalid',
      'Block 1 ‘Gull’: the outline has fewer than three points (2).',
    ],
    [
      'an outline point of one number',
      blockWith({ outline: [[0, 0], [1, 1], [5]] }),
      'invalid',
      'Block 1 ‘Gull’, outline point 3 is not a pair of numbers.',
    ],
    [
      'an outline point of three numbers',
      blockWith({
        outline: [
          [0, 0],
          [1, 1],
          [5, 5, 5],
        ],
      }),
      'invalid',
      'Block 1 ‘Gull’, outline point 3 is not a pair of numbers.',
    ],
    [
      'an outline point far away',
      blockWith({
        outline: [
          [0, 0],
          [1e9, 1],
          [5, 5],
        ],
      }),
      'invalid',
      'Block 1 ‘Gull’, outline point 2 lies farther out than 1,000 in.',
    ],
    [
      'a cut end that is null',
      blockWith({ cuts: [cut, { id: 'c2', from: [0, 0], to: [null, 1] }] }),
      'invalid',
      'Block 1 ‘Gull’, line 2: the end point is not a number.',
    ],
    [
      'NaN as some programs write it',
      swapped(blockWith({ cuts: [cut] }), '"to":[6,3]', '"to":[6,NaN]'),
      'invalid',
      'Block 1 ‘Gull’, line 1: the end point is not a number.',
    ],
    [
      '-Infinity as some programs write it',
      swapped(blockWith({ cuts: [cut] }), '"from":[0,3]', '"from":[-Infinity,3]'),
      'invalid',
      'Block 1 ‘Gull’, line 1: the start point is not a number.',
    ],
    [
      'NaN where nothing looks at it',
      swapped(fileWith({ depth: 5, note: 'NaN' }), '"depth":5', '"depth":NaN'),
      'not-json',
      'The file is not an Underpaper project: it is not valid JSON.',
    ],
    [
      'a number too large for numbers',
      swapped(blockWith({ cuts: [cut] }), '"to":[6,3]', '"to":[1e999,3]'),
      'invalid',
      'Block 1 ‘Gull’, line 1: the end point is not a number.',
    ],
    [
      '10^9',
      blockWith({ cuts: [{ ...cut, to: [6, -1e9] }] }),
      'invalid',
      'Block 1 ‘Gull’, line 1: the end point lies farther out than 1,000 in.',
    ],
    [
      'a coordinate in quotes',
      blockWith({ cuts: [{ ...cut, from: ['0', 3] }] }),
      'invalid',
      'Block 1 ‘Gull’, line 1: the start point is not a number.',
    ],
    [
      'a cut without end',
      blockWith({ cuts: [{ id: 'c1', from: [0, 3] }] }),
      'invalid',
      'Block 1 ‘Gull’, line 1: the end point is missing.',
    ],
    [
      'a role no cut has',
      blockWith({ cuts: [{ ...cut, role: 'glue' }] }),
      'invalid',
      'Block 1 ‘Gull’, line 1: the role is none of auto, join and seam.',
    ],
    [
      '10,000 cuts in one block',
      blockWith({ cuts: many(10_000) }),
      'invalid',
      'Block 1 ‘Gull’: the list of lines holds 10,000, more than the 5,000 allowed.',
    ],
    [
      'a patch of a fabric that is not there',
      blockWith({ patches: [patch, { ...patch, id: 'p2', fabric: 'f9' }] }),
      'invalid',
      'Block 1 ‘Gull’, patch 2: the fabric ‘f9’ is not in the list of fabrics.',
    ],
    [
      'a patch nowhere',
      blockWith({ patches: [{ ...patch, at: 3 }] }),
      'invalid',
      'Block 1 ‘Gull’, patch 1: the spot is not a pair of numbers.',
    ],
    [
      'a patch with NaN for a spot',
      swapped(blockWith({ patches: [patch] }), '"at":[1,1]', '"at":[NaN,1]'),
      'invalid',
      'Block 1 ‘Gull’, patch 1: the spot is not a number.',
    ],
    [
      'a patch too far out',
      blockWith({ patches: [patch, { id: 'p2', at: [1, -1001] }] }),
      'invalid',
      'Block 1 ‘Gull’, patch 2: the spot lies farther out than 1,000 in.',
    ],
    [
      'a patch without an id',
      blockWith({ patches: [{ at: [1, 1] }] }),
      'invalid',
      'Block 1 ‘Gull’, patch 1: the id is missing.',
    ],
    [
      'a patch that is a number',
      blockWith({ patches: [7] }),
      'invalid',
      'Block 1 ‘Gull’, patch 1 is not a record in braces.',
    ],
    [
      'two patches with one id',
      blockWith({ patches: [patch, { ...patch, at: [2, 2] }] }),
      'invalid',
      'Block 1 ‘Gull’, patch 2: the id ‘p1’ is already that of patch 1.',
    ],
    [
      'far too many patches',
      blockWith({ patches: Array.from({ length: 100_001 }, (_, i) => ({ id: `p${i}`, at: [1, 1] })) }),
      'invalid',
      'Block 1 ‘Gull’: the list of patches holds 100,001, more than the 100,000 allowed.',
    ],
    [
      'an order of a patch that is not there',
      blockWith({ patches: [patch], orders: [['p1'], ['p1', 'p7']] }),
      'invalid',
      'Block 1 ‘Gull’, order by hand 2 holds ‘p7’, which is not in the list of patches.',
    ],
    [
      'an order of spots, as version 1 had them',
      blockWith({ patches: [patch], orders: [[[1, 1]]] }),
      'invalid',
      'Block 1 ‘Gull’, order by hand 1 is not text.',
    ],
    [
      'paint of a fabric that is not there, in version 1',
      blockWith({ paint: [{ at: [1, 1], fabric: 'f9' }] }, 1),
      'invalid',
      'Block 1 ‘Gull’, paint 1: the fabric ‘f9’ is not in the list of fabrics.',
    ],
    [
      'paint nowhere, in version 1',
      blockWith({ paint: [{ at: 3, fabric: 'f9' }] }, 1),
      'invalid',
      'Block 1 ‘Gull’, paint 1: the spot is not a pair of numbers.',
    ],
    [
      'an order by ids, in version 1',
      blockWith({ orders: [['p1']] }, 1),
      'invalid',
      'Block 1 ‘Gull’, order by hand 1 is not a pair of numbers.',
    ],
    [
      'no blocks, in version 1',
      fileWith({ version: 1, blocks: undefined }),
      'invalid',
      'The list of blocks is missing.',
    ],
    [
      'a key that would change all objects',
      swapped(blockWith({ cuts: [cut] }), '"id":"c1"', '"id":"c1","__proto__":{"role":"join"}'),
      'invalid',
      'Block 1 ‘Gull’, line 1 has a key ‘__proto__’, which a file cannot use.',
    ],
    [
      'such a key at the top',
      swapped(fileWith({}), '{', '{"__proto__":{"unit":"mm"},'),
      'invalid',
      'The project has a key ‘__proto__’, which a file cannot use.',
    ],
    [
      'brackets without end',
      fileWith({}).replace('[]', `${'['.repeat(100_000)}${']'.repeat(100_000)}`),
      'too-deep',
      'The file is not an Underpaper project: it is nested more than 64 levels deep.',
    ],
    [
      'deep nesting in a key it does not know',
      swapped(fileWith({ x: 0 }), '"x":0', `"x":${'{"a":'.repeat(70)}0${'}'.repeat(70)}`),
      'too-deep',
      'The file is not an Underpaper project: it is nested more than 64 levels deep.',
    ],
  ])('%s', (_, text, kind, message) => {
    expect(refused(text)).toMatchObject({ kind, message });
  });

  it('and says where', () => {
    const text = fileWith({
      blocks: [gull, { ...gull, id: 'b2', name: 'Ferry', cuts: [cut, { id: 'c2', from: [0, 0] }] }],
    });
    expect(refused(text).place).toBe('Block 2 ‘Ferry’, line 2');
    expect(refused('{\n\n"a" 5}').place).toBe('line 3');
    expect(refused(fileWith({ unit: 5 })).place).toBeUndefined();
  });

  it('and keeps the sentence on one line, whatever the names are', () => {
    const name = `Gull\r\n\u2028\u0000\u202e${'long '.repeat(30)}`;
    const { message } = refused(fileWith({ blocks: [{ ...gull, name, cuts: 5 }] }));
    expect(message).toMatch(/^Block 1 ‘Gull long long .{10,40}…’: the list of lines is not a list\.$/);
  });

  it('a file over the limit before reading it, and says the limit', () => {
    expect(MAX_FILE_BYTES).toBe(50_000_000);
    expect(checkFileSize(MAX_FILE_BYTES)).toBeNull();
    expect(checkFileSize(200_000_000)?.message).toBe(
      'The file is 200 MB; files of up to 50 MB can be opened.',
    );
    expect(refused(' '.repeat(MAX_FILE_BYTES + 1)).kind).toBe('too-large');
  });

  it('files of many megabytes that are nothing but one sign, without running out of stack or patience', () => {
    for (const [sign, kind] of [
      ['[', 'too-deep'],
      ['{"":', 'too-deep'],
      ['[],', 'not-json'],
      ['\\', 'not-json'],
      ['"', 'not-json'],
      ['-', 'not-json'],
      ['NaN,', 'not-json'],
    ] as const) {
      expect(refused(sign.repeat(Math.floor(8_000_000 / sign.length))).kind).toBe(kind);
      expect(refused(`[${sign.repeat(1_000_000)}]`).message).toMatch(isSentence);
      expect(refused(`["${sign.repeat(1_000_000)}`).message).toMatch(isSentence);
    }
  });

  it('and leaves Object.prototype alone', () => {
    openFile(
      swapped(
        fileWith({}),
        '{',
        '{"__proto__":{"polluted":true},"constructor":{"prototype":{"polluted":true}},',
      ),
    );
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  });
});

const isSentence = /^\S[^\n\r]*\.$/;

describe('whatever the text', () => {
  const good = sample('version-1.canonical');

  it('a file cut off anywhere is refused with a sentence', () => {
    for (let end = 0; end < good.trimEnd().length; end++) {
      const { kind, message } = refused(good.slice(0, end));
      expect(kind).toBe(end === 0 ? 'empty' : 'cut-off');
      expect(message).toMatch(isSentence);
    }
  });

  it('random text never opens and never throws', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.json()), (text) => {
        expect(refused(text).message).toMatch(isSentence);
      }),
    );
  });

  it('any one value put in the place of any other gives a project or a sentence', () => {
    const paths: (string | number)[][] = [];
    const walk = (value: unknown, path: (string | number)[]): void => {
      paths.push(path);
      if (typeof value !== 'object' || value === null) return;
      for (const [key, inner] of Object.entries(value))
        walk(inner, [...path, Array.isArray(value) ? Number(key) : key]);
    };
    walk(JSON.parse(good), []);
    fc.assert(
      fc.property(
        fc.constantFrom(...paths),
        fc.oneof(fc.jsonValue(), fc.constantFrom(null, '', -1, 0, 1e9, -1e-300, 1e308, [], {}, [[]], true)),
        (path, value) => {
          const changed = JSON.parse(good);
          let root: unknown = changed;
          if (path.length === 0) root = value;
          else {
            const holder = path.slice(0, -1).reduce((inner, key) => inner[key], changed);
            holder[path.at(-1)!] = value;
          }
          const file = openFile(JSON.stringify(root));
          if (!file.ok) expect(file.error.message).toMatch(isSentence);
          else expect(openFile(toText(file.project))).toEqual(file);
        },
      ),
      { numRuns: 2_000 },
    );
  });
});
