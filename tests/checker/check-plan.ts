import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import type { Join, Patch, PiecingPlan, Section, Verdict } from '../../src/piecing/plan.ts';
import { checkTopology } from './check-edges.ts';
import {
  along,
  asOneStretch,
  boxesApart,
  boxOf,
  distanceFromBoundary,
  distanceFromLine,
  edgesCross,
  edgesOf,
  insideShape,
  lengthOf,
  pointInside,
  sameStretch,
  shapeArea,
  sharedBoundary,
  signedArea,
  TENTH_MM_IN,
} from './shared-boundary.ts';

/** Longest plain stretch of a join between two registration points (common practice: a mark every 3-4 in). */
const LONGEST_GAP_IN = 4;
const LATTICE_STEP_IN = 1 / 65536;

const text = (p: Point): string => `(${p[0].toFixed(4)}, ${p[1].toFixed(4)})`;

/** All shared boundary of a plan's patches, measured once: `between(a, b)` as pieces of edges. */
export class Neighbourhood {
  private readonly pieces = new Map<number, Segment[]>();

  constructor(private readonly patches: readonly Patch[]) {
    const boxes = patches.map((patch) => boxOf(patch.polygon));
    for (let i = 0; i < patches.length; i++) {
      for (let j = 0; j < i; j++) {
        if (boxesApart(boxes[i]!, boxes[j]!, LATTICE_STEP_IN)) continue;
        const pieces = sharedBoundary(patches[i]!, patches[j]!);
        if (pieces.length > 0) this.pieces.set(i * patches.length + j, pieces);
      }
    }
  }

  /** Pieces of edges that patches number `i` and `j` share. */
  between(i: number, j: number): readonly Segment[] {
    return this.pieces.get(i > j ? i * this.patches.length + j : j * this.patches.length + i) ?? [];
  }

  /** Pieces of edges that any of `some` shares with any of `others`. */
  betweenAll(some: readonly number[], others: readonly number[]): Segment[] {
    return some.flatMap((i) => others.flatMap((j) => this.between(i, j)));
  }

  /** Numbers of the patches that share a stretch with `i`. */
  of(i: number): number[] {
    return this.patches.map((_, j) => j).filter((j) => j !== i && this.between(i, j).length > 0);
  }

  /** Does every one of `some` reach every other over shared boundary without leaving them? */
  connected(some: readonly number[]): boolean {
    const waiting = new Set(some);
    const next = some.slice(0, 1);
    waiting.delete(some[0]!);
    while (next.length > 0) {
      const i = next.pop()!;
      for (const j of waiting) {
        if (this.between(i, j).length === 0) continue;
        waiting.delete(j);
        next.push(j);
      }
    }
    return waiting.size === 0;
  }
}

/**
 * The independent check of a piecing plan. It stands on one sentence: in a section's order, all the boundary
 * that patch k shares with the earlier patches is one straight, unbroken stretch; and on the same sentence one
 * level up for joins. It measures overlap of edges and nothing else.
 * Result: one sentence for each fault, empty for a plan that can be sewn as it says.
 */
export function checkPlan(block: Block, plan: PiecingPlan): string[] {
  if (plan.verdict === 'broken') return checkBroken(plan);
  const faults: string[] = [];
  if (plan.patches.length === 0) return ['the plan has no patches and is not called broken'];
  const around = new Neighbourhood(plan.patches);
  faults.push(...checkPolygons(block, plan));
  faults.push(...checkEdges(block, plan));
  faults.push(...checkTopology(block, plan));
  faults.push(...checkNeighbours(plan, around));
  faults.push(...checkSections(plan, around));
  faults.push(...checkOrder(plan, around));
  faults.push(...checkJoins(plan, around));
  faults.push(...checkVerdict(plan));
  faults.push(...checkRoles(block, plan, around));
  faults.push(...checkHandOrders(block, plan));
  faults.push(...checkPaint(block, plan));
  faults.push(...checkFindings(plan));
  return faults;
}

function checkBroken(plan: PiecingPlan): string[] {
  const faults: string[] = [];
  if (plan.patches.length + plan.sections.length + plan.joins.length + plan.edges.length > 0) {
    faults.push('a broken block has patches, sections, joins or edges');
  }
  if (!plan.findings.some((finding) => finding.severity === 'trouble')) {
    faults.push('a broken block does not say why');
  }
  return [...faults, ...checkFindings(plan)];
}

