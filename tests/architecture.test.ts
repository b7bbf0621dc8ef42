import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { architectureFaults } from './harness/architecture.ts';

const SRC = fileURLToPath(new URL('../src', import.meta.url));

function readSources(): Map<string, string> {
  const paths = readdirSync(SRC, { recursive: true, encoding: 'utf8' }).map((path) =>
    path.replaceAll('\\', '/'),
  );
  return new Map(
    paths
      .filter((path) => /\.tsx?$/.test(path) && !path.endsWith('.d.ts'))
      .map((path) => [path, readFileSync(join(SRC, path), 'utf8')]),
  );
}

const faultsIn = (files: Record<string, string>, assets: readonly string[] = []): string[] =>
  architectureFaults(new Map(Object.entries(files)), (path) => assets.includes(path));

describe('the source tree', () => {
  const sources = readSources();

  it('is read at all', () => {
    expect(sources.size).toBeGreaterThan(10);
    expect([...sources.keys()]).toContain('piecing/piece.ts');
  });

  it('keeps the order of the folders, purity, and imports without cycles', () => {
    expect(architectureFaults(sources, (path) => existsSync(join(SRC, path)))).toEqual([]);
  });
});

describe('the independent checks', () => {
  it('take nothing but types from the source they check', () => {
    for (const folder of ['checker', 'designs']) {
      const path = fileURLToPath(new URL(folder, import.meta.url));
      const files = readdirSync(path).filter((name) => !name.endsWith('.test.ts'));
      expect(files.length).toBeGreaterThan(2);
      for (const name of files) {
        const code = readFileSync(join(path, name), 'utf8');
        // Every statement that names src, from its first word on; with verbatim modules a type import leaves nothing.
        const statements = code.match(/^(import|export)\b[^;]*\/src\/[^;]*;/gm) ?? [];
        expect(
          statements.filter((statement) => !statement.startsWith('import type ')),
          name,
        ).toEqual([]);
        expect(code, name).not.toMatch(/import\([^)]*\/src\//);
      }
    }
  });
});

describe('an import against the order is found', () => {
  const target = { 'piecing/plan.ts': 'export interface Plan { a: number }\nexport const b = 1;' };
  const ways: readonly [string, string][] = [
    ['static', "import { b } from '../piecing/plan.ts'; b;"],
    ['for its effect', "import '../piecing/plan.ts';"],
    ['type-only', "import type { Plan } from '../piecing/plan.ts'; export type P = Plan;"],
    ['type within braces', "import { type Plan } from '../piecing/plan.ts'; export type P = Plan;"],
    ['type in place', "export type P = import('../piecing/plan.ts').Plan;"],
    ['dynamic', "export const load = () => import('../piecing/plan.ts');"],
    ['re-export', "export { b } from '../piecing/plan.ts';"],
    ['re-export of all', "export * from '../piecing/plan.ts';"],
    ['type re-export', "export type { Plan } from '../piecing/plan.ts';"],
    ['worker', "export const url = new URL('../piecing/plan.ts', import.meta.url);"],
  ];
  for (const [way, code] of ways) {
    it(`${way}`, () => {
      expect(faultsIn({ ...target, 'geometry/ring.ts': code })).toEqual([
        'geometry/ring.ts imports piecing/plan.ts, against the order of the folders',
      ]);
      expect(faultsIn({ ...target, 'document/ring.ts': code })).toEqual([]);
    });
  }

  it('from the command line into a screen folder', () => {
    const files = { 'cli/main.ts': "import '../workspace/store.ts';", 'workspace/store.ts': '' };
    expect(faultsIn(files)).toEqual([
      'cli/main.ts imports workspace/store.ts, against the order of the folders',
    ]);
  });

  it('of the entry file by a folder', () => {
    const files = { 'main.tsx': "import './views/app.tsx';", 'views/app.tsx': "import '../main.tsx';" };
    expect(faultsIn(files)).toEqual([
      'views/app.tsx imports main.tsx, against the order of the folders',
      'main.tsx → views/app.tsx → main.tsx is a cycle',
    ]);
  });

  it('in a folder the house does not have', () => {
    expect(faultsIn({ 'helpers/a.ts': '' })).toEqual([
      'helpers/a.ts lies in helpers, which is no folder of the house',
    ]);
  });
});

describe('in a pure folder', () => {
  const banned: readonly [string, string][] = [
    ['Date', 'export const now = () => Date.now();'],
    ['Date', 'export const today = new Date();'],
    ['Math.random', 'export const r = Math.random();'],
    ['Math.random', 'const { random } = Math; export const r = random();'],
    ['Math.random', "export const r = Math['random']();"],
    ['Math.random', 'const m = Math; export const r = m.random();'],
    ['performance', 'export const t = performance.now();'],
    ['window', 'export const w = window.innerWidth;'],
    ['document', "export const e = document.createElement('p');"],
    ['document', 'export function f() { if (true) { const document = 1; document; } return document; }'],
    ['globalThis', 'export const w = globalThis;'],
    ['setTimeout', 'setTimeout(() => {}, 1);'],
    ['setInterval', 'setInterval(() => {}, 1);'],
    ['requestAnimationFrame', 'requestAnimationFrame(() => {});'],
    ['crypto', 'export const id = crypto.randomUUID();'],
    ['fetch', 'export const f = { fetch };'],
    ['localStorage', "localStorage.getItem('a');"],
    ['HTMLCanvasElement', 'export function f(c: HTMLCanvasElement) { return c; }'],
    ['CanvasRenderingContext2D', 'export type C = CanvasRenderingContext2D;'],
  ];
  for (const [name, code] of banned) {
    it(`${name} is found: ${code}`, () => {
      expect(faultsIn({ 'piecing/a.ts': code })).toEqual([`piecing/a.ts uses ${name} in a pure folder`]);
      expect(faultsIn({ 'workspace/a.ts': code })).toEqual([]);
    });
  }

  it.each([
    'react',
    'react/jsx-runtime',
    'react-dom/client',
    'konva',
    'react-konva',
    'zustand/vanilla',
    'comlink',
    'idb-keyval',
  ])('the package %s is found', (name) => {
    expect(faultsIn({ 'rounds/a.ts': `import '${name}';` })).toEqual([
      `rounds/a.ts imports ${name} in a folder without a screen`,
    ]);
    expect(faultsIn({ 'cli/a.ts': `import '${name}';` })).toEqual([
      `cli/a.ts imports ${name} in a folder without a screen`,
    ]);
    expect(faultsIn({ 'views/a.ts': `import '${name}';` })).toEqual([]);
  });

  it('markup is found', () => {
    expect(faultsIn({ 'quilt/a.tsx': 'export const a = <p />;' })).toEqual([
      'quilt/a.tsx holds markup in a pure folder',
    ]);
  });

  it('node modules are found, except in the command line', () => {
    expect(faultsIn({ 'foundations/a.ts': "import 'node:fs';" })).toEqual([
      'foundations/a.ts imports node:fs, which no browser has',
    ]);
    expect(faultsIn({ 'cli/a.ts': "import 'node:fs';" })).toEqual([]);
  });

  it('names that only look alike stay silent', () => {
    const silent = [
      "// window and document in words\nexport const say = 'Date.now() and Math.random()';",
      'export function save(document: { name: string }) { return document.name; }',
      'export const open = ({ document, window: w = 1 }: { document: number; window?: number }) => document + w;',
      'export const plan = { document: 1, window: 2, performance: 3 };\nexport const d = plan.document + plan.window;',
      'export interface Sheet { readonly date: Date; readonly document: string }',
      'export const half = Math.floor(2.5) + Math.PI;\nexport const { max } = Math;',
      'for (const location of [1, 2]) location.toFixed();',
      'export class Sheet { screen = 1; history() { return this.screen; } }',
      'const re = /window|document/;\nexport const t = `document $' + '{re.source}`;',
      "import { Element } from '../geometry/b.ts';\nexport type E = Element;",
    ];
    for (const code of silent) {
      expect(
        faultsIn({ 'piecing/a.ts': code, 'geometry/b.ts': 'export interface Element { a: 1 }' }),
        code,
      ).toEqual([]);
    }
  });
});

describe('imports lead somewhere, and not round', () => {
  it('a file that is not there is found', () => {
    expect(faultsIn({ 'views/a.ts': "import '../board/b.ts';" })).toEqual([
      'views/a.ts imports board/b.ts, which is not there',
    ]);
    expect(faultsIn({ 'views/a.ts': "import './a';" })).toEqual([
      'views/a.ts imports views/a, which is not there',
    ]);
  });

  it('a style sheet or a font is an asset', () => {
    expect(
      faultsIn({ 'views/a.ts': "import './a.css'; import f from './f.ttf?url'; f;" }, [
        'views/a.css',
        'views/f.ttf',
      ]),
    ).toEqual([]);
  });

  it('an import that cannot be read is found', () => {
    const unreadable = 'views/a.ts imports something that cannot be read off its text';
    expect(faultsIn({ 'views/a.ts': 'export const f = (n: string) => import(n);' })).toEqual([unreadable]);
    expect(faultsIn({ 'views/a.ts': "export const f = import.meta.glob('../cli/*.ts');" })).toEqual([
      unreadable,
    ]);
  });

  it('a way out of src is found', () => {
    expect(faultsIn({ 'views/a.ts': "import '../../tests/x.ts';" })).toEqual([
      'views/a.ts imports ../../tests/x.ts from outside src',
    ]);
  });

  it('cycles are found, type-only ones too', () => {
    const files = {
      'geometry/a.ts': "import './b.ts';",
      'geometry/b.ts': "import type { C } from './c.ts'; export type B = C;",
      'geometry/c.ts': "export type C = import('./a.ts').A;",
    };
    expect(faultsIn(files)).toEqual([
      'geometry/a.ts → geometry/b.ts → geometry/c.ts → geometry/a.ts is a cycle',
    ]);
    expect(faultsIn({ 'geometry/a.ts': "import './a.ts';" })).toEqual([
      'geometry/a.ts → geometry/a.ts is a cycle',
    ]);
  });
});
