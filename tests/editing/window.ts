import type { Block, Project } from '../../src/document/project.ts';

/** A lighthouse keeper's window: a 12 in square with one level cut at 4 in. */
export const WINDOW: Block = {
  id: 'b1',
  name: 'Keeper’s window',
  outline: [
    [0, 0],
    [12, 0],
    [12, 12],
    [0, 12],
  ],
  cuts: [{ id: 'c1', from: [0, 4], to: [12, 4], role: 'auto' }],
  patches: [],
};

export const projectWith = (block: Block): Project => ({
  name: 'Harbour sampler',
  unit: 'in',
  seamAllowance: 0.25,
  fabrics: [
    { id: 'f1', name: 'Night sea', color: '#1d3557' },
    { id: 'f2', name: 'Fog', color: '#d9dee2' },
  ],
  blocks: [block],
});