/** Areas add up to the outline, patches do not overlap, rings turn the agreed way. */
function checkPolygons(block: Block, plan: PiecingPlan): string[] {
  const faults: string[] = [];
  for (const patch of plan.patches) {
    if (patch.polygon.length < 3) faults.push(`${patch.id} has fewer than three corners`);
    if (!(signedArea(patch.polygon) > 0)) faults.push(`${patch.id} turns the wrong way or has no area`);
    if (patch.holes.some((hole) => !(signedArea(hole) < 0)))
      faults.push(`${patch.id} has a hole that turns its way`);
  }
  const whole = Math.abs(signedArea(block.outline));
  const parts = plan.patches.reduce((sum, patch) => sum + shapeArea(patch), 0);
  const rim = edgesOf({ polygon: block.outline, holes: [] }).reduce((sum, edge) => sum + lengthOf(edge), 0);
  if (Math.abs(whole - parts) > rim * LATTICE_STEP_IN + bentAway(block.outline, plan)) {
    faults.push(`patch areas sum to ${parts}, the outline holds ${whole}`);
  }
  const edges = plan.patches.map((patch) => edgesOf(patch).map((edge) => ({ edge, box: boxOf(edge) })));
  const boxes = plan.patches.map((patch) => boxOf(patch.polygon));
  const inner = plan.patches.map((patch) => pointInside(patch));
  plan.patches.forEach((a, i) => {
    plan.patches.forEach((b, j) => {
      if (i === j || boxesApart(boxes[i]!, boxes[j]!, 0)) return;
      if (insideShape(inner[i]!, b)) faults.push(`${a.id} and ${b.id} overlap at ${text(inner[i]!)}`);
      if (j > i) return;
      for (const mine of edges[i]!) {
        for (const theirs of edges[j]!) {
          if (!boxesApart(mine.box, theirs.box, 0) && edgesCross(mine.edge, theirs.edge)) {
            faults.push(`${a.id} and ${b.id} cross near ${text(mine.edge[0])}`);
          }
        }
      }
    });
  });
  return faults;
}

/** Each edge is another patch's edge turned round, or part of the outline: vertices are shared exactly. */
function checkEdges(block: Block, plan: PiecingPlan): string[] {
  const faults: string[] = [];
  const key = ([a, b]: Segment): string => `${a[0]},${a[1]};${b[0]},${b[1]}`;
  const owners = new Map<string, string>();
  for (const patch of plan.patches) {
    for (const edge of edgesOf(patch)) {
      const other = owners.get(key(edge));
      if (other !== undefined)
        faults.push(`${patch.id} and ${other} both have the edge from ${text(edge[0])}`);
      owners.set(key(edge), patch.id);
    }
  }
  const rim = edgesOf({ polygon: block.outline, holes: [] });
  const onRim = (p: Point): boolean =>
    rim.some(([a, b]) => {
      const t = along(p, a, b);
      return (
        t >= -TENTH_MM_IN && t <= lengthOf([a, b]) + TENTH_MM_IN && distanceFromLine(p, a, b) <= TENTH_MM_IN
      );
    });
  for (const patch of plan.patches) {
    for (const [a, b] of edgesOf(patch)) {
      if (owners.has(key([b, a]))) continue;
      if (!onRim(a) || !onRim(b))
        faults.push(`${patch.id} has an edge from ${text(a)} to ${text(b)} that nobody shares`);
    }
  }
  return faults;
}

function checkNeighbours(plan: PiecingPlan, around: Neighbourhood): string[] {
  const faults: string[] = [];
  plan.patches.forEach((patch, i) => {
    const found = around.of(i).map((j) => plan.patches[j]!.id);
    const told = [...patch.neighbours];
    if (found.sort().join() !== told.sort().join()) {
      faults.push(`${patch.id} names the neighbours [${told.join()}], its edges lie on [${found.join()}]`);
    }
  });
  return faults;
}

/** A, B, … Z, AA, AB … */
function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}

