import { type Drawing, drawFoundation } from '../foundation/draw-foundation.ts';
import type { FabricLabel } from '../foundation/label-request.ts';
import type { DrawingStore } from '../foundation/store.ts';
import type { TickCount } from '../foundation/tick-counts.ts';
import type { Foundation, PrintWork } from '../print-work.ts';
import type { Division } from './division.ts';
import type { FoundationRoom } from './label-rooms.ts';
import type { SheetOptions } from './sheet.ts';

/** A foundation with its drawing, which all its papers share. */
export interface DrawnFoundation {
  readonly foundation: Foundation;
  readonly drawing: Drawing;
  /** Null where a paper fits on one sheet. */
  readonly division: Division | null;
}

/** Draws a foundation where it and its labels may lie. */
export function drawIn(
  foundation: Foundation,
  room: FoundationRoom,
  fabrics: ReadonlyMap<string, FabricLabel>,
  ticks: ReadonlyMap<number, TickCount>,
  work: PrintWork,
  { side, style = 'outline', grain = false, large = false, codes = null, typeface }: SheetOptions,
  drawings: DrawingStore,
): DrawnFoundation {
  const { job, section, blockName } = foundation;
  const request = {
    plan: job.plan,
    section: section.letter,
    blockName,
    fabrics,
    allowance: work.project.seamAllowance,
    side,
    copies: job.copies,
    hasCode: codes !== null,
    unit: work.project.unit,
    room: room.labels,
    ticks,
    style,
    grain,
    large,
    typeface,
  };
  return { foundation, drawing: drawings(request, drawFoundation), division: room.division };
}
