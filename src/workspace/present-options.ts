import { pieceOptionsOf } from '../making/piece-options.ts';
import { optionsKey, type PieceOptions } from '../piecing/options.ts';
import { chosenSheet } from './paper-settings.ts';
import { session, shownProject } from './session.ts';

let present: PieceOptions | null = null;
let presentFor: readonly unknown[] = [];

/** What plans hang on at this moment beside their blocks; the same object as long as it is the same. */
export function pieceOptions(): PieceOptions {
  const project = shownProject(session.getState());
  const sheet = chosenSheet(project.unit);
  const parts = [project.fabrics, project.severities, project.seamAllowance, project.unit, sheet];
  if (present !== null && parts.every((part, k) => part === presentFor[k])) return present;
  presentFor = parts;
  const next = pieceOptionsOf(project, sheet);
  // What a fabric is called does not matter.
  if (present === null || optionsKey(next) !== optionsKey(present)) present = next;
  return present;
}