/** Every patch in exactly one section, lettered and numbered as agreed, each section in one piece. */
function checkSections(plan: PiecingPlan, around: Neighbourhood): string[] {
  const faults: string[] = [];
  const numberOf = new Map(plan.patches.map((patch, i) => [patch.id, i]));
  if (numberOf.size !== plan.patches.length) faults.push('two patches have the same id');
  const seen = new Set<string>();
  plan.sections.forEach((section, s) => {
    if (section.letter !== letterOf(s)) faults.push(`section ${s + 1} is lettered ${section.letter}`);
    if (section.order.length === 0) faults.push(`section ${section.letter} is empty`);
    for (const [k, id] of section.order.entries()) {
      if (seen.has(id)) faults.push(`${id} is ordered twice`);
      seen.add(id);
      const patch = plan.patches[numberOf.get(id) ?? -1];
      if (!patch) {
        faults.push(`section ${section.letter} orders ${id}, which is no patch`);
        continue;
      }
      if (patch.section !== section.letter) faults.push(`${id} says it is in ${patch.section}`);
      // A finished unit that the paper starts from is its position 1.
      const position = k + (section.startsFrom.length > 0 ? 2 : 1);
      if (patch.position !== position) {
        faults.push(`${id} comes at position ${position}, it says ${patch.position}`);
      }
      if (id !== `${section.letter}${position}`) {
        faults.push(`${id} should be called ${section.letter}${position}`);
      }
    }
    const members = [
      ...membersOf(plan, section.startsFrom),
      ...section.order.flatMap((id) => numberOf.get(id) ?? []),
    ];
    if (members.length > 0 && !around.connected(members))
      faults.push(`section ${section.letter} is in pieces`);
    const covered = members.reduce((sum, i) => sum + shapeArea(plan.patches[i]!), 0);
    if (!(signedArea(section.outline) > 0)) faults.push(`section ${section.letter} turns the wrong way`);
    if (section.holes.some((hole) => !(signedArea(hole) < 0))) {
      faults.push(`section ${section.letter} has a hole that turns its way`);
    }
    const outlined = shapeArea({ polygon: section.outline, holes: section.holes });
    if (Math.abs(outlined - covered) > 1e-6) {
      faults.push(
        `section ${section.letter} is outlined with ${outlined} sq in, its patches cover ${covered}`,
      );
    }
  });
  for (const patch of plan.patches) if (!seen.has(patch.id)) faults.push(`${patch.id} is in no section`);
  const listed = plan.sections.flatMap((section) => section.order).join();
  if (plan.patches.map((patch) => patch.id).join() !== listed)
    faults.push('patches are not listed in sewing order');
  return faults;
}

/**
 * The sentence itself: what patch k shares with the earlier ones is one straight, unbroken stretch: its seam.
 * Where a paper starts from a finished unit, that unit is there before all its patches.
 */
function checkOrder(plan: PiecingPlan, around: Neighbourhood): string[] {
  const faults: string[] = [];
  for (const section of plan.sections) {
    const members = membersOf(plan, [section.letter]);
    const unit = membersOf(plan, section.startsFrom);
    for (const i of members) {
      const patch = plan.patches[i]!;
      const earlier = [...unit, ...members.filter((j) => plan.patches[j]!.position < patch.position)];
      if (patch.position === 1) {
        if (patch.seam !== null) faults.push(`${patch.id} is first and has a seam`);
        continue;
      }
      const shared = asOneStretch(around.betweenAll([i], earlier));
      if (shared.kind === 'none') faults.push(`${patch.id} touches nothing sewn before it`);
      else if (shared.kind !== 'straight')
        faults.push(`the boundary of ${patch.id} with what is sewn is ${shared.kind}`);
      else if (patch.seam === null) faults.push(`${patch.id} has no seam`);
      else if (!sameStretch(patch.seam, shared.stretch)) {
        faults.push(
          `the seam of ${patch.id} runs from ${text(patch.seam[0])} to ${text(patch.seam[1])}, its edges from ${text(shared.stretch[0])} to ${text(shared.stretch[1])}`,
        );
      }
    }
  }
  return faults;
}

/**
 * Joins unite existing units two by two until one is left; each along what the two really share. A paper that
 * starts from a unit takes that unit in as soon as it is there.
 */
