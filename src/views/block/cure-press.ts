import { type HTMLAttributes, type RefObject, useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { editEverywhere } from '../../board/board-acts.ts';
import { announce } from '../../board/board-state.ts';
import {
  isShown,
  leaveProposal,
  proposals,
  propose,
  proposeAndHold,
  withdraw,
} from '../../board/proposal.ts';
import { applyRepair } from '../../document/edit-plan.ts';
import type { Block } from '../../document/project.ts';
import type { Cure } from '../../piecing/repairs/cure.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';

/** What the button of a cure does and how it stands. */
export interface CurePress {
  /** For the box round the button: it comes into sight when the cure is held. */
  readonly box: RefObject<HTMLDivElement | null>;
  /** The board shows the cure, and goes on showing it until it is done or left. */
  readonly isShown: boolean;
  readonly isHeld: boolean;
  readonly apply: () => void;
  readonly button: HTMLAttributes<HTMLButtonElement> & { readonly 'data-lit': boolean };
}

/**
 * Pointed at a cure is shown on the board. With a mouse or the keyboard a press does it, as one step; a finger, which cannot
 * point first, is shown it and asked.
 */
export function useCurePress(block: Block, cure: Cure, onApply: () => void): CurePress {
  const isOn = useStore(proposals, (state) => isShown(state, block, cure));
  const isHeld = useStore(proposals, (state) => state.isHeld) && isOn;
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (isHeld) box.current?.scrollIntoView({ block: 'nearest' });
  }, [isHeld]);
  const apply = (): void => {
    withdraw();
    // What was drawn for the whole block is not drawn again at its other places.
    const run = cure.mended ? edit : editEverywhere;
    run(stepName(cure), (project) => applyRepair(project, block.id, cure.change));
    onApply();
  };
  return {
    box,
    isShown: isOn,
    isHeld,
    apply,
    button: {
      'data-lit': isOn,
      onPointerEnter: () => propose(block, cure),
      onPointerLeave: leaveProposal,
      onFocus: () => propose(block, cure),
      onBlur: leaveProposal,
      onClick: ({ nativeEvent }) => {
        const isByHand =
          nativeEvent instanceof PointerEvent &&
          (nativeEvent.pointerType === 'touch' || nativeEvent.pointerType === 'pen');
        if (!isByHand) apply();
        else if (isHeld) withdraw();
        else {
          proposeAndHold(block, cure);
          announce(phrase('Preview on the board. Nothing has changed yet.'));
        }
      },
      onKeyDown: (event) => {
        if (event.key !== 'Escape' || !isOn) return;
        withdraw();
        event.stopPropagation();
      },
    },
  };
}

/** What the history calls it: `Draw cut 3 on to cut 5`. */
const stepName = ({ sentence }: Cure): string => sentence.replace(/[:.].*$/, '');
