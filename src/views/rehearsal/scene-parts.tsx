import type { ReactNode } from 'react';
import { inkOn } from '../../board/draw/contrast.ts';
import { INKS } from '../../board/draw/inks.ts';
import { labelSpot, sizeToFit } from '../../board/draw/label-spot.ts';
import { holeTrimLine, trimLine } from '../../foundations/foundation/allowance.ts';
import { towards } from '../../geometry/fold.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance, middle } from '../../geometry/ring.ts';
import type { Patch, PiecingPlan, Section } from '../../piecing/plan.ts';
import type { Cloth } from './cloth.ts';
import type { Phase } from './phases.ts';
import type { Side } from './rehearsal-state.ts';
import { lengthened, patchPath, ringsPath, shifted, stretchesPath, type View } from './view.ts';

/** What every part of a picture of the rehearsal needs to know. */
export interface Scene {
  readonly plan: PiecingPlan;
  readonly view: View;
  readonly phase: Phase;
  /** How far the phase has gone, 0 … 1. */
  readonly share: number;
  readonly side: Side;
  /** Inches. */
  readonly allowance: number;
  /** `#rrggbb` by fabric id. */
  readonly colors: ReadonlyMap<string, string>;
  /** Id of the pattern that marks the wrong side of cloth. */
  readonly hatch: string;
}

/** Cloth that has no fabric yet: darker than the paper, so that it is seen on it. */
const BARE = '#d9d0bd';

export const colorOf = ({ fabric }: Patch, colors: ReadonlyMap<string, string>): string =>
  (fabric === null ? undefined : colors.get(fabric)) ?? BARE;

/** Slow at both ends, as a hand moves. */
export const eased = (share: number): number => (1 - Math.cos(Math.PI * share)) / 2;

/** The `d` of a section's trim line, its holes with it. */
export function trimPath(view: View, { outline, holes }: Section, allowance: number): string {
  const inner = holes.flatMap((hole) => holeTrimLine(hole, allowance) ?? []);
  return ringsPath(view, [trimLine(outline, allowance), ...(inner.length > 0 ? [inner] : [])]);
}

interface ClothProps {
  readonly scene: Scene;
  readonly patch: Patch;
  readonly d: string;
  /** The side of the cloth that is not meant to be seen lies up. */
  readonly isWrongSide?: boolean;
}

export function ClothShape({ scene, patch, d, isWrongSide = false }: ClothProps) {
  return (
    <>
      <path
        d={d}
        fillRule="evenodd"
        fill={colorOf(patch, scene.colors)}
        stroke={INKS.ink}
        strokeWidth={1.2}
        strokeLinejoin="round"
      />
      {isWrongSide && <path d={d} fillRule="evenodd" fill={`url(#${scene.hatch})`} />}
    </>
  );
}

export const Cloths = ({ scene, cloths }: { readonly scene: Scene; readonly cloths: readonly Cloth[] }) =>
  cloths.map(({ patch, ring }) => (
    <ClothShape key={patch.id} scene={scene} patch={patch} d={ringsPath(scene.view, [ring])} />
  ));

/** The blank side of a paper, its lines to come showing through. */
export function BlankPaper({
  scene,
  trim,
  toCome,
}: {
  readonly scene: Scene;
  readonly trim: string;
  readonly toCome: readonly Patch[];
}) {
  return (
    <>
      <path className="stage-paper" d={trim} fillRule="evenodd" />
      <path className="stage-faint" d={stretchesPath(scene.view, seamsOf(toCome))} />
    </>
  );
}

const seamsOf = (patches: readonly Patch[]): readonly Segment[] =>
  patches.flatMap(({ seam }) => (seam === null ? [] : [seam]));

/** The printed side of a paper lying over everything: what is beneath shows faintly, as against a window. */
export function PrintedPaper({
  scene,
  trim,
  patches,
}: {
  readonly scene: Scene;
  readonly trim: string;
  readonly patches: readonly Patch[];
}) {
  return (
    <>
      <path className="stage-veil" d={trim} fillRule="evenodd" />
      {patches.map((patch) => (
        <path key={patch.id} className="stage-printed" d={patchPath(scene.view, patch)} />
      ))}
      <path className="stage-trim" d={trim} />
    </>
  );
}

/** The line to stitch, strong, and how far it is stitched; stitches begin and end the allowance beyond it. */
export function SeamLine({
  scene,
  stretches,
  stitched,
  isJoin = false,
}: {
  readonly scene: Scene;
  readonly stretches: readonly Segment[];
  readonly stitched: number;
  readonly isJoin?: boolean;
}) {
  const { view, allowance } = scene;
  return (
    <g className={isJoin ? 'stage-seam stage-seam-join' : 'stage-seam'}>
      <path className="stage-seam-halo" d={stretchesPath(view, stretches)} />
      <path className="stage-seam-line" d={stretchesPath(view, stretches)} />
      {stitched > 0 && (
        <path
          className="stage-stitches"
          d={stretchesPath(
            view,
            stretches.map((stretch): Segment => {
              const [from, to] = stretches.length === 1 ? lengthened(stretch, allowance) : stretch;
              return [from, [from[0] + stitched * (to[0] - from[0]), from[1] + stitched * (to[1] - from[1])]];
            }),
          )}
        />
      )}
    </g>
  );
}

