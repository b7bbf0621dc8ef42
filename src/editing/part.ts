import { addCuts, type NewCut } from '../document/edit-cuts.ts';
import { addFabric } from '../document/edit-fabrics.ts';
import { paintPatches } from '../document/edit-paint.ts';
import { findBlock } from '../document/find.ts';
import { nextFabricId } from '../document/ids.ts';
import { type EnteredPatch, knownDrawing } from '../document/known-drawing.ts';
import { CUTS_PER_BLOCK, checkName, cleanPoint, isColor } from '../document/limits.ts';
import type { Block, Cut, Fabric, Project } from '../document/project.ts';
import { holdsPoint } from '../geometry/inner-spot.ts';
import { TOUCH_IN } from '../geometry/lattice.ts';
import type { Point, Ring, Segment } from '../geometry/point.ts';
import { type Box, boxOf, distanceToSegment, signedArea } from '../geometry/ring.ts';
import { edgesOf } from '../geometry/segments.ts';

/** A part of a drawing: cuts, and the fabrics of what they enclose. It is copied, pasted, and kept as a motif. */
export interface Part {
  readonly cuts: readonly NewCut[];
  readonly patches: readonly PartPatch[];
  readonly fabrics: readonly PartFabric[];
}

export interface PartPatch {
  readonly ring: Ring;
  /** Its place among the part's fabrics. */
  readonly fabric: number;
  /** It ends at the outline, so that it is more ground than figure: laid only where nothing is drawn yet. */
  readonly isGround?: boolean;
}

export type PartFabric = Pick<Fabric, 'name' | 'color'>;

/** The chosen cuts with the fabrics of the patches they enclose; of a whole drawing, also of those at the outline. */
export function partOfCuts(block: Block, fabrics: readonly Fabric[], cutIds: readonly string[]): Part {
  const chosen = new Set(cutIds);
  const cuts = block.cuts.filter(({ id }) => chosen.has(id));
  const lines = cuts.map(({ from, to }): Segment => [from, to]);
  const edges = cuts.length === block.cuts.length ? edgesOf(block.outline) : [];
  const isWithin = (patch: EnteredPatch, sides: readonly Segment[]): boolean =>
    edgesOf(patch.area.polygon).every((edge) => sides.some((side) => liesOn(edge, side)));
  const patches = (knownDrawing(block)?.patches ?? []).filter((patch) =>
    isWithin(patch, [...lines, ...edges]),
  );
  return {
    cuts: cuts.map(bare),
    ...clothOf(patches, fabrics, (patch) => !isWithin(patch, lines)),
  };
}

/** A patch with its fabric, its sides as cuts. Null where no patch holds the place. */
export function partOfPatch(block: Block, fabrics: readonly Fabric[], at: Point): Part | null {
  const patch = knownDrawing(block)?.patches.find(({ area }) => holdsPoint(area, at));
  if (patch === undefined) return null;
  const cuts = edgesOf(patch.area.polygon).map(([from, to]): NewCut => ({ from, to, role: 'auto' }));
  return { cuts, ...clothOf([patch], fabrics, () => false) };
}

const bare = ({ from, to, role }: Cut): NewCut => ({ from, to, role });

const liesOn = (edge: Segment, line: Segment): boolean =>
  edge.every((end) => distanceToSegment(end, ...line) <= TOUCH_IN);

function clothOf(
  patches: readonly EnteredPatch[],
  all: readonly Fabric[],
  isGround: (patch: EnteredPatch) => boolean,
): Pick<Part, 'patches' | 'fabrics'> {
  const used: Fabric[] = [];
  const laid = patches.flatMap((patch): readonly PartPatch[] => {
    const { area, entry } = patch;
    const fabric = all.find(({ id }) => id === entry.fabric);
    if (fabric === undefined) return [];
    if (!used.includes(fabric)) used.push(fabric);
    const ground = isGround(patch) ? { isGround: true } : {};
    return [{ ring: area.polygon, fabric: used.indexOf(fabric), ...ground }];
  });
  return { patches: laid, fabrics: used.map(({ name, color }) => ({ name, color })) };
}

/** The box round the cuts of a part. */
export const boxOfPart = ({ cuts }: Part): Box => boxOf(cuts.flatMap(({ from, to }) => [from, to]));

/** The part with every place taken elsewhere. */
export const movedPart = (part: Part, move: (point: Point) => Point): Part => ({
  ...part,
  cuts: part.cuts.map(({ from, to, ...rest }) => ({ ...rest, from: move(from), to: move(to) })),
  patches: part.patches.map((patch) => ({ ...patch, ring: patch.ring.map(move) })),
});

/** The part so wide, inches, its middle at a place. */
export function partAt(part: Part, width: number, middle: Point): Part {
  const { minX, minY, maxX, maxY } = boxOfPart(part);
  const factor = maxX > minX ? width / (maxX - minX) : 1;
  return movedPart(part, ([x, y]) => [
    middle[0] + (x - (minX + maxX) / 2) * factor,
    middle[1] + (y - (minY + maxY) / 2) * factor,
  ]);
}

/**
 * Draws a part into a block and lays its fabrics on whatever comes to lie wholly within its patches; fabrics that the
 * project does not have are added to it. What the block cannot hold is passed over.
 */
export function placePart(project: Project, blockId: string, part: Part): Project {
  const drawn = addCuts(project, blockId, part.cuts);
  if (drawn === project) return project;
  const isEmpty = findBlock(project, blockId)?.cuts.length === 0;
  return layCloth(
    drawn,
    blockId,
    isEmpty ? part : { ...part, patches: part.patches.filter(({ isGround }) => isGround !== true) },
  );
}

