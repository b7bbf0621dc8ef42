import type { PlainCuts } from '../cutting/plain-cuts.ts';
import { oneLine } from '../document/file-place.ts';
import type { Block, Project } from '../document/project.ts';
import { copiesForQuilts } from '../document/recoloured-blocks.ts';
import { clothOfQuilts } from '../quilt/finishing/project-finishing.ts';
import { phrase } from '../words/phrase.ts';
import { Refusal, WrongUsage } from './trouble.ts';

/** What options say about which blocks are in hand, and how often. */

export const MOST_COPIES = 999;

/** The copies asked for with `--copies`. */
export function copiesOf(text: string): number {
  const copies = /^\d{1,4}$/.test(text) ? Number(text) : 0;
  if (copies < 1 || copies > MOST_COPIES) {
    throw new WrongUsage(`--copies takes a whole number from 1 to ${MOST_COPIES}.`);
  }
  return copies;
}

/** What is made, as options choose it. */
export interface ChosenInHand {
  /** Ids for `makingOf`, of blocks turned over too. */
  readonly blocks: readonly string[];
  readonly copies: number | ReadonlyMap<string, number>;
  /** Plain cloth beside the blocks. */
  readonly plain: readonly PlainCuts[];
}

/** `--quilt` takes every block as often as the quilts show it, turned over where they show that, and the plain cloth. */
export function readInHand(values: {
  readonly blocks?: string;
  readonly copies?: string;
  readonly quilt?: boolean;
}): (project: Project, file: string) => ChosenInHand {
  const copies = copiesOf(values.copies ?? '1');
  if (values.quilt && (values.blocks !== undefined || values.copies !== undefined))
    throw new WrongUsage(
      phrase('--quilt takes all the quilt needs: neither --blocks nor --copies goes with it.'),
    );
  if (values.quilt) return quiltInHand;
  return (project) => {
    const blocks = values.blocks === undefined ? project.blocks : chosenBlocks(project, values.blocks);
    return { blocks: blocks.map(({ id }) => id), copies, plain: [] };
  };
}

function quiltInHand(project: Project, file: string): ChosenInHand {
  const { quilt, blocks } = project;
  if (!quilt || quilt.places.length === 0)
    throw new Refusal(phrase('{file}: The project has no quilt.', { file }));
  const counts = copiesForQuilts({ quilt, blocks });
  return { blocks: [...counts.keys()], copies: counts, plain: clothOfQuilts(project) };
}

/** The blocks named, in the order of the project. A name may hold a comma, so the whole list is tried first. */
export function chosenBlocks(project: Project, list: string): readonly Block[] {
  const named = (wanted: string) => project.blocks.filter(({ id, name }) => id === wanted || name === wanted);
  const whole = named(list.trim());
  if (whole.length > 0) return whole;
  const wanted = list
    .split(',')
    .map((one) => one.trim())
    .filter((one) => one !== '');
  if (wanted.length === 0) throw new WrongUsage('--blocks takes ids or names with commas between them.');
  const missing = wanted.find((one) => named(one).length === 0);
  if (missing !== undefined)
    throw new Refusal(
      phrase('The file has no block ‘{missing}’: {blocksThereAre}.', {
        missing: oneLine(missing),
        blocksThereAre: blocksThereAre(project),
      }),
    );
  const chosen = new Set(wanted.flatMap(named));
  return project.blocks.filter((block) => chosen.has(block));
}

function blocksThereAre({ blocks }: Project): string {
  const shown = blocks.slice(0, 8).map(({ id, name }) => `${id} ‘${oneLine(name)}’`);
  if (shown.length === 0) return phrase('it has none at all');
  return phrase('it has {shown}{isBlocks, select, true { and {blocks} more} other {}}', {
    shown: shown.join(', '),
    isBlocks: blocks.length > shown.length,
    blocks: blocks.length - shown.length,
  });
}
