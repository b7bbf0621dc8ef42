import { describe, expect, it } from 'vitest';
import { cuttingPlan } from '../../../src/cutting/cutting-plan.ts';
import { clothsOf, cuttingRulesOf } from '../../../src/cutting/project-cutting.ts';
import { THOROUGH_STEPS } from '../../../src/cutting/strips/lay-strips.ts';
import { PAGES } from '../../../src/document/pages.ts';
import { layOutBooklet } from '../../../src/foundations/booklet/booklet.ts';
import { DEFAULT_NESTING } from '../../../src/foundations/sheet/filling.ts';
import { marksOf } from '../../../src/foundations/sheet/sheet.ts';
import { makingOf } from '../../../src/making/making.ts';
import { gull, harbour, pointsOf, textsOf, typeface, windmill } from '../harbour.ts';

describe('the cutting list on paper', () => {
  it('draws every strip of the plan, names every patch of every copy, and says how to mind the blade', () => {
    const project = { ...harbour, blocks: [gull, windmill] };
    const made = makingOf(project, { copies: 2 });
    const { sheets } = layOutBooklet(
      { project, jobs: made },
      {
        page: PAGES.letter,
        margin: 0.25,
        side: 'printed',
        nesting: DEFAULT_NESTING,
        style: 'outline',
        grain: false,
        correction: null,
        typeface,
        printedOn: 'today',
      },
      new Set(['cutting']),
    );
    expect(sheets.length).toBeGreaterThan(0);
    const text = sheets.flatMap((sheet) => textsOf(marksOf(sheet)).map((mark) => mark.text)).join(' ');
    const plan = cuttingPlan({
      made,
      cloths: clothsOf(project),
      rules: cuttingRulesOf(project),
      steps: THOROUGH_STEPS,
    });
    const strips = plan.fabrics.reduce((sum, fabric) => sum + fabric.strips.length, 0);
    expect(text.match(/Strip \d+:/g)).toHaveLength(strips);
    for (const { patch } of plan.pieces)
      for (const copy of [1, 2]) expect(text).toContain(`${patch} (copy ${copy})`);
    expect(text).toMatch(/Close the blade/);
    // Inside the page.
    for (const sheet of sheets)
      for (const mark of marksOf(sheet)) {
        for (const [x, y] of pointsOf(mark)) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(sheet.width);
          expect(y).toBeLessThanOrEqual(sheet.height);
        }
      }
  });
});
