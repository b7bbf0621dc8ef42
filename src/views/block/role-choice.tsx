import { editEverywhere } from '../../board/board-acts.ts';
import { setCutRole } from '../../document/edit-cuts.ts';
import type { CutRole } from '../../document/project.ts';
import { phrase } from '../../words/phrase.ts';
import { Choice } from '../choice.tsx';

export const ROLES: readonly (readonly [CutRole, string])[] = [
  ['auto', phrase('As it fits')],
  ['join', phrase('Join')],
  ['seam', phrase('Seam')],
];

/** Says of cuts what they must be. */
export const setRole = (blockId: string, cutIds: readonly string[], role: CutRole): void =>
  editEverywhere(phrase('Change role of line'), (project) => setCutRole(project, blockId, cutIds, role));

interface RoleChoiceProps {
  readonly blockId: string;
  readonly cutIds: readonly string[];
  /** Null when the cuts differ. */
  readonly role: CutRole | null;
}

export function RoleChoice({ blockId, cutIds, role }: RoleChoiceProps) {
  return (
    <Choice
      label={phrase('Sewn as')}
      options={ROLES}
      value={role}
      onChoose={(chosen) => setRole(blockId, cutIds, chosen)}
    />
  );
}
