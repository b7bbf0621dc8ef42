import { nextFabricId } from './ids.ts';
import { checkName, FABRICS_PER_PROJECT, isColor } from './limits.ts';
import type { Fabric, Project } from './project.ts';

export interface NewFabric {
  readonly name: string;
  /** `#rrggbb`. */
  readonly color: string;
}

/** Adds a fabric at the end; its id is `nextFabricId(project)`. An unusable name or colour, or one too many, changes nothing. */
export function addFabric(project: Project, { name, color }: NewFabric): Project {
  const checked = checkName(name);
  if (!checked.ok || !isColor(color) || project.fabrics.length >= FABRICS_PER_PROJECT) return project;
  const fabric: Fabric = { id: nextFabricId(project), name: checked.value, color: color.toLowerCase() };
  return { ...project, fabrics: [...project.fabrics, fabric] };
}

/** Changes name, colour or both. An unusable part changes nothing. */
export function updateFabric(project: Project, fabricId: string, change: Partial<NewFabric>): Project {
  const fabric = project.fabrics.find(({ id }) => id === fabricId);
  if (fabric === undefined) return project;
  const name = checkName(change.name ?? fabric.name);
  const color = (change.color ?? fabric.color).toLowerCase();
  if (!name.ok || !isColor(color) || (name.value === fabric.name && color === fabric.color)) return project;
  const changed: Fabric = { ...fabric, name: name.value, color };
  return { ...project, fabrics: project.fabrics.map((other) => (other === fabric ? changed : other)) };
}

/** Takes a fabric away, and its paint from every block. */
export function removeFabric(project: Project, fabricId: string): Project {
  const fabrics = project.fabrics.filter(({ id }) => id !== fabricId);
  if (fabrics.length === project.fabrics.length) return project;
  const blocks = project.blocks.map((block) => {
    const paint = block.paint.filter(({ fabric }) => fabric !== fabricId);
    return paint.length === block.paint.length ? block : { ...block, paint };
  });
  return { ...project, fabrics, blocks };
}