function checkJoins(plan: PiecingPlan, around: Neighbourhood): string[] {
  const faults: string[] = [];
  const key = (letters: readonly string[]): string => [...letters].sort().join(' ');
  const isFresh = (section: Section): boolean => section.startsFrom.length === 0;
  const units = new Set(plan.sections.filter(isFresh).map((section) => key([section.letter])));
  const waiting = new Set(plan.sections.filter((section) => !isFresh(section)));
  const sewOnUnits = (): void => {
    for (const section of waiting) {
      if (!units.delete(key(section.startsFrom))) continue;
      units.add(key([...section.startsFrom, section.letter]));
      waiting.delete(section);
      sewOnUnits();
      return;
    }
  };
  sewOnUnits();
  const labels = new Set<string>();
  plan.joins.forEach((join, n) => {
    if (join.step !== n + 1) faults.push(`join ${n + 1} calls itself step ${join.step}`);
    for (const side of [join.left, join.right]) {
      if (!units.delete(key(side)))
        faults.push(`step ${join.step} joins [${side.join()}], which is no finished unit`);
    }
    units.add(key([...join.left, ...join.right]));
    sewOnUnits();
    for (const point of join.points) {
      if (labels.has(point.label)) faults.push(`two registration points are labelled ${point.label}`);
      labels.add(point.label);
      if (!new RegExp(`^${join.step}[a-z]+$`).test(point.label))
        faults.push(`step ${join.step} has a point labelled ${point.label}`);
    }
    faults.push(...checkJoin(plan, around, join));
  });
  for (const section of waiting) {
    faults.push(
      `section ${section.letter} starts from [${section.startsFrom.join()}], which is no finished unit`,
    );
  }
  if (units.size !== 1) faults.push(`${units.size} units are left when all joins are sewn`);
  return faults;
}

function checkJoin(plan: PiecingPlan, around: Neighbourhood, join: Join): string[] {
  const faults: string[] = [];
  const name = `step ${join.step}`;
  const left = membersOf(plan, join.left);
  const right = membersOf(plan, join.right);
  const pieces = around.betweenAll(left, right);
  const shared = asOneStretch(pieces);
  if (shared.kind === 'none') return [`${name} joins units that do not touch`];
  if (join.stretches.length === 0) return [`${name} has no stretches`];
  if (join.kind === 'straight') {
    if (shared.kind !== 'straight')
      faults.push(`${name} is called straight, its units meet along a ${shared.kind} line`);
    else if (!sameStretch(join.seam, shared.stretch)) {
      faults.push(
        `the seam of ${name} runs from ${text(join.seam[0])} to ${text(join.seam[1])}, its units meet from ${text(shared.stretch[0])} to ${text(shared.stretch[1])}`,
      );
    }
    if (join.stretches.length !== 1 || !sameStretch(join.stretches[0]!, join.seam))
      faults.push(`${name} is straight but its stretch is not its seam`);
  } else {
    if (shared.kind === 'straight')
      faults.push(`${name} is called set-in, its units meet along one straight line`);
    const told = join.stretches.reduce((sum, stretch) => sum + lengthOf(stretch), 0);
    const real = pieces.reduce((sum, piece) => sum + lengthOf(piece), 0);
    if (Math.abs(told - real) > TENTH_MM_IN * (join.stretches.length + 1)) {
      faults.push(`the stretches of ${name} are ${told} in long, its units share ${real} in`);
    }
  }
  if (join.kind === 'partial') faults.push(...checkPartial(plan, join, pieces));
  for (const piece of pieces) {
    if (!join.stretches.some((stretch) => liesOn(piece[0], stretch) && liesOn(piece[1], stretch))) {
      faults.push(`${name} leaves out the stretch from ${text(piece[0])} to ${text(piece[1])}`);
    }
  }
  faults.push(...checkPoints(join, around, left, right));
  return faults;
}

/**
 * A partial join: two straight stretches, one of which goes straight on from an earlier seam that was left open there. All
 * of that line has one unit of the earlier seam on the one side.
 */
function checkPartial(plan: PiecingPlan, join: Join, pieces: readonly Segment[]): string[] {
  const name = `step ${join.step}`;
  const begun = plan.joins.find(({ step }) => step === join.finishes?.step);
  if (!join.finishes || !begun || begun.step >= join.step || begun.kind !== 'straight')
    return [`${name} finishes no straight seam sewn before it`];
  const { rest } = join.finishes;
  const onRest = pieces.filter((piece) => piece.every((end) => liesOn(end, rest)));
  const others = pieces.filter((piece) => !onRest.includes(piece));
  const faults: string[] = [];
  if (asOneStretch(others).kind !== 'straight')
    faults.push(`${name} is not straight besides the rest it finishes`);
  if (asOneStretch([...onRest, begun.seam]).kind !== 'straight')
    faults.push(`the rest of ${name} does not go straight on from step ${begun.step}`);
  if (begun.leftOpen?.step !== join.step) faults.push(`step ${begun.step} is not left open for ${name}`);
  return faults;
}

