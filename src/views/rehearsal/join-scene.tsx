import { useMemo } from 'react';
import { INKS } from '../../board/draw/inks.ts';
import { foldedOver, towards } from '../../geometry/fold.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { centroid, distance } from '../../geometry/ring.ts';
import type { Join, Patch } from '../../piecing/plan.ts';
import { inList } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
import { APART_IN } from './scene-box.ts';
import {
  ClothShape,
  eased,
  Ids,
  PressArrow,
  PrintedPaper,
  type Scene,
  SeamLine,
  trimPath,
  Words,
} from './scene-parts.tsx';
import { patchPath, ringsPath, shifted, stretchesPath, type View } from './view.ts';

interface JoinSceneProps {
  readonly scene: Scene;
  readonly join: Join;
  readonly press: 'open' | 'to-one-side';
}

/** Two units pinned right sides together at the registration points, sewn, freed of paper, opened and pressed. */
export function JoinScene({ scene, join, press }: JoinSceneProps) {
  const { plan, phase, share, side, view, allowance } = scene;
  const units = useMemo(() => {
    const of = (letters: readonly string[]) =>
      plan.patches.filter(({ section }) => letters.includes(section));
    return { left: of(join.left), right: of(join.right) };
  }, [plan, join]);
  const toRight = useMemo(() => centreOf(units.right), [units]);
  const n = towards(join.seam, toRight);
  const isStraight = join.kind === 'straight';
  const fold = !isStraight ? 1 : phase === 'press' ? -Math.cos(Math.PI * eased(share)) : -1;
  const away =
    phase === 'pin'
      ? (1 - eased(share)) * APART_IN + (isStraight ? 0 : APART_IN)
      : isStraight
        ? 0
        : phase === 'press'
          ? 0
          : APART_IN * (phase === 'stitch' ? 1 - eased(share) : 0);
  const place = (ring: Ring): Ring =>
    (isStraight ? foldedOver(ring, join.seam, fold) : ring).map((at) =>
      shifted(at, n, isStraight ? -away : away),
    );
  const leftPaper = useMemo(
    () =>
      plan.sections
        .filter(({ letter }) => join.left.includes(letter))
        .map((section) => trimPath(view, section, allowance))
        .join(''),
    [plan, join, view, allowance],
  );
  const right = (
    <g>
      {units.right.map((patch) => {
        const d = ringsPath(view, [patch.polygon, ...patch.holes].map(place));
        return fold < 0 ? (
          <path key={patch.id} className="stage-turned" d={d} fillRule="evenodd" />
        ) : (
          <ClothShape key={patch.id} scene={scene} patch={patch} d={d} />
        );
      })}
    </g>
  );
  const left = (
    <g>
      {units.left.map((patch) => (
        <ClothShape key={patch.id} scene={scene} patch={patch} d={patchPath(view, patch)} />
      ))}
    </g>
  );
  const isPrinted = side === 'printed';
  const isOpen = fold > 0.5;
  const stretches = join.stretches;
  return (
    <>
      {isPrinted && right}
      {left}
      {isPrinted && <PrintedPaper scene={scene} trim={leftPaper} patches={units.left} />}
      {!isPrinted && isStraight && fold < 0 && <Allowance scene={scene} join={join} n={n} />}
      {!isPrinted && right}
      <Ids
        scene={scene}
        patches={isOpen || !isStraight ? [...units.left, ...(away > 0 ? [] : units.right)] : []}
      />
      {isStraight && fold < -0.5 && (
        <UnitName
          scene={scene}
          letters={isPrinted ? join.left : join.right}
          ring={isPrinted ? null : place}
          units={units}
        />
      )}
      <SeamLine
        scene={scene}
        stretches={stretches}
        stitched={phase === 'pin' ? 0 : phase === 'stitch' ? share : 1}
        isJoin
      />
      {(phase === 'pin' || phase === 'stitch') && (
        <Pins scene={scene} join={join} n={n} isDown={phase === 'stitch' || share > 0.6} />
      )}
      {phase === 'press' && share > 0.5 && (
        <>
          <PressArrow scene={scene} seam={join.seam} to={toRight} />
          {press === 'open' && (
            <PressArrow scene={scene} seam={join.seam} to={shifted(join.seam[0], n, -1)} />
          )}
        </>
      )}
    </>
  );
}