/** Where the paper is folded back and what lies beyond is cut off: the allowance past the next line. */
export function NextTrim({
  scene,
  next,
  seam,
}: {
  readonly scene: Scene;
  readonly next: Patch;
  readonly seam: Segment;
}) {
  const { view, allowance } = scene;
  const n = towards(seam, labelSpot(next).at);
  const beyond: Segment = [shifted(seam[0], n, allowance), shifted(seam[1], n, allowance)];
  return (
    <>
      <path className="stage-next" d={stretchesPath(view, [seam])} />
      <CuttingLine d={stretchesPath(view, [lengthened(beyond, 2 * allowance)])} />
    </>
  );
}

/** Where the cutter runs. */
export const CuttingLine = ({ d }: { readonly d: string }) => (
  <>
    <path className="stage-cutting-halo" d={d} />
    <path className="stage-cutting" d={d} />
  </>
);

/** Length of arrows, CSS pixels. */
const ARROW = 46;

/** How far an arrow may reach across a patch that is small on the screen. */
const reachOf = (view: View, seam: Segment): number =>
  Math.max(18, Math.min(ARROW, distance(...seam) * view.scale * 0.4));

interface ArrowProps {
  readonly scene: Scene;
  readonly seam: Segment;
  /** A place on the side it points to. */
  readonly to: Point;
}

/** A bow over the seam: the way the cloth is folded. */
export function FoldArrow({ scene: { view }, seam, to }: ArrowProps) {
  const by = reachOf(view, seam) / view.scale;
  const n = towards(seam, to);
  // Beside the middle, where the id of the patch stands.
  const at = middle(seam[1], middle(...seam));
  const length = distance(...seam) || 1;
  const along: Point = [(seam[1][0] - seam[0][0]) / length, (seam[1][1] - seam[0][1]) / length];
  const start = view.toPx(shifted(at, n, -by));
  const bow = view.toPx(shifted(at, along, 0.9 * by));
  const end = view.toPx(shifted(at, n, by));
  return <Arrow d={`M${start.join(' ')}Q${bow.join(' ')} ${end.join(' ')}`} from={bow} end={end} />;
}

/** A straight arrow away from the seam: the way the iron presses. */
export function PressArrow({ scene: { view }, seam, to }: ArrowProps) {
  const by = reachOf(view, seam) / view.scale;
  const n = towards(seam, to);
  const at = middle(...seam);
  const start = view.toPx(shifted(at, n, 0.12 * by));
  const end = view.toPx(shifted(at, n, 1.1 * by));
  return <Arrow d={`M${start.join(' ')}L${end.join(' ')}`} from={start} end={end} />;
}

function Arrow({ d, from, end }: { readonly d: string; readonly from: Point; readonly end: Point }) {
  const length = Math.hypot(end[0] - from[0], end[1] - from[1]) || 1;
  const [ux, uy] = [(end[0] - from[0]) / length, (end[1] - from[1]) / length];
  const barb = (turn: number): string =>
    `${end[0] - 11 * ux + turn * 7 * uy} ${end[1] - 11 * uy - turn * 7 * ux}`;
  const head = `M${barb(1)}L${end.join(' ')}L${barb(-1)}`;
  return (
    <g className="stage-arrow">
      <path className="stage-arrow-halo" d={d + head} />
      <path d={d + head} />
    </g>
  );
}

/** Ids of patches at their inmost spots, as large as fits. */
export function Ids({ scene, patches }: { readonly scene: Scene; readonly patches: readonly Patch[] }) {
  return patches.map((patch) => (
    <Id
      key={patch.id}
      scene={scene}
      patch={patch}
      at={labelSpot(patch).at}
      ink={scene.side === 'printed' ? INKS.ink : inkOn(colorOf(patch, scene.colors))}
    />
  ));
}

/** Mean width of a capital or figure of Source Sans 3 in its semibold weight, as a share of the type size. */
const SIGN_WIDTH = 0.56;

export function Id({
  scene: { view },
  patch,
  at,
  ink,
  hasHalo = false,
}: {
  readonly scene: Scene;
  readonly patch: Patch;
  readonly at: Point;
  readonly ink: string;
  readonly hasHalo?: boolean;
}) {
  const size = sizeToFit(labelSpot(patch).room * view.scale, SIGN_WIDTH * patch.id.length);
  if (size === null) return null;
  return (
    <Words view={view} at={at} size={size} ink={ink} hasHalo={hasHalo}>
      {patch.id}
    </Words>
  );
}

export function Words({
  view,
  at,
  size,
  ink,
  hasHalo = false,
  children,
}: {
  readonly view: View;
  readonly at: Point;
  /** CSS pixels. */
  readonly size: number;
  readonly ink: string;
  readonly hasHalo?: boolean;
  readonly children: ReactNode;
}) {
  const [x, y] = view.toPx(at);
  return (
    <text
      className={hasHalo ? 'stage-words stage-words-halo' : 'stage-words'}
      x={x}
      y={y}
      dy="0.35em"
      fontSize={size}
      fill={ink}
    >
      {children}
    </text>
  );
}