const membersOf = (plan: PiecingPlan, letters: readonly string[]): number[] =>
  plan.patches.flatMap((patch, i) => (letters.includes(patch.section) ? [i] : []));

function liesOn(p: Point, [a, b]: Segment): boolean {
  const t = along(p, a, b);
  return t >= -TENTH_MM_IN && t <= lengthOf([a, b]) + TENTH_MM_IN && distanceFromLine(p, a, b) <= TENTH_MM_IN;
}

/**
 * Distances along a stretch at which one side's seams meet it: wherever one patch's share of the stretch ends
 * and another's begins.
 */
function meetings(
  stretch: Segment,
  around: Neighbourhood,
  side: readonly number[],
  other: readonly number[],
): number[] {
  const [a, b] = stretch;
  const spans = side
    .flatMap((i) => {
      const mine = around
        .betweenAll([i], other)
        .filter(([p, q]) => liesOn(p, stretch) && liesOn(q, stretch))
        .map(([p, q]) => [along(p, a, b), along(q, a, b)].sort((s, t) => s - t) as [number, number])
        .sort((s, t) => s[0] - t[0]);
      const merged: [number, number][] = [];
      for (const span of mine) {
        const last = merged.at(-1);
        if (last && span[0] <= last[1] + LATTICE_STEP_IN) last[1] = Math.max(last[1], span[1]);
        else merged.push([...span]);
      }
      return merged;
    })
    .sort((s, t) => s[0] - t[0]);
  return spans.slice(1).map(([from], k) => (from + spans[k]![1]) / 2);
}

/**
 * Registration points lie on the seam in turn, ends included, no further apart than 4 in, and are called what
 * they are. Spots closer than 0.1 mm may be told as one or as two.
 */
function checkPoints(
  join: Join,
  around: Neighbourhood,
  left: readonly number[],
  right: readonly number[],
): string[] {
  const faults: string[] = [];
  const name = `step ${join.step}`;
  const strays = join.points.filter((point) => !join.stretches.some((stretch) => liesOn(point.at, stretch)));
  for (const point of strays) faults.push(`point ${point.label} of ${name} is off the seam`);
  let reached = 0;
  let previous = Number.NEGATIVE_INFINITY;
  for (const point of join.points) {
    // Points come in the turn of the stretches, and on each stretch in the turn from its first end to its second.
    let base = 0;
    const places = join.stretches.flatMap((stretch) => {
      const start = base;
      base += lengthOf(stretch);
      return liesOn(point.at, stretch) ? [start + along(point.at, stretch[0], stretch[1])] : [];
    });
    const place = places.find((p) => p >= previous - TENTH_MM_IN);
    if (places.length > 0 && place === undefined)
      faults.push(`point ${point.label} of ${name} is out of turn`);
    previous = place ?? previous;
    reached = Math.max(reached, previous);
  }
  join.stretches.forEach((stretch, s) => {
    const length = lengthOf(stretch);
    const here = join.points
      .filter((point) => liesOn(point.at, stretch))
      .map((point) => ({ point, t: along(point.at, stretch[0], stretch[1]) }))
      .sort((p, q) => p.t - q.t);
    const where = join.stretches.length > 1 ? `${name}, stretch ${s + 1}` : name;
    const isEnd = (at: number): boolean =>
      here.some(({ point, t }) => point.kind === 'end' && Math.abs(t - at) <= TENTH_MM_IN);
    if (!isEnd(0)) faults.push(`${where} has no end point at its start`);
    if (!isEnd(length)) faults.push(`${where} has no end point at its end`);
    here.slice(1).forEach((p, k) => {
      if (p.t - here[k]!.t > LONGEST_GAP_IN + TENTH_MM_IN)
        faults.push(`${where} goes ${p.t - here[k]!.t} in without a point`);
    });
    const near = (places: readonly number[], t: number): boolean =>
      places.some((place) => Math.abs(place - t) <= TENTH_MM_IN);
    const inside = (t: number): boolean => t > TENTH_MM_IN && t < length - TENTH_MM_IN;
    const allLeft = meetings(stretch, around, left, right);
    const allRight = meetings(stretch, around, right, left);
    const fromLeft = allLeft.filter(inside);
    const fromRight = allRight.filter(inside);
    const isMatched = (at: number): boolean =>
      here.some(({ point, t }) => point.kind === 'match' && Math.abs(t - at) <= TENTH_MM_IN);
    for (const t of [...fromLeft, ...fromRight]) {
      if (
        !here.some(
          ({ point, t: at }) =>
            (point.kind === 'match' || point.kind === 'junction') && Math.abs(at - t) <= TENTH_MM_IN,
        )
      ) {
        faults.push(`${where} has no point at ${t.toFixed(4)} in, where a seam meets it`);
      }
    }
    for (const { point, t } of here.filter(({ t }) => inside(t))) {
      const meetsLeft = near(fromLeft, t);
      const meetsRight = near(fromRight, t);
      const exact = fromLeft.some(
        (l) => Math.abs(l - t) <= TENTH_MM_IN && sameSpot(fromRight, l) && !isMatched(l),
      );
      if (point.kind === 'match' && !(near(allLeft, t) && near(allRight, t)))
        faults.push(`${point.label} is called a match, one side has no seam there`);
      if (point.kind === 'junction' && !(meetsLeft || meetsRight || isTouched(point.at, around, left, right)))
        faults.push(`${point.label} is called a junction, no seam is there`);
      if (point.kind === 'junction' && exact)
        faults.push(`${point.label} is called a junction, seams of both sides meet there`);
      if (point.kind === 'guide' && (meetsLeft || meetsRight))
        faults.push(`${point.label} is called a guide, a seam is there`);
      // Where a set-in join touches itself, one stretch may end in the middle of another.
      const endsOther = join.stretches.some((other) =>
        other.some((end) => sameStretch([end, end], [point.at, point.at])),
      );
      if (point.kind === 'end' && !endsOther) {
        faults.push(`${point.label} is called an end in the middle of ${where}`);
      }
    }
  });
  return faults;
}

