import { type Block, DEFAULT_SEAM_ALLOWANCE_IN, type Project } from '../../src/document/project.ts';

/** Frozen all through, so that an edit that changes its input throws. */
export function frozen<Value>(value: Value): Value {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const inner of Object.values(value)) frozen(inner);
  }
  return value;
}

/** A 12 in square parted into quarters: c1 across, c2 down. Night sea lies top left, sand bottom right. */
export const quarters: Block = frozen({
  id: 'b1',
  name: 'Harbour window',
  outline: [
    [0, 0],
    [12, 0],
    [12, 12],
    [0, 12],
  ],
  cuts: [
    { id: 'c1', from: [0, 6], to: [12, 6], role: 'auto' },
    { id: 'c2', from: [6, 0], to: [6, 12], role: 'auto' },
  ],
  patches: [
    { id: 'p1', at: [3, 3], fabric: 'f1' },
    { id: 'p2', at: [9, 9], fabric: 'f2' },
    { id: 'p3', at: [9, 3] },
    { id: 'p4', at: [3, 9] },
  ],
});

export const harbour: Project = frozen({
  name: 'Harbour sampler',
  unit: 'in',
  seamAllowance: DEFAULT_SEAM_ALLOWANCE_IN,
  fabrics: [
    { id: 'f1', name: 'Night sea', color: '#1d3557' },
    { id: 'f2', name: 'Sand', color: '#e9e4d8' },
    { id: 'f3', name: 'Signal red', color: '#a6322b' },
  ],
  blocks: [quarters, { ...quarters, id: 'b2', name: 'Ferry', cuts: [], patches: [{ id: 'p1', at: [6, 6] }] }],
});

export const blockOf = (project: Project, id = 'b1'): Block => {
  const block = project.blocks.find((one) => one.id === id);
  if (block === undefined) throw new Error(`No block ${id}.`);
  return block;
};
