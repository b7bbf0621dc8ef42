import { checkName, checkSeamAllowance } from './limits.ts';
import type { Project, Unit } from './project.ts';

/** Names are trimmed; an unusable one (`checkName` says why) changes nothing. */
export function renameProject(project: Project, name: string): Project {
  const checked = checkName(name);
  return !checked.ok || checked.value === project.name ? project : { ...project, name: checked.value };
}

/** Only how lengths are shown and read; stored lengths are inches whatever the unit. */
export function setUnit(project: Project, unit: Unit): Project {
  return unit === project.unit ? project : { ...project, unit };
}

/** Inches, snapped to the lattice; an unusable length (`checkSeamAllowance` says why) changes nothing. */
export function setSeamAllowance(project: Project, inches: number): Project {
  const checked = checkSeamAllowance(inches);
  if (!checked.ok || checked.value === project.seamAllowance) return project;
  return { ...project, seamAllowance: checked.value };
}
