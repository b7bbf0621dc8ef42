import { useEffect, useMemo, useState } from 'react';
import type { Project } from '../../document/project.ts';
import type { Work } from '../../document/work.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { rehearse } from '../../piecing/rehearsal.ts';
import { cautionsOf, stepSentence } from '../../piecing/sentences.ts';
import { partsOfPaper } from '../../rounds/papers.ts';
import { fabricName, paperName } from '../../rounds/words.ts';
import { paperIn } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';
import { planInWork } from '../../workspace/sewing.ts';
import { Dialog } from '../dialog.tsx';
import { Phrase } from '../phrase.tsx';
import { PHASE_NAMES, phasesOf } from '../rehearsal/phases.ts';
import { StagePicture } from '../rehearsal/stage-picture.tsx';
import { sewView } from './sew-state.ts';
import { speak } from './spoken.ts';

interface StepDialogProps {
  readonly project: Project;
  readonly work: Work;
  readonly paper: string;
  readonly patch: string;
  readonly colors: ReadonlyMap<string, string>;
  readonly isSpoken: boolean;
}

type Made = { readonly plan: PiecingPlan | null } | 'coming' | { readonly failure: string };

/** The rehearsal of one step at the machine, from the drawing that the paper was made from. */
export function StepDialog({ project, work, paper, patch, colors, isSpoken }: StepDialogProps) {
  const { block, section } = paperIn(work, paper)!;
  const [made, setMade] = useState<Made>('coming');
  useEffect(() => {
    let isOver = false;
    planInWork(block).then(
      (plan) => isOver || setMade({ plan }),
      (thrown: unknown) => isOver || setMade({ failure: String(thrown) }),
    );
    return () => {
      isOver = true;
    };
  }, [block]);
  const { letter } = partsOfPaper(paper);
  const position = section.order.indexOf(patch);
  const fabric = fabricName(project, block.patches.find(({ id }) => id === patch)?.fabric);
  useEffect(() => {
    if (isSpoken)
      speak(
        phrase('{letter}, position {position, number}, {fabric}.', {
          letter,
          position: position + 1,
          fabric,
        }),
      );
  }, [isSpoken, letter, position, fabric]);
  const go = (to: number): void => sewView.setState({ rehearsed: { paper, patch: section.order[to]! } });
  return (
    <Dialog
      title={paperName(work, paper)}
      className="sew-step"
      onClose={() => sewView.setState({ rehearsed: null })}
    >
      <p className="sew-step-name">
        <Phrase
          text="<b>{letter}, position {position, number}</b>: {fabric}"
          values={{ letter, position: position + 1, fabric }}
        />
      </p>
      {made === 'coming' ? (
        <p role="status">{phrase('Laying out the step …')}</p>
      ) : 'failure' in made ? (
        <p role="alert">{phrase('The step could not be laid out. {reason}', { reason: made.failure })}</p>
      ) : (
        <StepPictures
          plan={made.plan}
          stamp={section.stamp}
          position={position}
          project={project}
          colors={colors}
        />
      )}
      <div className="buttons">
        <button
          type="button"
          className="button sew-big"
          disabled={position === 0}
          onClick={() => go(position - 1)}
        >
          {phrase('Previous position')}
        </button>
        <button
          type="button"
          className="button sew-big"
          disabled={position === section.order.length - 1}
          onClick={() => go(position + 1)}
        >
          {phrase('Next position')}
        </button>
        <button
          type="button"
          className="button button-main sew-big"
          data-first-focus
          onClick={() => sewView.setState({ rehearsed: null })}
        >
          {phrase('Close')}
        </button>
      </div>
    </Dialog>
  );
}

interface StepPicturesProps {
  readonly plan: PiecingPlan | null;
  readonly stamp: string;
  readonly position: number;
  readonly project: Project;
  readonly colors: ReadonlyMap<string, string>;
}

/** Side of a picture, CSS pixels: where few stand side by side they may be larger. */
const picturePx = (pictures: number): number => (pictures > 2 ? 250 : 330);

/** The acts of a step side by side, as under the needle. A paper is found by its stamp: letters may have changed. */
function StepPictures({ plan, stamp, position, project, colors }: StepPicturesProps) {
  const steps = useMemo(() => (plan === null ? [] : rehearse(plan)), [plan]);
  const section = plan?.sections.find((one) => one.stamp === stamp);
  const patch = section?.order[position];
  const at = steps.findIndex(
    (step) => (step.kind === 'place' || step.kind === 'sew') && step.patch.id === patch,
  );
  const step = steps[at];
  if (plan === null || section === undefined || step === undefined)
    return (
      <p>{phrase('The drawing that this paper was made from is not kept, so its steps cannot be shown.')}</p>
    );
  const phases = phasesOf(step);
  const size = picturePx(phases.length);
  const words = { allowance: project.seamAllowance, unit: project.unit };
  return (
    <>
      <p>{stepSentence(step, words)}</p>
      <div className="sew-step-pictures">
        {phases.map((phase) => (
          <figure key={phase}>
            <StagePicture
              plan={plan}
              step={step}
              phase={phase}
              share={1}
              side="printed"
              allowance={project.seamAllowance}
              colors={colors}
              width={size}
              height={size}
            />
            <figcaption>{PHASE_NAMES[phase]}</figcaption>
          </figure>
        ))}
      </div>
      <p className="sew-soft">
        {phrase('Seen from the printed side, as it lies under the needle; the cloth is beneath.')}
      </p>
      {(cautionsOf(steps).get(at) ?? []).map(({ tool, text }) => (
        <p key={tool} className="sew-soft">
          {text}
        </p>
      ))}
    </>
  );
}
