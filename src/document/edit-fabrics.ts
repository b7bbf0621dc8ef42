import { relaidWith } from './edit-paint.ts';
import { withFabrics } from './edit-quilt.ts';
import { checkPicture, checkRoom } from './fabric-picture.ts';
import { nextFabricId } from './ids.ts';
import { checkName, FABRICS_PER_PROJECT, isColor } from './limits.ts';
import type { Fabric, FabricPicture, Project } from './project.ts';

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

/**
 * Gives a fabric a picture of the real cloth, and the colour that stands for it with it where one is given. A picture
 * that cannot be kept, by `checkPicture` and `checkRoom`, changes nothing.
 */
export function givePicture(
  project: Project,
  fabricId: string,
  picture: FabricPicture,
  color?: string,
): Project {
  const fabric = project.fabrics.find(({ id }) => id === fabricId);
  if (fabric === undefined || !checkPicture(picture).ok || !checkRoom(project, fabricId, picture).ok)
    return project;
  const changed: Fabric = {
    ...fabric,
    color: color !== undefined && isColor(color) ? color.toLowerCase() : fabric.color,
    picture,
  };
  return { ...project, fabrics: project.fabrics.map((other) => (other === fabric ? changed : other)) };
}

/** Takes a fabric's picture away; its colour stays. */
export function removePicture(project: Project, fabricId: string): Project {
  const fabric = project.fabrics.find(({ id }) => id === fabricId);
  if (fabric?.picture === undefined) return project;
  const { picture: _picture, ...plain } = fabric;
  return { ...project, fabrics: project.fabrics.map((other) => (other === fabric ? plain : other)) };
}

/** Takes a fabric away, and from every patch that it lies on. */
export function removeFabric(project: Project, fabricId: string): Project {
  const fabrics = project.fabrics.filter(({ id }) => id !== fabricId);
  if (fabrics.length === project.fabrics.length) return project;
  const blocks = project.blocks.map((block) => {
    if (!block.patches.some(({ fabric }) => fabric === fabricId)) return block;
    return {
      ...block,
      patches: block.patches.map((one) => (one.fabric === fabricId ? relaidWith(one, null) : one)),
    };
  });
  const { quilt } = project;
  return {
    ...project,
    fabrics,
    blocks,
    ...(quilt && { quilt: withFabrics(quilt, (fabric) => (fabric === fabricId ? null : fabric)) }),
  };
}

/**
 * Lays one fabric wherever another lay: in one block, or in all of them when `blockId` is null. Both stay in the
 * project. Nothing changes when either is no fabric of it.
 */
export function replaceFabric(
  project: Project,
  fromId: string,
  toId: string,
  blockId: string | null = null,
): Project {
  return relaid(project, new Map([[fromId, toId]]), blockId);
}

/** Two fabrics change places: in one block, or in all of them when `blockId` is null. */
export function swapFabrics(
  project: Project,
  oneId: string,
  otherId: string,
  blockId: string | null = null,
): Project {
  return relaid(
    project,
    new Map([
      [oneId, otherId],
      [otherId, oneId],
    ]),
    blockId,
  );
}

/** The project with fabrics laid in the place of others; itself when that changes nothing. */
function relaid(project: Project, instead: ReadonlyMap<string, string>, blockId: string | null): Project {
  const isFabric = (id: string): boolean => project.fabrics.some((fabric) => fabric.id === id);
  const changes = [...instead].every(([from, to]) => from !== to && isFabric(from) && isFabric(to));
  if (!changes) return project;
  const blocks = project.blocks.map((block) => {
    const isMeant = blockId === null || block.id === blockId;
    const patches = block.patches.map((one) => {
      const fabric = isMeant && one.fabric !== undefined ? instead.get(one.fabric) : undefined;
      return fabric === undefined ? one : { ...one, fabric };
    });
    return patches.every((one, i) => one === block.patches[i]) ? block : { ...block, patches };
  });
  const quilt =
    blockId === null && project.quilt
      ? withFabrics(project.quilt, (fabric) => instead.get(fabric) ?? fabric)
      : project.quilt;
  const isSame = quilt === project.quilt && blocks.every((block, index) => block === project.blocks[index]);
  return isSame ? project : { ...project, blocks, ...(quilt && { quilt }) };
}
