import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { dropPaint, dropWork, paintInFrame, workInFrame } from '../../src/board/frame.ts';

/** Frames of a screen that only come when they are called. */
let frames: FrameRequestCallback[] = [];

function nextFrame(): void {
  const due = frames;
  frames = [];
  for (const frame of due) frame(0);
}

describe('the next frame', () => {
  beforeEach(() => {
    frames = [];
    vi.stubGlobal('requestAnimationFrame', (frame: FrameRequestCallback) => frames.push(frame));
  });
  afterEach(() => {
    nextFrame();
    vi.unstubAllGlobals();
  });

  it('shows what a move has changed in the frame the move falls into', () => {
    const told: string[] = [];
    const paint = () => told.push('paint');
    workInFrame(() => {
      told.push('work');
      paintInFrame(paint);
    });
    nextFrame();
    expect(told).toEqual(['work', 'paint']);
    expect(frames).toHaveLength(0);
  });

  it('paints once, however often it is asked', () => {
    const paint = vi.fn();
    for (let k = 0; k < 5; k++) paintInFrame(paint);
    expect(frames).toHaveLength(1);
    nextFrame();
    nextFrame();
    expect(paint).toHaveBeenCalledTimes(1);
  });

  it('leaves work that work asks for to the frame after', () => {
    const again = vi.fn();
    workInFrame(() => workInFrame(again));
    nextFrame();
    expect(again).not.toHaveBeenCalled();
    nextFrame();
    expect(again).toHaveBeenCalledTimes(1);
  });

  it('paints even where work failed', () => {
    const paint = vi.fn();
    workInFrame(() => {
      paintInFrame(paint);
      throw new Error('a tool stumbled');
    });
    expect(nextFrame).toThrow('a tool stumbled');
    expect(paint).toHaveBeenCalledTimes(1);
  });

  it('does nothing of what was taken back', () => {
    const act = vi.fn();
    workInFrame(act);
    paintInFrame(act);
    dropWork(act);
    dropPaint(act);
    nextFrame();
    expect(act).not.toHaveBeenCalled();
  });
});
