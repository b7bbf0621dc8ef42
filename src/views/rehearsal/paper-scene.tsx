import { useId, useMemo } from 'react';
import { inkOn } from '../../board/draw/contrast.ts';
import { INKS } from '../../board/draw/inks.ts';
import { foldedOver, towards } from '../../geometry/fold.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { centroid } from '../../geometry/ring.ts';
import type { Patch, Section } from '../../piecing/plan.ts';
import type { RehearsalStep } from '../../piecing/rehearsal.ts';
import { clothOn, laidCloth } from './cloth.ts';
import { COMES_FROM } from './scene-box.ts';
import {
  BlankPaper,
  ClothShape,
  Cloths,
  CuttingLine,
  colorOf,
  eased,
  FoldArrow,
  Id,
  Ids,
  NextTrim,
  PressArrow,
  PrintedPaper,
  type Scene,
  SeamLine,
  trimPath,
} from './scene-parts.tsx';
import { patchPath, ringsPath, shifted } from './view.ts';

type PaperStep = Exclude<RehearsalStep, { readonly kind: 'join' }>;

/** What lies on the paper of a step, and what comes next on it. */
interface OnPaper {
  readonly section: Section;
  /** Patches of a finished unit that serves as position 1. */
  readonly base: readonly Patch[];
  /** Patches sewn on this paper before the step. */
  readonly earlier: readonly Patch[];
  /** Patches still to come after the step. */
  readonly toCome: readonly Patch[];
  readonly position: number;
}

function onPaper({ plan }: Pick<Scene, 'plan'>, step: PaperStep): OnPaper {
  const section = plan.sections.find(({ letter }) => letter === step.section)!;
  const own = plan.patches.filter((patch) => patch.section === step.section);
  const position = step.kind === 'start' ? 1 : step.patch.position;
  return {
    section,
    base: plan.patches.filter((patch) => section.startsFrom.includes(patch.section)),
    earlier: own.filter((patch) => patch.position < position),
    toCome: own.filter((patch) => patch.position > position),
    position,
  };
}

/** A step on one paper: a first patch or a finished unit laid down, or a patch sewn on. */
export function PaperScene({ scene, step }: { readonly scene: Scene; readonly step: PaperStep }) {
  const { plan, phase, share, side, allowance, view } = scene;
  const paper = useMemo(() => onPaper({ plan }, step), [plan, step]);
  const { section, base, earlier, toCome, position } = paper;
  const patch = step.kind === 'start' ? null : step.patch;
  const isDown = phase === 'trim';
  const lying = isDown && patch !== null ? [...earlier, patch] : earlier;
  const count = lying.length;
  // biome-ignore lint/correctness/useExhaustiveDependencies: which patches lie there follows from the step and their number.
  const [before, after] = useMemo(
    () => [
      clothOn(plan, lying, position, allowance),
      isDown ? clothOn(plan, lying, position + 1, allowance) : [],
    ],
    [plan, step, count, isDown, allowance],
  );
  const trim = useMemo(() => trimPath(view, section, allowance), [view, section, allowance]);
  const clip = useId();
  const next = toCome[0] ?? null;
  const isUnitComing = step.kind === 'start' && phase === 'lay';
  return (
    <>
      <clipPath id={clip}>
        <path d={trim} clipRule="evenodd" />
      </clipPath>
      <BlankPaper scene={scene} trim={trim} toCome={patch === null ? toCome : [patch, ...toCome]} />
      <g opacity={isUnitComing ? eased(share) : 1}>
        {base.map((one) => (
          <ClothShape key={one.id} scene={scene} patch={one} d={patchPath(view, one)} />
        ))}
      </g>
      <g opacity={isDown ? 1 - eased(share) : 1}>
        <Cloths scene={scene} cloths={before} />
      </g>
      {isDown && (
        <g clipPath={next === null ? `url(#${clip})` : undefined}>
          <Cloths scene={scene} cloths={after} />
        </g>
      )}
      {side === 'front' && <Ids scene={scene} patches={[...base, ...lying]} />}
      {patch !== null && !isDown && <NewCloth scene={scene} patch={patch} />}
      {side === 'printed' && (
        <PrintedPaper
          scene={scene}
          trim={trim}
          patches={[...earlier, ...(patch ? [patch] : []), ...toCome]}
        />
      )}
      {side === 'printed' && <Ids scene={scene} patches={[...lying, ...toCome]} />}
      {patch?.seam && !isDown && (
        <SeamLine
          scene={scene}
          stretches={[patch.seam]}
          stitched={phase === 'lay' ? 0 : phase === 'stitch' ? share : 1}
        />
      )}
      {patch !== null && !isDown && <NewId scene={scene} patch={patch} />}
      {patch?.seam && phase === 'flip' && <FlipArrow scene={scene} patch={patch} seam={patch.seam} />}
      {isDown && next?.seam && <NextTrim scene={scene} next={next} seam={next.seam} />}
      {isDown && next === null && <CuttingLine d={trim} />}
    </>
  );
}

/** Where the new cloth lies at this moment, and whether its wrong side is up. */
function newCloth(
  { phase, share, allowance }: Scene,
  patch: Patch,
): { readonly ring: Ring; readonly fold: number } {
  const laid = laidCloth(patch, allowance);
  const { seam } = patch;
  if (seam === null) {
    const drop = (eased(share) - 1) * COMES_FROM * allowance;
    return { ring: laid.map((at) => shifted(at, [0, 1], drop)), fold: 1 };
  }
  if (phase === 'flip') {
    const fold = -Math.cos(Math.PI * eased(share));
    const [folded] = fold > 0 ? clothOn({ patches: [] }, [patch], 0, allowance) : [];
    return { ring: foldedOver(folded?.ring ?? laid, seam, fold), fold };
  }
  const turned = foldedOver(laid, seam, -1);
  if (phase !== 'lay') return { ring: turned, fold: -1 };
  const away = (1 - eased(share)) * COMES_FROM * allowance;
  const n = towards(seam, centroid(turned));
  return { ring: turned.map((at) => shifted(at, n, away)), fold: -1 };
}

function NewCloth({ scene, patch }: { readonly scene: Scene; readonly patch: Patch }) {
  const { ring, fold } = newCloth(scene, patch);
  const isComing = scene.phase === 'lay';
  return (
    <g opacity={isComing ? 0.35 + 0.65 * eased(scene.share) : 1}>
      <ClothShape scene={scene} patch={patch} d={ringsPath(scene.view, [ring])} isWrongSide={fold < 0} />
    </g>
  );
}

/** The id of the new patch, where its cloth lies. */
function NewId({ scene, patch }: { readonly scene: Scene; readonly patch: Patch }) {
  if (scene.side === 'printed') return <Ids scene={scene} patches={[patch]} />;
  const { ring, fold } = newCloth(scene, patch);
  if (Math.abs(fold) < 0.5) return null;
  const at: Point = centroid(ring);
  return (
    <Id
      scene={scene}
      patch={patch}
      at={at}
      ink={fold < 0 ? INKS.ink : inkOn(colorOf(patch, scene.colors))}
      hasHalo={fold < 0}
    />
  );
}

function FlipArrow({
  scene,
  patch,
  seam,
}: {
  readonly scene: Scene;
  readonly patch: Patch;
  readonly seam: NonNullable<Patch['seam']>;
}) {
  const to = centroid(patch.polygon);
  return (
    <>
      {(scene.share < 0.6 || scene.share === 1) && <FoldArrow scene={scene} seam={seam} to={to} />}
      {scene.share >= 0.6 && <PressArrow scene={scene} seam={seam} to={to} />}
    </>
  );
}
