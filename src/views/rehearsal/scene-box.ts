import { foldedOver, towards } from '../../geometry/fold.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { type Box, boxOf, centroid } from '../../geometry/ring.ts';
import type { Join, Patch, PiecingPlan } from '../../piecing/plan.ts';
import type { RehearsalStep } from '../../piecing/rehearsal.ts';
import { laidCloth } from './cloth.ts';
import { planBox, shifted } from './view.ts';

/** How far new cloth comes in from, in allowances. */
export const COMES_FROM = 3;
/** How far a unit comes in from, and the parts of a set-in seam stand apart while it is pinned. Inches. */
export const APART_IN = 0.75;

/** A foundation that would be shown so many times as large on its own is shown on its own. */
const WORTH_ZOOMING = 1.35;

/** Every place a piece of cloth is at from when it comes in until it is folded over. */
function waysOf(patch: Patch, allowance: number): readonly Ring[] {
  const laid = laidCloth(patch, allowance);
  if (patch.seam === null) return [laid, laid.map((at) => shifted(at, [0, -1], COMES_FROM * allowance))];
  const turned = foldedOver(laid, patch.seam, -1);
  const n = towards(patch.seam, centroid(turned));
  return [laid, turned, turned.map((at) => shifted(at, n, COMES_FROM * allowance))];
}

function ringsOfJoin(plan: PiecingPlan, join: Join): readonly Ring[] {
  const of = (letters: readonly string[]): readonly Patch[] =>
    plan.patches.filter(({ section }) => letters.includes(section));
  const right = of(join.right).map(({ polygon }) => polygon);
  const left = of(join.left).map(({ polygon }) => polygon);
  const middle = centroid(right.flat());
  const n = towards(join.seam, Number.isFinite(middle[0]) ? middle : right[0]![0]!);
  const away = (rings: readonly Ring[], by: number): readonly Ring[] =>
    rings.map((ring) => ring.map((at): Point => shifted(at, n, by)));
  return join.kind === 'straight'
    ? [
        ...left,
        ...right,
        ...away(
          right.map((ring) => foldedOver(ring, join.seam, -1)),
          -APART_IN,
        ),
      ]
    : [...left, ...away(right, 2 * APART_IN)];
}

const boxes = new WeakMap<PiecingPlan, Map<string, Box>>();

/**
 * The box a step is shown in, inches: all that moves in it, and what it lies on. The steps of one foundation share
 * theirs, so that the picture stands still from one to the next; a block that is hardly larger is shown whole.
 */
export function sceneBox(plan: PiecingPlan, step: RehearsalStep, allowance: number): Box {
  const ofPlan = boxes.get(plan) ?? new Map<string, Box>();
  boxes.set(plan, ofPlan);
  const key = `${step.kind === 'join' ? `join ${step.join.step}` : step.section} ${allowance}`;
  const known = ofPlan.get(key);
  if (known !== undefined) return known;
  const made = grown(boxFor(plan, step, allowance), allowance);
  ofPlan.set(key, made);
  return made;
}

function boxFor(plan: PiecingPlan, step: RehearsalStep, allowance: number): Box {
  const rings =
    step.kind === 'join'
      ? ringsOfJoin(plan, step.join)
      : plan.patches
          .filter(({ section }) => section === step.section)
          .flatMap((patch) => [patch.polygon, ...waysOf(patch, allowance)]);
  const started =
    step.kind === 'join' ? [] : (plan.sections.find(({ letter }) => letter === step.section)?.outline ?? []);
  const own = boxOf([...rings.flat(), ...started]);
  const block = planBox(plan);
  const both = boxOf([...cornersOf(own), ...cornersOf(block)]);
  return extentOf(both) >= WORTH_ZOOMING * extentOf(own) ? own : both;
}

const cornersOf = ({ minX, minY, maxX, maxY }: Box): Ring => [
  [minX, minY],
  [maxX, maxY],
];

const extentOf = ({ minX, minY, maxX, maxY }: Box): number => Math.max(maxX - minX, maxY - minY);

const grown = ({ minX, minY, maxX, maxY }: Box, by: number): Box => ({
  minX: minX - by,
  minY: minY - by,
  maxX: maxX + by,
  maxY: maxY + by,
});