/**
 * Does a seam inside one of two units end at a spot, if only with one patch on both its sides, as at the tip of a square
 * let in?
 */
const isTouched = (at: Point, around: Neighbourhood, ...units: (readonly number[])[]): boolean =>
  units.some((unit) =>
    unit.some((i) =>
      around
        .betweenAll(
          [i],
          unit.filter((j) => j > i),
        )
        .some((piece) => piece.some((end) => sameStretch([end, end], [at, at]))),
    ),
  );

/**
 * An end within 0.05 mm of a line touches it, and the line bends to meet it, so that a spot of the outline lies up to
 * 0.1 mm off: the area that may be lost or won by that, square inches.
 */
function bentAway(outline: Block['outline'], plan: PiecingPlan): number {
  const spots = new Map(plan.patches.flatMap(({ polygon }) => polygon.map((at) => [`${at}`, at] as const)));
  let area = 0;
  for (const edge of edgesOf({ polygon: outline, holes: [] }))
    for (const at of spots.values()) {
      const off = distanceFromLine(at, ...edge);
      const t = along(at, ...edge);
      if (off > LATTICE_STEP_IN && off <= TENTH_MM_IN && t > 0 && t < lengthOf(edge))
        area += (off * lengthOf(edge)) / 2;
    }
  return area;
}

/** Is one of the places the very same spot, to a lattice step? */
const sameSpot = (places: readonly number[], t: number): boolean =>
  places.some((place) => Math.abs(place - t) <= 2 * LATTICE_STEP_IN);

function checkVerdict(plan: PiecingPlan): string[] {
  let expected: Verdict = 'several-foundations';
  if (plan.patches.length === 1) expected = 'undivided';
  else if (plan.sections.length === 1) expected = 'one-foundation';
  else if (plan.joins.some((join) => join.kind === 'set-in')) expected = 'set-in-seams';
  else if (plan.joins.some((join) => join.kind === 'partial')) expected = 'partial-seams';
  const faults: string[] = [];
  if (plan.verdict !== expected) faults.push(`the verdict is ${plan.verdict}, the plan is ${expected}`);
  if (plan.sections.length === 1 && !plan.fewest) faults.push('one foundation is not called the fewest');
  return faults;
}

