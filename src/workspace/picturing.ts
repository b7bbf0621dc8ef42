import { proxy, type Remote, wrap } from 'comlink';
import { createStore } from 'zustand/vanilla';
import { addBlock } from '../document/edit-block.ts';
import { nextBlockId, nextFabricId } from '../document/ids.ts';
import type { Fabric, Project, UnderPicture } from '../document/project.ts';
import type { PictureBlock } from '../picturing/picture-block.ts';
import { drawnBlock } from '../picturing/to-block.ts';
import { phrase } from '../words/phrase.ts';
import { edit, openBlock, say } from './actions.ts';
import type { PicturingHand, PicturingNews, PicturingOrder } from './picturing-worker.ts';
import { pieceOptions } from './present-options.ts';
import { onOtherProject } from './session.ts';
import { startWorker } from './worker-hand.ts';

export type { PicturingNews } from './picturing-worker.ts';

/** A block being made from a picture: the best so far, whether a better one is looked for, and what failed. */
export interface Picturing {
  readonly news: PicturingNews | null;
  readonly isBusy: boolean;
  /** One sentence, where it failed. */
  readonly failure: string | null;
}

const RESTING: Picturing = { news: null, isBusy: false, failure: null };

export const picturing = createStore<Picturing>(() => RESTING);

let hand: Remote<PicturingHand> | null = null;
let asked = 0;

function theHand(): Remote<PicturingHand> {
  if (hand === null) {
    const worker = startWorker('picturing');
    worker.addEventListener('error', () =>
      failed(phrase('The part that makes blocks from pictures could not be loaded.')),
    );
    hand = wrap<PicturingHand>(worker);
  }
  return hand;
}

function failed(reason: string): void {
  hand = null;
  picturing.setState({ isBusy: false, failure: reason });
}

onOtherProject(dropPicturing);

/** Forgets what was made, as when the dialog is closed. */
export function dropPicturing(): void {
  asked++;
  picturing.setState(RESTING);
  void hand?.stop();
}

/** Stops looking for better; what is there stays. */
export function stopPicturing(): void {
  asked++;
  picturing.setState({ isBusy: false });
  void hand?.stop();
}

/** Makes a block from a picture, telling of each better one. The result before stays until the first of it is there. */
export async function makeFromPicture(order: Omit<PicturingOrder, 'options'>): Promise<void> {
  const own = ++asked;
  picturing.setState({ isBusy: true, failure: null });
  try {
    const hear = proxy((news: PicturingNews) => {
      if (own === asked) picturing.setState({ news });
    });
    const made = await theHand().make({ ...order, options: pieceOptions() }, hear);
    if (own !== asked || made === false) return;
    picturing.setState({
      isBusy: false,
      failure:
        made === null
          ? phrase('No patch of the block keeps to that width and angle: allow narrower or sharper ones.')
          : null,
    });
  } catch (thrown) {
    if (own !== asked) return;
    const reason = thrown instanceof Error ? thrown.message : String(thrown);
    failed(phrase('The block could not be made. {reason}', { reason }));
  }
}

export interface TakenPicture {
  readonly block: PictureBlock;
  readonly name: string;
  /** Inches. */
  readonly width: number;
  readonly height: number;
  /** Ids of the fabrics that were offered; none where new ones were mixed. */
  readonly atHand: readonly string[];
  /** What lies under the drawing afterwards. */
  readonly picture: UnderPicture | null;
}

/** Takes a block made from a picture into the project, as one step: an ordinary block, painted, the picture under it. */
export function takePictureBlock(taken: TakenPicture): void {
  let id: string | null = null;
  edit(phrase('Block from a picture'), (project) => {
    const added = withPictureBlock(project, taken);
    id = added === project ? null : (added.blocks.at(-1)?.id ?? null);
    return added;
  });
  if (id === null) say('trouble', phrase('The project holds no more blocks or fabrics.'));
  else openBlock(id);
}

function withPictureBlock(
  project: Project,
  { block, name, width, height, atHand, picture }: TakenPicture,
): Project {
  const outline = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ] as const;
  const id = nextBlockId(project);
  const begun = addBlock(project, { name, outline });
  if (begun === project) return project;
  const ids: string[] = [];
  let fabrics: readonly Fabric[] = project.fabrics;
  const made = drawnBlock(block, { id, name, outline }, atHand, (n) => {
    while (ids.length < n) {
      const next = nextFabricId({ ...project, fabrics });
      ids.push(next);
      fabrics = [...fabrics, { id: next, name: '', color: '#000000' }];
    }
    return ids[n - 1]!;
  });
  return {
    ...begun,
    fabrics: [...project.fabrics, ...made.fabrics],
    blocks: begun.blocks.map((one) => (one.id === id ? { ...made.block, ...(picture && { picture }) } : one)),
  };
}
