/**
 * A place in the plane, `[x, y]`. Inside the project: inches, y down, the block seen from its front (the
 * finished side), on the lattice of `lattice.ts`. The same pair is what the file and the JSON report hold.
 */
export type Point = readonly [x: number, y: number];

/** A straight stretch between two points. */
export type Segment = readonly [from: Point, to: Point];

/** A closed outline without its closing repeat. Faces turn so that their shoelace area is positive. */
export type Ring = readonly Point[];
