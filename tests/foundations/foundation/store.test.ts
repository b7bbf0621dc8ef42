import { describe, expect, it } from 'vitest';
import { PAGES } from '../../../src/document/pages.ts';
import type { Project } from '../../../src/document/project.ts';
import { drawingStore } from '../../../src/foundations/foundation/store.ts';
import { layOutSheets } from '../../../src/foundations/sheet/layout.ts';
import type { SheetOptions } from '../../../src/foundations/sheet/sheet.ts';
import type { Block } from '../../../src/piecing/block.ts';
import { piece } from '../../../src/piecing/piece.ts';
import { gull, harbour, lighthouse, typeface, windmill } from '../harbour.ts';

const setting: SheetOptions = {
  page: PAGES.letter,
  margin: 0.25,
  side: 'printed',
  printedOn: '24 November 2026',
  typeface,
};

/** A store, and of which blocks it had papers drawn, in turn. */
function watched() {
  const keep = drawingStore();
  const drawn: string[] = [];
  const store: typeof keep = (request, draw) =>
    keep(request, (one) => {
      drawn.push(one.blockName);
      return draw(one);
    });
  return { store, drawn };
}

const workOf = (project: Project, blocks: readonly Block[], copies = 1) => ({
  project,
  jobs: blocks.map((block) => ({ block, plan: piece(block), copies, isMirrored: false })),
});

describe('papers kept from one layout to the next', () => {
  const project: Project = { ...harbour, blocks: [gull, windmill, lighthouse] };

  it('are not drawn again, though everything asked comes from another thread', () => {
    const { store, drawn } = watched();
    // So large that no paper is ever short of room for its labels.
    const roomy = { ...setting, page: PAGES.tabloid };
    const work = workOf(project, [gull, windmill]);
    const first = layOutSheets(work, roomy, store);
    const once = drawn.length;
    expect(once).toBeGreaterThanOrEqual(work.jobs.reduce((sum, { plan }) => sum + plan.sections.length, 0));
    expect(layOutSheets(structuredClone(work), roomy, store)).toEqual(first);
    expect(drawn).toHaveLength(once);
    // A block more: only its own papers are new.
    layOutSheets(workOf(project, [gull, windmill, lighthouse]), roomy, store);
    expect(new Set(drawn.slice(once))).toEqual(new Set([lighthouse.name]));
  });

  it('are those that are drawn without, whatever was laid out before', () => {
    const { store } = watched();
    const renamed = {
      ...project,
      fabrics: project.fabrics.map((one) => ({ ...one, name: `${one.name} 2` })),
    };
    const moved: Block = {
      ...gull,
      cuts: gull.cuts.map((cut, i) => (i === 0 ? { ...cut, to: [cut.to[0] - 0.5, cut.to[1]] } : cut)),
    };
    const cases: readonly (readonly [ReturnType<typeof workOf>, Partial<SheetOptions>])[] = [
      [workOf(project, [gull, windmill]), {}],
      [workOf(project, [gull, windmill], 12), {}],
      [workOf({ ...project, seamAllowance: 0.375 }, [gull, windmill]), {}],
      [workOf({ ...project, unit: 'mm' }, [gull, windmill]), {}],
      [workOf(renamed, [gull, windmill]), {}],
      [workOf(project, [moved, windmill]), {}],
      [workOf(project, [{ ...gull, name: 'Tern' }]), {}],
      [workOf(project, [gull, windmill]), { side: 'front' }],
      [workOf(project, [gull, windmill]), { style: 'hatched', grain: true }],
      [workOf(project, [gull, windmill]), { page: { name: '', width: 5, height: 6 } }],
    ];
    for (const [i, [work, options]] of [...cases, ...cases].entries())
      expect(layOutSheets(work, { ...setting, ...options }, store), `case ${i}`).toEqual(
        layOutSheets(work, { ...setting, ...options }),
      );
  });

  it('are let go of when there are very many', () => {
    const { store, drawn } = watched();
    const work = workOf(project, [gull]);
    const names = Array.from({ length: 700 }, (_, i) => i);
    layOutSheets(work, setting, store);
    const once = drawn.length;
    // Each with a plan of its own: the fabric of one patch tells them apart.
    for (const i of names) {
      const [job] = work.jobs;
      const [patch, ...others] = job!.plan.patches;
      const plan = { ...job!.plan, patches: [{ ...patch!, fabric: `cloth-${i}` }, ...others] };
      store(
        {
          plan,
          section: 'A',
          blockName: 'Gull',
          fabrics: new Map(),
          allowance: 0.25,
          side: 'printed',
          copies: 1,
          unit: 'in',
          room: { minX: 0, minY: 0, maxX: 9, maxY: 9, barriersX: [], barriersY: [], lines: [] },
          ticks: new Map(),
          style: 'outline',
          grain: false,
          large: false,
          typeface,
        },
        () => ({
          section: 'A',
          width: 1,
          height: 1,
          rings: [],
          marks: [],
          title: null,
          code: null,
          codedFabrics: [],
          crowded: [],
        }),
      );
    }
    const before = drawn.length;
    layOutSheets(work, setting, store);
    expect(drawn.slice(before)).toHaveLength(once);
  });
});
