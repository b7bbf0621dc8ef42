import { describe, expect, it } from 'vitest';
import { replaceFabric, swapFabrics } from '../../src/document/edit-fabrics.ts';
import type { Project } from '../../src/document/project.ts';
import { blockOf, frozen, harbour, quarters } from './projects.ts';

const fleet: Project = frozen({
  ...harbour,
  blocks: [
    quarters,
    { ...quarters, id: 'b2', name: 'Ferry' },
    { ...quarters, id: 'b3', name: 'Gull', patches: [] },
  ],
});
const laid = (project: Project, id: string): readonly string[] =>
  blockOf(project, id).patches.flatMap(({ fabric }) => fabric ?? []);

describe('one fabric in the place of another', () => {
  it('everywhere, or in one block only', () => {
    const everywhere = replaceFabric(fleet, 'f1', 'f3');
    expect([laid(everywhere, 'b1'), laid(everywhere, 'b2')]).toEqual([
      ['f3', 'f2'],
      ['f3', 'f2'],
    ]);
    const here = replaceFabric(fleet, 'f1', 'f3', 'b2');
    expect([laid(here, 'b1'), laid(here, 'b2')]).toEqual([
      ['f1', 'f2'],
      ['f3', 'f2'],
    ]);
    expect(here.fabrics).toBe(fleet.fabrics);
    expect(blockOf(here, 'b1')).toBe(blockOf(fleet, 'b1'));
  });

  it('changes nothing where there is nothing to change', () => {
    expect(replaceFabric(fleet, 'f1', 'f1')).toBe(fleet);
    expect(replaceFabric(fleet, 'f1', 'f9')).toBe(fleet);
    expect(replaceFabric(fleet, 'f9', 'f1')).toBe(fleet);
    expect(replaceFabric(fleet, 'f3', 'f1')).toBe(fleet);
    expect(replaceFabric(fleet, 'f1', 'f3', 'b3')).toBe(fleet);
  });
});

describe('two fabrics change places', () => {
  it('everywhere, or in one block only', () => {
    const everywhere = swapFabrics(fleet, 'f1', 'f2');
    expect([laid(everywhere, 'b1'), laid(everywhere, 'b2')]).toEqual([
      ['f2', 'f1'],
      ['f2', 'f1'],
    ]);
    expect(laid(swapFabrics(fleet, 'f1', 'f2', 'b1'), 'b2')).toEqual(['f1', 'f2']);
  });

  it('twice is as before, and also with one that is not laid', () => {
    expect(swapFabrics(swapFabrics(fleet, 'f1', 'f2'), 'f2', 'f1')).toEqual(fleet);
    expect(laid(swapFabrics(fleet, 'f3', 'f1'), 'b1')).toEqual(['f3', 'f2']);
    expect(swapFabrics(fleet, 'f1', 'f9')).toBe(fleet);
    expect(swapFabrics(fleet, 'f2', 'f2')).toBe(fleet);
  });
});
