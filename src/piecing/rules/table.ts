import type { Finding, Severity } from '../plan.ts';
import { biasEdge } from './bias-edge.ts';
import { manyPatches, manySeams } from './crowded.ts';
import { shadowing, unpainted } from './fabrics.ts';
import { foldOverStitches } from './folds.ts';
import { inwardCorner } from './inward-corner.ts';
import { island } from './island.ts';
import { knot } from './knot.ts';
import { mirrorSensitive } from './mirror-sensitive.ts';
import { nearMiss } from './near-miss.ts';
import { orderRefused } from './order-refused.ts';
import { oversize } from './oversize.ts';
import { pinRefused } from './pin-refused.ts';
import { ringOfPatches } from './ring-of-patches.ts';
import type { Inspection, Rule } from './rule.ts';
import { sharpAngle, sliver } from './shape-of-patch.ts';
import {
  idleCut,
  looseEnd,
  outsideCut,
  overlappingCut,
  pastOutline,
  shortCut,
  unreadableCut,
} from './strays.ts';

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
  biasEdge,
  pastOutline,
  mirrorSensitive,
  unpainted,
];

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
