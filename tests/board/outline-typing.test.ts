import { describe, expect, it } from 'vitest';
import { cutTool } from '../../src/board/tools/cut.ts';
import { outlineTool } from '../../src/board/tools/outline.ts';
import { Script } from './script.ts';

/** An outline for a new block, as its tool leaves it. */
function outlineOf(draw: (script: Script<unknown>) => unknown): Script<unknown> {
  const script = new Script(outlineTool) as Script<unknown>;
  script.outlineFor = { kind: 'new-block', name: 'Pennant' };
  draw(script);
  return script;
}

const corners = (script: Script<unknown>) => script.project.blocks[1]?.outline;

describe('an outline by numbers', () => {
  it('is drawn by lengths and angles, and closes with Enter', () => {
    const script = outlineOf((tool) =>
      tool
        .click(1, 1)
        .type('6\t0')
        .press('finish')
        .type('3 1/2<270')
        .press('finish')
        .type('152.4 mm\t180')
        .press('finish')
        .press('finish'),
    );
    expect(corners(script)).toEqual([
      [0, 0],
      [6, 0],
      [6, 3.5],
      [0, 3.5],
    ]);
    expect(script.steps).toEqual(['Add block']);
    expect(script.isDone).toBe(true);
  });

  it('is drawn by the places of its corners alone, without a pointer', () => {
    const script = outlineOf((tool) => {
      for (const place of ['T2\t1', 'T8\t1', 't5\t5 1/4']) tool.type(place).press('finish');
      tool.press('finish');
    });
    expect(corners(script)).toEqual([
      [0, 0],
      [6, 0],
      [3, 4.25],
    ]);
  });

  it('closes where the first corner is typed again', () => {
    const script = outlineOf((tool) => {
      for (const place of ['T0\t0', 'T4\t0', 'T4\t4', 'T0\t0']) tool.type(place).press('finish');
    });
    expect(corners(script)).toHaveLength(3);
  });

  it('takes what is not typed from the pointer', () => {
    const script = outlineOf((tool) =>
      tool
        .click(1, 1)
        .move(6, 1)
        .type('4')
        .press('finish')
        .move(5, 6)
        .type('T\t3')
        .press('finish')
        .press('finish'),
    );
    expect(corners(script)).toEqual([
      [0, 0],
      [4, 0],
      [4, 2],
    ]);
  });

  it('says what cannot be read and keeps the corners; Backspace takes signs back, then corners', () => {
    const script = outlineOf((tool) => tool.click(1, 1).click(5, 1).type('4\tmuch').press('finish'));
    // Of "much" the signs m and c belong to units; an angle has none.
    expect(script.warnings[0]).toMatch(/angle/i);
    script.press('back').press('back').type('270').press('finish').press('finish');
    expect(corners(script)).toEqual([
      [0, 0],
      [4, 0],
      [4, 4],
    ]);
    const back = outlineOf((tool) =>
      tool.click(1, 1).click(5, 1).press('back').click(5, 5).click(1, 5).press('finish'),
    );
    expect(corners(back)).toEqual([
      [0, 0],
      [4, 4],
      [0, 4],
    ]);
  });

  it('sets a corner where the press is let go, so that it can be aimed', () => {
    const script = outlineOf((tool) =>
      tool.down(1, 1).move(2, 2).up(2, 2).click(6, 2).click(6, 5).press('finish'),
    );
    expect(corners(script)).toEqual([
      [0, 0],
      [4, 0],
      [4, 3],
    ]);
  });
});

describe('a cut that starts at a typed place', () => {
  it('runs from there by pointer or by numbers', () => {
    const script = new Script(cutTool).type('T1 1/2\t8').press('finish').type('3\t90').press('finish');
    expect(script.block.cuts[1]).toMatchObject({ from: [1.5, 8], to: [1.5, 5] });
    const aimed = new Script(cutTool).type('T50.8mm\t8').press('finish').move(12, 8).down(12, 8).up(12, 8);
    expect(aimed.block.cuts[1]).toMatchObject({ from: [2, 8], to: [12, 8] });
  });

  it('may end at a typed place', () => {
    const script = new Script(cutTool).click(0, 8).type('T12\t9.5').press('finish');
    expect(script.block.cuts[1]).toMatchObject({ from: [0, 8], to: [12, 9.5] });
  });

  it('leaves numbers alone while nothing runs: they are other keys', () => {
    const script = new Script(cutTool).type('0').type('9');
    expect(script.state.kind).toBe('idle');
    script.type('T').press('back');
    expect(script.state.kind).toBe('idle');
  });
});