/** Lays the fabrics of a part on the patches that lie wholly within its own, each after the smallest that holds it. */
function layCloth(project: Project, blockId: string, part: Part): Project {
  const { ids, project: withFabrics } = fabricsFor(project, part.fabrics);
  const bySize = part.patches.toSorted((a, b) => areaOf(a) - areaOf(b));
  const spots = new Map<string, Point[]>();
  for (const { area, entry } of knownDrawing(findBlock(withFabrics, blockId)!)?.patches ?? []) {
    const id = ids[bySize.find(({ ring }) => liesWithin(area.polygon, ring))?.fabric ?? -1];
    if (id !== undefined) spots.set(id, [...(spots.get(id) ?? []), entry.at]);
  }
  return [...spots].reduce((now, [id, at]) => paintPatches(now, blockId, at, id), withFabrics);
}

const areaOf = ({ ring }: PartPatch): number => Math.abs(signedArea(ring));

/** What an edit that copies cuts by moves of the plane makes, with the fabrics of what they enclose copied along. */
export function withCloth(
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  moves: readonly ((point: Point) => Point)[],
  copy: (project: Project) => Project,
): Project {
  const copied = copy(project);
  const block = findBlock(project, blockId);
  if (copied === project || block === null) return copied;
  const part = partOfCuts(block, project.fabrics, cutIds);
  const figure = { ...part, patches: part.patches.filter(({ isGround }) => isGround !== true) };
  return moves.reduce((now, move) => layCloth(now, blockId, movedPart(figure, move)), copied);
}

/** Corners may lie on the ring; a patch with a corner in each of two notches is told by its middle. */
function liesWithin(polygon: Ring, ring: Ring): boolean {
  const area = { polygon: ring, holes: [] };
  const edges = edgesOf(ring);
  const isWithin = (at: Point): boolean =>
    edges.some((edge) => distanceToSegment(at, ...edge) <= 2 * TOUCH_IN) || holdsPoint(area, at);
  return edgesOf(polygon).every(([a, b]) => isWithin(a) && isWithin([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]));
}

/** Ids of a part's fabrics in a project, those it lacks added: the same name and colour, else the same colour. */
function fabricsFor(
  project: Project,
  wanted: readonly PartFabric[],
): { readonly ids: readonly (string | undefined)[]; readonly project: Project } {
  let now = project;
  const ids = wanted.map(({ name, color }) => {
    const alike = now.fabrics.filter((fabric) => fabric.color === color.toLowerCase());
    const known = alike.find((fabric) => fabric.name === name) ?? alike[0];
    if (known !== undefined) return known.id;
    const id = nextFabricId(now);
    const more = addFabric(now, { name, color });
    if (more === now) return undefined;
    now = more;
    return id;
  });
  return { ids, project: now };
}

const FORMAT = 'underpaper-cuts';

/** Cuts and fabrics as text, to be carried from block to block, and from window to window. */
export const partToText = (part: Part): string => JSON.stringify({ format: FORMAT, ...part });

/** The part in a text, or null when it holds none; every point on the lattice and within bounds. */
export function partFromText(text: string): Part | null {
  // Whatever is far longer than all the cuts a block may have is not worth reading.
  if (text.length > CUTS_PER_BLOCK * 1000 || !text.includes(FORMAT)) return null;
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return null;
  }
  return isRecord(json) && json.format === FORMAT ? readPart(json) : null;
}

/** A part from what was written out; fabrics and patches that make no sense are left out, cuts must all do. */
export function readPart(json: Readonly<Record<string, unknown>>): Part | null {
  if (!Array.isArray(json.cuts) || json.cuts.length > CUTS_PER_BLOCK) return null;
  const cuts = json.cuts.map(readCut);
  if (cuts.length === 0 || !cuts.every((cut) => cut !== null)) return null;
  const fabrics = Array.isArray(json.fabrics) ? json.fabrics.map(readFabric) : [];
  if (!fabrics.every((fabric) => fabric !== null)) return { cuts, patches: [], fabrics: [] };
  const patches = (Array.isArray(json.patches) ? json.patches : []).flatMap((value): readonly PartPatch[] => {
    if (!isRecord(value) || !Array.isArray(value.ring)) return [];
    const ring = value.ring.map(readPoint);
    const { fabric } = value;
    return typeof fabric === 'number' &&
      fabrics[fabric] !== undefined &&
      ring.length > 2 &&
      ring.every((at) => at !== null)
      ? [{ ring, fabric, ...(value.isGround === true ? { isGround: true } : {}) }]
      : [];
  });
  return { cuts, patches, fabrics };
}

function readCut(value: unknown): NewCut | null {
  if (!isRecord(value)) return null;
  const from = readPoint(value.from);
  const to = readPoint(value.to);
  const { role } = value;
  if (from === null || to === null) return null;
  return { from, to, role: role === 'join' || role === 'seam' ? role : 'auto' };
}

function readFabric(value: unknown): PartFabric | null {
  if (!isRecord(value) || typeof value.name !== 'string' || typeof value.color !== 'string') return null;
  const name = checkName(value.name);
  return name.ok && isColor(value.color) ? { name: name.value, color: value.color.toLowerCase() } : null;
}

function readPoint(value: unknown): Point | null {
  if (!Array.isArray(value) || value.length !== 2) return null;
  const [x, y] = value as readonly unknown[];
  return typeof x === 'number' && typeof y === 'number' ? cleanPoint([x, y]) : null;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;