/** Numbers of the patches that meet along a cut, pair by pair. */
export function pairsAlong(cut: Cut, patches: readonly Patch[], around: Neighbourhood): [number, number][] {
  const line: Segment = [cut.from, cut.to];
  const isOn = (piece: Segment): boolean =>
    lengthOf(piece) > TENTH_MM_IN && liesOn(piece[0], line) && liesOn(piece[1], line);
  return patches.flatMap((_, i) =>
    patches
      .slice(0, i)
      .flatMap((__, j): [number, number][] => (around.between(i, j).some(isOn) ? [[i, j]] : [])),
  );
}

/**
 * A cut kept for a join parts two sections wherever patches meet on it; one kept as a seam never does. Or else
 * the plan says that it could not be.
 */
function checkRoles(block: Block, plan: PiecingPlan, around: Neighbourhood): string[] {
  const faults: string[] = [];
  for (const cut of block.cuts) {
    if (cut.role === 'auto') continue;
    if (plan.findings.some((finding) => finding.code === 'pin-refused' && finding.cuts.includes(cut.id)))
      continue;
    for (const [i, j] of pairsAlong(cut, plan.patches, around)) {
      const [a, b] = [plan.patches[i]!, plan.patches[j]!];
      if (cut.role === 'join' && a.section === b.section)
        faults.push(`cut ${cut.id} is kept for a join, ${a.id} and ${b.id} are on one paper`);
      if (cut.role === 'seam' && a.section !== b.section)
        faults.push(`cut ${cut.id} is kept as a seam, ${a.id} and ${b.id} are on two papers`);
    }
  }
  return faults;
}

/** Within a section, patches listed in an order by hand are sewn in that order, or the plan says they are not. */
function checkHandOrders(block: Block, plan: PiecingPlan): string[] {
  if (plan.findings.some((finding) => finding.code === 'order-refused')) return [];
  const faults: string[] = [];
  const spots = new Map(block.patches.map(({ id, at }) => [id, at]));
  for (const order of block.orders ?? []) {
    const places = order.flatMap((id) => (spots.has(id) ? [spots.get(id)!] : []));
    const asked = places.flatMap((at) => plan.patches.find((patch) => insideShape(at, patch)) ?? []);
    for (const { letter, startsFrom } of plan.sections) {
      const group = asked.filter((patch) => patch.section === letter);
      group.slice(1).forEach((patch, k) => {
        const before = group[k]!;
        if (patch.position < before.position) faults.push(`${before.id} is to be sewn before ${patch.id}`);
      });
      const [only, ...more] = group;
      if (only && more.length === 0 && order.length === 1 && startsFrom.length === 0 && only.position !== 1) {
        faults.push(`${only.id} is to be sewn first`);
      }
    }
  }
  return faults;
}

/** A patch that holds one fabric's spot wears that fabric; one that holds none wears none. */
function checkPaint(block: Block, plan: PiecingPlan): string[] {
  const faults: string[] = [];
  for (const patch of plan.patches) {
    const paint = block.patches.filter(({ fabric }) => fabric !== undefined);
    const held = paint.filter(({ at }) => insideShape(at, patch));
    const unsure = paint.some(({ at }) => distanceFromBoundary(at, patch) <= TENTH_MM_IN);
    if (unsure || held.length > 1) continue;
    const expected = held[0]?.fabric ?? null;
    if (patch.fabric !== expected) faults.push(`${patch.id} wears ${patch.fabric}, its paint is ${expected}`);
  }
  return faults;
}

/** A finding can be shown: a code, a place, a sentence, and only patches that are there. */
function checkFindings(plan: PiecingPlan): string[] {
  const faults: string[] = [];
  const ids = new Set(plan.patches.map((patch) => patch.id));
  for (const finding of plan.findings) {
    if (!/^[a-z]+(-[a-z]+)*$/.test(finding.code)) faults.push(`a finding has the code ${finding.code}`);
    if (!finding.stretches.flat(2).every(Number.isFinite))
      faults.push(`${finding.code} lights up no real stretch`);
    if (!finding.at.every(Number.isFinite)) faults.push(`${finding.code} has no place`);
    if (!/^[A-Z0-9].*[.!]$/.test(finding.message))
      faults.push(`${finding.code} does not speak in a sentence: ${finding.message}`);
    for (const id of finding.patches)
      if (!ids.has(id)) faults.push(`${finding.code} names ${id}, which is no patch`);
  }
  return faults;
}
