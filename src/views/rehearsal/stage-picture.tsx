import { memo, useId, useMemo } from 'react';
import { INKS } from '../../board/draw/inks.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import type { RehearsalStep } from '../../piecing/rehearsal.ts';
import { JoinScene } from './join-scene.tsx';
import { PaperScene } from './paper-scene.tsx';
import { sceneBox } from './scene-box.ts';
import { colorOf, type Scene } from './scene-parts.tsx';
import { patchPath, type View, viewOf } from './view.ts';

interface StagePictureProps extends Omit<Scene, 'view' | 'hatch'> {
  readonly step: RehearsalStep;
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
}

/** One moment of a step, drawn large: the paper, what lies sewn on it, and what is being done. */
export function StagePicture({ step, width, height, ...rest }: StagePictureProps) {
  const { plan, allowance, side, colors } = rest;
  const hatch = useId();
  const view = useMemo(
    () => viewOf(sceneBox(plan, step, allowance), width, height, 0, side),
    [plan, step, width, height, allowance, side],
  );
  const scene: Scene = { ...rest, view, hatch };
  return (
    <svg className="stage-picture" width={width} height={height} aria-hidden="true" focusable="false">
      <defs>
        <pattern id={hatch} width={7} height={7} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width={7} height={7} fill={INKS.sheet} fillOpacity={0.55} />
          <path d="M0 0V7" stroke={INKS.ink} strokeWidth={1.8} strokeOpacity={0.55} />
        </pattern>
      </defs>
      <Rest plan={plan} step={step} colors={colors} view={view} />
      {step.kind === 'join' ? (
        <JoinScene scene={scene} join={step.join} press={step.press} />
      ) : (
        <PaperScene scene={scene} step={step} />
      )}
    </svg>
  );
}

interface RestProps {
  readonly plan: PiecingPlan;
  readonly step: RehearsalStep;
  readonly colors: ReadonlyMap<string, string>;
  readonly view: View;
}

/** The whole block, pale: what is made already in faint colours, what is still to come as bare paper. */
const Rest = memo(function Rest({ plan, step, colors, view }: RestProps) {
  const sewn = new Set(step.sewn);
  // The unit that is turned over to be joined does not lie in its place.
  if (step.kind === 'join')
    for (const { id, section } of plan.patches) if (step.join.right.includes(section)) sewn.delete(id);
  return (
    <g>
      {plan.patches.map((patch) => (
        <path
          key={patch.id}
          d={patchPath(view, patch)}
          fillRule="evenodd"
          fill={sewn.has(patch.id) ? colorOf(patch, colors) : INKS.sheet}
          fillOpacity={sewn.has(patch.id) ? 0.28 : 1}
          stroke={INKS.rule}
          strokeWidth={1}
        />
      ))}
    </g>
  );
});
