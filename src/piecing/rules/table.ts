import type { Finding, Severity } from '../plan.ts';
import { inwardCorner } from './inward-corner.ts';
import { island } from './island.ts';
import { pinRefused } from './pin-refused.ts';
import { ringOfPatches } from './ring-of-patches.ts';
import type { Inspection, Rule } from './rule.ts';
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
  looseEnd,
  idleCut,
  overlappingCut,
  shortCut,
  outsideCut,
  inwardCorner,
  pastOutline,
];

const WEIGHT: Readonly<Record<Severity, number>> = { trouble: 0, caution: 1, note: 2 };

/** Findings of all rules, the gravest first, then in the order of the table. */
export function inspect(inspection: Inspection): Finding[] {
  return RULES.flatMap((rule) =>
    rule.check(inspection).map(
      (remark): Finding => ({
        code: rule.code,
        severity: rule.severity,
        at: remark.at,
        patches: remark.patches ?? [],
        cuts: remark.cuts ?? [],
        message: remark.message,
      }),
    ),
  ).sort((a, b) => WEIGHT[a.severity] - WEIGHT[b.severity]);
}
