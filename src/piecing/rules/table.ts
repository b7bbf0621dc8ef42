import { ringOf } from '../../geometry/division.ts';
import type { Finding, Patch, Severity } from '../plan.ts';
import { biasEdge } from './bias-edge.ts';
import { manyPatches, manySeams } from './crowded.ts';
import { drawnTwice } from './drawn-twice.ts';
import { alikeNeighbours, shadowing, unpainted } from './fabrics.ts';
import { foldOverStitches } from './folds.ts';
import { inwardCorner } from './inward-corner.ts';
import { island } from './island.ts';
import { knot } from './knot.ts';
import { looseEnd } from './loose-end.ts';
import { mirrorSensitive } from './mirror-sensitive.ts';
import { nearMiss } from './near-miss.ts';
import { orderRefused } from './order-refused.ts';
import { oversize } from './oversize.ts';
import { pinRefused } from './pin-refused.ts';
import { ringOfPatches } from './ring-of-patches.ts';
import type { Inspection, Rule } from './rule.ts';
import { sharpAngle, sliver } from './shape-of-patch.ts';
import { idleCut, outsideCut, overlappingCut, pastOutline, shortCut, unreadableCut } from './strays.ts';

/** Every rule there is, in the order findings are told. */
export const RULES: readonly Rule[] = [
  unreadableCut,
  ringOfPatches,
  island,
  pinRefused,
  orderRefused,
  looseEnd,
  idleCut,
  overlappingCut,
  drawnTwice,
  shortCut,
  outsideCut,
  nearMiss,
  sliver,
  sharpAngle,
  inwardCorner,
  manySeams,
  manyPatches,
  knot,
  oversize,
  foldOverStitches,
  shadowing,
  alikeNeighbours,
  biasEdge,
  pastOutline,
  mirrorSensitive,
  unpainted,
];

/** Rules that look at the drawing and its patches only: what they find is the same whatever the plan. */
const OF_THE_DRAWING: readonly Rule[] = [
  unreadableCut,
  island,
  looseEnd,
  idleCut,
  overlappingCut,
  drawnTwice,
  shortCut,
  outsideCut,
  sliver,
  sharpAngle,
  inwardCorner,
  manySeams,
];

/** How many troubles, and how many cautions, any plan for a drawing has at least. */
export function leastFound(drawing: Pick<Inspection, 'block' | 'pattern' | 'options'>): {
  readonly troubles: number;
  readonly cautions: number;
} {
  const { pattern, options } = drawing;
  const { faces } = pattern.division;
  const idOf = faces.map((_, c) => `${c}`);
  const patches = faces.map(
    (face, c): Patch => ({
      key: '',
      id: idOf[c]!,
      section: '',
      position: 0,
      polygon: ringOf(pattern.division, face.edge),
      holes: face.islands.map((h) => ringOf(pattern.division, h)),
      fabric: null,
      seam: null,
      neighbours: [],
    }),
  );
  const bare: Inspection = {
    ...drawing,
    patches,
    sections: [],
    joins: [],
    edges: [],
    idOf,
    known: { entries: [], patchOf: new Map(), ids: new Set() },
    rings: [],
    clashes: { all: [], whole: [], ways: [], atVertex: new Int32Array(0), onEdge: new Int32Array(0) },
  };
  const count = { trouble: 0, caution: 0, note: 0, off: 0 };
  for (const rule of OF_THE_DRAWING) {
    const severity = options.severities?.[rule.code] ?? rule.severity;
    if (severity === 'trouble' || severity === 'caution') count[severity] += rule.check(bare).length;
  }
  return { troubles: count.trouble, cautions: count.caution };
}

const WEIGHT: Readonly<Record<Severity, number>> = { trouble: 0, caution: 1, note: 2 };

/** Findings of all rules that are not switched off, the gravest first, then in the order of the table. */
export function inspect(inspection: Inspection): Finding[] {
  const { severities } = inspection.options;
  return RULES.flatMap((rule) => {
    const severity = severities?.[rule.code] ?? rule.severity;
    if (severity === 'off') return [];
    return rule.check(inspection).map(
      (remark): Finding => ({
        code: rule.code,
        severity,
        at: remark.at,
        patches: remark.patches ?? [],
        cuts: remark.cuts ?? [],
        message: remark.message,
        stretches: remark.stretches ?? [],
      }),
    );
  }).sort((a, b) => WEIGHT[a.severity] - WEIGHT[b.severity]);
}
