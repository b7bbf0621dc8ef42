import { type PointerEvent, useEffect, useId, useLayoutEffect, useRef, useState } from 'react';
import type { PiecingPlan } from '../../piecing/plan.ts';
import type { RehearsalStep } from '../../piecing/rehearsal.ts';
import { stepName } from '../../piecing/sentences.ts';
import { phrase } from '../../words/phrase.ts';
import { drawStep } from './step-picture.ts';

/** A picture with its name below and the gap to the next, CSS pixels. The style sheet has the same. */
const ITEM_PX = 82;
const PICTURE_PX = 64;

/** Pictures made beyond both ends of what is in sight. */
const SPARE = 3;

interface StepStripProps {
  readonly plan: PiecingPlan;
  readonly steps: readonly RehearsalStep[];
  readonly colors: ReadonlyMap<string, string>;
  /** Index of the step on the stage; null for none. */
  readonly current: number | null;
  readonly onShow: (step: number) => void;
}

/** The steps as small pictures side by side; a mouse drawn along them leafs through. Only those in sight are made. */
export function StepStrip({ plan, steps, colors, current, onShow }: StepStripProps) {
  const list = useRef<HTMLDivElement>(null);
  const id = useId();
  const [sight, setSight] = useState({ left: 0, width: 0 });
  const [isScrubbing, setScrubbing] = useState(false);

  useLayoutEffect(() => {
    const element = list.current!;
    const look = (): void => setSight({ left: element.scrollLeft, width: element.clientWidth });
    look();
    const observer = new ResizeObserver(look);
    observer.observe(element);
    element.addEventListener('scroll', look, { passive: true });
    return () => {
      observer.disconnect();
      element.removeEventListener('scroll', look);
    };
  }, []);

  useEffect(() => {
    const element = list.current!;
    if (current === null) return;
    const left = current * ITEM_PX;
    const over = left + ITEM_PX - (element.scrollLeft + element.clientWidth);
    if (left < element.scrollLeft) element.scrollLeft = left - ITEM_PX / 2;
    else if (over > 0) element.scrollLeft += over + ITEM_PX / 2;
  }, [current]);

  const stepUnder = (event: PointerEvent): number => {
    const element = list.current!;
    const x = event.clientX - element.getBoundingClientRect().left + element.scrollLeft;
    return Math.min(steps.length - 1, Math.max(0, Math.floor(x / ITEM_PX)));
  };

  const first = Math.max(0, Math.floor(sight.left / ITEM_PX) - SPARE);
  const last = Math.min(steps.length, Math.ceil((sight.left + sight.width) / ITEM_PX) + SPARE);
  const isCurrentMade = current !== null && current >= first && current < last;
  return (
    <div
      ref={list}
      className="step-strip"
      role="listbox"
      aria-orientation="horizontal"
      aria-label={phrase('Steps')}
      tabIndex={0}
      aria-activedescendant={isCurrentMade ? `${id}-${current}` : undefined}
      onPointerDown={(event) => {
        if (event.pointerType !== 'mouse' || event.button !== 0) return;
        setScrubbing(true);
        event.currentTarget.setPointerCapture(event.pointerId);
        onShow(stepUnder(event));
      }}
      onPointerMove={(event) => {
        if (!isScrubbing) return;
        const under = stepUnder(event);
        if (under !== current) onShow(under);
      }}
      onPointerUp={(event) => {
        // A finger that moves scrolls instead, and never comes to this.
        if (event.pointerType !== 'mouse') onShow(stepUnder(event));
      }}
      onLostPointerCapture={() => setScrubbing(false)}
    >
      <div className="step-row" style={{ width: steps.length * ITEM_PX }}>
        {steps.slice(first, last).map((step, k) => {
          const index = first + k;
          return (
            <div
              key={index}
              id={`${id}-${index}`}
              className="step"
              role="option"
              aria-selected={index === current}
              aria-setsize={steps.length}
              aria-posinset={index + 1}
              tabIndex={-1}
              style={{ left: index * ITEM_PX }}
            >
              <StepPicture plan={plan} step={step} colors={colors} />
              <span className="step-name">{stepName(step)}</span>
            </div>
          );
        })}
      </div>
    </div>
  );
}

interface StepPictureProps {
  readonly plan: PiecingPlan;
  readonly step: RehearsalStep;
  readonly colors: ReadonlyMap<string, string>;
}

function StepPicture({ plan, step, colors }: StepPictureProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => drawStep(canvas.current!, plan, step, colors, PICTURE_PX), [plan, step, colors]);
  return (
    <span aria-hidden="true">
      <canvas ref={canvas} className="step-picture" />
    </span>
  );
}
