/**
 * The screen's next frame. Work that a pointer's move has left comes first and painting after it, so that a move is
 * seen in the frame it falls into, not one later.
 */

const works = new Set<() => void>();
const paints = new Set<() => void>();
let frame = 0;
let isRunning = false;

/** Does some work once at the beginning of the next frame, however often it is asked for until then. */
export function workInFrame(work: () => void): void {
  works.add(work);
  ask();
}

/** Takes back what `workInFrame` was asked for. */
export function dropWork(work: () => void): void {
  works.delete(work);
}

/** Paints once, in the frame that is being worked on or else in the next. */
export function paintInFrame(paint: () => void): void {
  paints.add(paint);
  ask();
}

/** Takes back what `paintInFrame` was asked for. */
export function dropPaint(paint: () => void): void {
  paints.delete(paint);
}

function ask(): void {
  if (frame === 0 && !isRunning) frame = requestAnimationFrame(run);
}

function run(): void {
  frame = 0;
  isRunning = true;
  try {
    takeAll(works);
  } finally {
    isRunning = false;
    takeAll(paints);
    // What work asked for while it ran waits for the next frame.
    if (works.size > 0) ask();
  }
}

function takeAll(acts: Set<() => void>): void {
  const all = [...acts];
  acts.clear();
  for (const act of all) act();
}
