import { editEverywhere } from '../../board/board-acts.ts';
import { setCutRole } from '../../document/edit-cuts.ts';
import type { CutRole } from '../../document/project.ts';
import { Choice } from '../choice.tsx';

export const ROLES: readonly (readonly [CutRole, string])[] = [
  ['auto', 'As it fits'],
  ['join', 'Join'],
  ['seam', 'Seam'],
];

/** Says of cuts what they must be. */
export const setRole = (blockId: string, cutIds: readonly string[], role: CutRole): void =>
  editEverywhere('Change role of cut', (project) => setCutRole(project, blockId, cutIds, role));

interface RoleChoiceProps {
  readonly blockId: string;
  readonly cutIds: readonly string[];
  /** Null when the cuts differ. */
  readonly role: CutRole | null;
}

export function RoleChoice({ blockId, cutIds, role }: RoleChoiceProps) {
  return (
    <Choice
      label="Sewn as"
      options={ROLES}
      value={role}
      onChoose={(chosen) => setRole(blockId, cutIds, chosen)}
    />
  );
}