function centreOf(patches: readonly Patch[]): Point {
  const centres = patches.map(({ polygon }) => centroid(polygon));
  const sum = centres.reduce<Point>((s, p) => [s[0] + p[0], s[1] + p[1]], [0, 0]);
  return [sum[0] / Math.max(1, centres.length), sum[1] / Math.max(1, centres.length)];
}

/** The letters of the unit whose paper lies up, in its middle. */
function UnitName({
  scene,
  letters,
  ring,
  units,
}: {
  readonly scene: Scene;
  readonly letters: readonly string[];
  readonly ring: ((ring: Ring) => Ring) | null;
  readonly units: { readonly left: readonly Patch[]; readonly right: readonly Patch[] };
}) {
  const [patch] = ring === null ? units.left : units.right;
  if (patch === undefined) return null;
  const middle = ring === null ? centreOf(units.left) : centreOf(units.right);
  const at = ring === null ? middle : ring([middle])[0]!;
  return (
    <Words view={scene.view} at={at} size={17} ink={INKS.ink} hasHalo>
      {phrase('{letters}, printed side', { letters: inList(letters) })}
    </Words>
  );
}

/** The allowance both units hold past the seam, while they lie right sides together; its paper comes away. */
function Allowance({ scene, join, n }: { readonly scene: Scene; readonly join: Join; readonly n: Point }) {
  const { view, phase, share, allowance } = scene;
  const band = (by: number): string =>
    ringsPath(
      view,
      join.stretches.map(
        ([a, b]): Ring => [
          shifted(a, n, by),
          shifted(b, n, by),
          shifted(b, n, by + allowance),
          shifted(a, n, by + allowance),
        ],
      ),
    );
  const gone = phase === 'free' ? eased(share) : phase === 'press' ? 1 : 0;
  return (
    <>
      <path className="stage-allowance" d={band(0)} />
      {gone < 1 && (
        <path className="stage-allowance-paper" d={band(gone * 2 * allowance)} opacity={1 - gone} />
      )}
    </>
  );
}

/** Two labels nearer to each other than this would run into one. CSS pixels. */
const LABEL_ROOM = 22;

/** Pins straight through the registration points, each with its label in the allowance. */
function Pins({
  scene: { view },
  join,
  n,
  isDown,
}: {
  readonly scene: Scene;
  readonly join: Join;
  readonly n: Point;
  readonly isDown: boolean;
}) {
  const px = 1 / view.scale;
  const labelled: Point[] = [];
  return (
    <g className="stage-pins">
      {join.points.map(({ label, at, kind }) => {
        const head = shifted(at, n, 15 * px);
        const tip = shifted(at, n, -13 * px);
        const [x, y] = view.toPx(head);
        const mark = view.toPx(at);
        const isClear = labelled.every((other) => distance(other, [x, y]) >= LABEL_ROOM);
        if (isClear) labelled.push([x, y]);
        const ring: Segment = [head, tip];
        return (
          <g key={label}>
            <circle className="stage-point" cx={mark[0]} cy={mark[1]} r={kind === 'match' ? 5.5 : 4} />
            {isDown && (
              <>
                <path className="stage-pin" d={stretchesPath(view, [ring])} />
                <circle className="stage-pin-head" cx={x} cy={y} r={4} />
              </>
            )}
            {isClear && (
              <PinLabel view={view} at={shifted(at, n, 28 * px)}>
                {label}
              </PinLabel>
            )}
          </g>
        );
      })}
    </g>
  );
}

const PinLabel = ({
  view,
  at,
  children,
}: {
  readonly view: View;
  readonly at: Point;
  readonly children: string;
}) => (
  <Words view={view} at={at} size={13} ink={INKS.madder} hasHalo>
    {children}
  </Words>
);
