import { afterAll, describe, expect, it } from 'vitest';
import type { Block, Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import type { Finding } from '../../src/piecing/plan.ts';
import { harbour, quarters } from '../document/projects.ts';
import { underpaper, underpaperHere, Workbench } from './command-line.ts';

const bench = new Workbench();
afterAll(() => bench.clear());

const bow: Block = {
  ...quarters,
  id: 'b8',
  name: 'Bow',
  outline: [
    [0, 0],
    [6, 6],
    [6, 0],
    [0, 4],
  ],
  cuts: [],
  patches: [],
};

/** Three stripes: one foundation (rail fence, a traditional block). */
const stripes: Block = {
  ...quarters,
  id: 'b3',
  name: 'Jetty',
  cuts: [4, 8].map((y, i) => ({ id: `c${i}`, from: [0, y], to: [12, y], role: 'auto' })),
};

/** Five patches round a square: no straight seam crosses it (the smallest ring; a partial seam in the trade). */
const spiral: Block = {
  ...quarters,
  id: 'b4',
  name: 'Whirlpool',
  patches: [],
  cuts: [
    { id: 'c1', from: [0, 4], to: [8, 4], role: 'auto' },
    { id: 'c2', from: [8, 0], to: [8, 8], role: 'auto' },
    { id: 'c3', from: [12, 8], to: [4, 8], role: 'auto' },
    { id: 'c4', from: [4, 12], to: [4, 4], role: 'auto' },
  ],
};

const project: Project = { ...harbour, blocks: [...harbour.blocks, stripes, spiral] };
const path = bench.file('harbour.underpaper.json', toText(project));

interface Report {
  readonly blocks: readonly Record<string, never>[];
}

describe('check', () => {
  it('tells the verdict, the foundations with their orders and the joins of each block', async () => {
    const { status, out, err } = await underpaper('check', path);
    expect([status, err]).toEqual([0, '']);
    expect(out).toContain('Harbour sampler: 4 blocks\n');
    // Traditional blocks (common practice): a four patch takes two foundations, a rail fence one, a ring no straight joins.
    expect(out).toMatch(
      /^Harbour window\n {2}Sews on 2 foundations, the fewest possible\.\n {2}Foundations\n {4}A: A1 A2\n {4}B: B1 B2\n {2}Joins\n {4}1\. Join A to B, a straight seam of 12 in\.$/m,
    );
    expect(out).toMatch(/^Ferry\n {2}One patch, nothing to sew\.$/m);
    expect(out).toMatch(/^Jetty\n {2}Sews on one foundation\.\n {2}Foundations\n {4}A: A1 A2 A3$/m);
    expect(out).toMatch(/^Whirlpool\n {2}Cannot be joined with straight seams: join \d turns a corner\.$/m);
  });

  it('writes lengths in the project’s unit', async () => {
    const metric = bench.file('metric.json', toText({ ...project, unit: 'mm' }));
    expect((await underpaperHere('check', metric)).out).toContain('a straight seam of 304.8 mm.');
  });

  it('takes findings to be as grave as the project does, and says what no sheet of it holds', async () => {
    const wide = { ...stripes, outline: quarters.outline.map(([x, y]) => [3 * x, y] as const) };
    const codes = async (changed: Partial<Project>): Promise<string[]> => {
      const file = bench.file('severities.json', toText({ ...project, blocks: [wide], ...changed }));
      const { blocks } = JSON.parse((await underpaperHere('check', file, '--json')).out);
      return blocks[0].findings.map(({ code, severity }: Finding) => `${code} ${severity}`);
    };
    expect(await codes({})).toEqual(expect.arrayContaining(['idle-cut caution', 'oversize note']));
    const changed = await codes({ severities: { 'idle-cut': 'off', oversize: 'trouble' } });
    expect(changed).toContain('oversize trouble');
    expect(changed.join()).not.toContain('idle-cut');
  });

  it('prints the report that other programs read, with these names', async () => {
    const { status, out } = await underpaper('check', path, '--json');
    expect(status).toBe(0);
    const { blocks } = JSON.parse(out) as { blocks: Record<string, unknown>[] };
    expect(blocks.map(({ id, name, verdict, fewest }) => [id, name, verdict, fewest])).toEqual([
      ['b1', 'Harbour window', 'several-foundations', true],
      ['b2', 'Ferry', 'undivided', true],
      ['b3', 'Jetty', 'one-foundation', true],
      ['b4', 'Whirlpool', 'set-in-seams', expect.any(Boolean)],
    ]);
    const pair = [expect.any(Number), expect.any(Number)];
    const has = (value: unknown, shape: object) => expect(value).toEqual(expect.objectContaining(shape));
    for (const block of blocks as unknown as Record<string, Record<string, unknown>[]>[]) {
      for (const patch of block.patches!) {
        has(patch, { id: expect.any(String), section: expect.any(String), position: expect.any(Number) });
        has(patch, { polygon: expect.arrayContaining([pair]) });
        expect(patch.seam === null || (patch.seam as unknown[]).length === 2).toBe(true);
        expect(patch.fabric === null || typeof patch.fabric === 'string').toBe(true);
      }
      for (const section of block.sections!) {
        has(section, { letter: expect.any(String), outline: expect.arrayContaining([pair]) });
        has(section, { order: expect.arrayContaining([expect.any(String)]) });
      }
      for (const join of block.joins!) {
        has(join, { step: expect.any(Number), left: expect.any(Array), right: expect.any(Array) });
        has(join, { seam: [pair, pair], kind: expect.stringMatching(/^(straight|set-in)$/) });
        for (const point of join.points as object[]) {
          has(point, { label: expect.any(String), at: pair });
          has(point, { kind: expect.stringMatching(/^(end|match|junction|guide)$/) });
        }
      }
      for (const finding of block.findings!) {
        has(finding, { code: expect.any(String), severity: expect.any(String), at: pair });
        has(finding, { patches: expect.any(Array), message: expect.any(String) });
      }
    }
    const fabrics = (blocks[0]!.patches as { fabric: string | null }[]).map(({ fabric }) => fabric);
    expect(fabrics.filter((fabric) => fabric !== null).sort()).toEqual(['f1', 'f2']);
  });

  it('gives an undivided block one section of one patch', async () => {
    const { out } = await underpaperHere('check', path, '--json');
    const { blocks } = JSON.parse(out) as { blocks: { sections: unknown[]; patches: unknown[] }[] };
    expect([blocks[1]!.sections.length, blocks[1]!.patches.length]).toEqual([1, 1]);
  });

  it('reports a block without usable outline, and goes on with the others', async () => {
    const mixed = bench.file(
      'mixed.json',
      toText({ ...project, blocks: [bow, stripes, { ...bow, id: 'b9' }] }),
    );
    const { status, out, err } = await underpaper('check', mixed, '--json');
    expect(status).toBe(1);
    expect(err).toMatch(/^underpaper: Block 1 ‘Bow’ \(1 more like it\): The outline crosses [^\n]*\.\n$/);
    const { blocks } = JSON.parse(out) as { blocks: { verdict: string; findings: { message: string }[] }[] };
    expect(blocks.map(({ verdict }) => verdict)).toEqual(['broken', 'one-foundation', 'broken']);
    expect(blocks[0]!.findings[0]!.message).toMatch(/crosses/);
    const { out: text } = await underpaperHere('check', mixed);
    expect(text).toMatch(/^Bow\n {2}The outline crosses/m);
    expect(text).toMatch(/^Jetty\n {2}Sews on one foundation\.$/m);
  });

  it('of a project without blocks is an empty report', async () => {
    const none = bench.file('none.json', toText({ ...project, blocks: [] }));
    expect(JSON.parse((await underpaperHere('check', none, '--json')).out) as Report).toEqual({ blocks: [] });
    expect((await underpaperHere('check', none)).out).toBe('Harbour sampler: 0 blocks\n');
  });

  it('keeps names from breaking the report', async () => {
    const odd = bench.file(
      'odd.json',
      toText({ ...project, blocks: [{ ...stripes, name: 'Jetty\n\u001b[31mred' }] }),
    );
    const { out } = await underpaperHere('check', odd);
    expect(out.split('\n').slice(2, 4)).toEqual(['Jetty [31mred', '  Sews on one foundation.']);
  });

  it('checks 2,000 blocks of 12 to 36 patches in under 10 s of processor time', async () => {
    // A grid of uneven bands, each block other than the last.
    const blocks = Array.from({ length: 2_000 }, (_, n): Block => {
      const across = 2 + (n % 4);
      const down = 3 + (n % 3);
      const spread = (count: number, i: number) => (12 * i) / (count + 1) + ((n * 7 + i * 3) % 11) / 64;
      return {
        id: `b${n}`,
        name: `Pier ${n}`,
        outline: quarters.outline,
        cuts: [
          ...Array.from({ length: across }, (_, i) => ({ y: spread(across, i + 1), id: `a${i}` })).map(
            ({ y, id }) => ({ id, from: [0, y], to: [12, y], role: 'auto' }) as const,
          ),
          ...Array.from({ length: down }, (_, i) => ({ x: spread(down, i + 1), id: `d${i}` })).map(
            ({ x, id }) => ({ id, from: [x, 0], to: [x, 12], role: 'auto' }) as const,
          ),
        ],
        patches: [],
      };
    });
    const many = bench.file('many.json', toText({ ...project, blocks }));
    const { status, out } = await underpaper('check', many, '--json');
    expect(status).toBe(0);
    expect((JSON.parse(out) as Report).blocks).toHaveLength(2_000);
  });
});

describe('help', () => {
  it('is there for all and for each command, names every option, and ends well', async () => {
    const general = await underpaperHere('--help');
    expect(general.status).toBe(0);
    for (const name of ['check', 'foundations']) {
      expect(general.out).toMatch(new RegExp(`^  ${name}\\b`, 'm'));
      const own = await underpaperHere(name, '--help');
      expect(own.status).toBe(0);
      expect(own.out).toContain(`Usage: npm run --silent underpaper -- ${name} FILE`);
      expect((await underpaperHere('help', name)).out).toBe(own.out);
      for (const line of own.out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(100);
    }
    for (const option of ['--out', '--svg', '--page', '--copies', '--blocks']) {
      expect((await underpaperHere('foundations', '--help')).out).toContain(`  ${option} `);
    }
  });
});
