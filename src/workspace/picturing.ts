import { proxy, type Remote, wrap } from 'comlink';
import { createStore } from 'zustand/vanilla';
import { addBlock } from '../document/edit-block.ts';
import { addCuts } from '../document/edit-cuts.ts';
import { paintPatches } from '../document/edit-paint.ts';
import { changeQuilt } from '../document/edit-quilt.ts';
import { nextBlockId, nextFabricId } from '../document/ids.ts';
import type { Block, Fabric, Project, UnderPicture } from '../document/project.ts';
import type { KeptLayout, Setting } from '../document/quilt.ts';
import { snapPoint } from '../geometry/lattice.ts';
import type { Point, Ring } from '../geometry/point.ts';
import { blocksOf } from '../picturing/blocks-of.ts';
import type { BlockGrid } from '../picturing/over-blocks.ts';
import type { PictureBlock } from '../picturing/picture-block.ts';
import { drawnBlock } from '../picturing/to-block.ts';
import { makePlaces } from '../quilt/settings/make-places.ts';
import { phrase } from '../words/phrase.ts';
import { edit, goTo, openBlock, say } from './actions.ts';
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
  /** Of the block, or of the quilt that it makes. */
  readonly name: string;
  /** Of the whole, inches. */
  readonly width: number;
  readonly height: number;
  /** Of one block that is no rectangle, in the same inches. */
  readonly outline?: Ring;
  /** The blocks it is spread over; one by one. */
  readonly grid: BlockGrid;
  /** Ids of the fabrics that were offered; none where new ones were mixed. */
  readonly atHand: readonly string[];
  /** What lies under each drawing afterwards, in reading order; null for nothing. */
  readonly pictures: readonly (UnderPicture | null)[];
}

/**
 * Takes what was made from a picture into the project, as one step: ordinary blocks, painted, the picture under them.
 * Of several a quilt is set; the arrangement before is kept beside it.
 */
export function takePictureBlock(taken: TakenPicture): void {
  let id: string | null = null;
  const isQuilt = taken.pictures.length > 1;
  edit(isQuilt ? phrase('Quilt from a picture') : phrase('Block from a picture'), (project) => {
    const added = withPictureBlocks(project, taken);
    id = added === project ? null : added.blocks[project.blocks.length]!.id;
    return added;
  });
  if (id === null) say('trouble', phrase('The project holds no more blocks or fabrics.'));
  else if (isQuilt) goTo('quilt');
  else openBlock(id);
}

/**
 * Divides a patch as a picture block has it, as one step: its lines drawn and its patches painted, `corner` being where the
 * patch's box begins, inches. Every other line and patch stays as it is.
 */
export function divideByPicture(
  blockId: string,
  picture: PictureBlock,
  corner: Point,
  atHand: readonly string[],
): void {
  edit(phrase('Divide to follow the picture'), (project) => {
    const freshId = freshFabricIds(project);
    const { block, fabrics } = drawnBlock(picture, { id: blockId, name: '', outline: [] }, atHand, freshId);
    const moved = ([x, y]: Point): Point => snapPoint([x + corner[0], y + corner[1]]);
    const divided = addCuts(
      { ...project, fabrics: [...project.fabrics, ...fabrics] },
      blockId,
      block.cuts.map(({ from, to }) => ({ from: moved(from), to: moved(to) })),
    );
    const used = new Set(block.patches.map(({ fabric }) => fabric!));
    return [...used].reduce((painted, fabric) => {
      const own = block.patches.filter((patch) => patch.fabric === fabric);
      return paintPatches(
        painted,
        blockId,
        own.map(({ at }) => moved(at)),
        fabric,
      );
    }, divided);
  });
}

/** Ids for new fabrics, the nth always the same. */
function freshFabricIds(project: Project): (n: number) => string {
  const ids: string[] = [];
  let fabrics: readonly Fabric[] = project.fabrics;
  return (n) => {
    while (ids.length < n) {
      const next = nextFabricId({ ...project, fabrics });
      ids.push(next);
      fabrics = [...fabrics, { id: next, name: '', color: '#000000' }];
    }
    return ids[n - 1]!;
  };
}

function withPictureBlocks(project: Project, taken: TakenPicture): Project {
  const { block: picture, name, width, height, outline: given, grid, atHand, pictures } = taken;
  const [w, h] = [width / grid.columns, height / grid.rows];
  const outline = given ?? [
    [0, 0],
    [w, 0],
    [w, h],
    [0, h],
  ];
  const freshId = freshFabricIds(project);
  let next = project;
  let fresh: readonly Fabric[] = [];
  for (const [k, drawing] of blocksOf(picture, grid, [width, height]).entries()) {
    const own =
      pictures.length === 1 ? name : `${name} ${Math.floor(k / grid.columns) + 1}-${(k % grid.columns) + 1}`;
    const id = nextBlockId(next);
    const begun = addBlock(next, { name: own, outline });
    if (begun === next) return project;
    // The fabrics are the same for all of them.
    const made = drawnBlock(drawing, { id, name: own, outline }, atHand, freshId);
    const under = pictures[k] ?? null;
    fresh = made.fabrics;
    next = {
      ...begun,
      blocks: begun.blocks.map((one) =>
        one.id === id ? { ...made.block, ...(under && { picture: under }) } : one,
      ),
    };
  }
  next = { ...next, fabrics: [...project.fabrics, ...fresh] };
  return pictures.length === 1
    ? next
    : withPictureQuilt(next, taken, next.blocks.slice(project.blocks.length));
}

/** The blocks set side by side; what was arranged before stays beside as another arrangement. */
function withPictureQuilt(
  project: Project,
  { name, width, height, grid }: TakenPicture,
  blocks: readonly Block[],
): Project {
  const setting: Setting = { kind: 'straight', ...grid, cell: [width / grid.columns, height / grid.rows] };
  const made = makePlaces(
    setting,
    blocks.map(({ id }) => ({ block: id, turn: 0, mirrored: false })),
    [],
    project.blocks,
    project.unit,
  );
  if (!made.ok) return project;
  return changeQuilt(project, (old) => {
    const { module, setting: before, borders, units: _units, places, layouts = [], ...rest } = old;
    const kept: KeptLayout = {
      name: phrase('Before ‘{name}’', { name }),
      places,
      ...(module !== undefined && { module }),
      ...(before && { setting: before }),
      ...(borders && { borders }),
    };
    return {
      ...rest,
      places: made.places,
      setting,
      ...((layouts.length > 0 || places.length > 0) && {
        layouts: places.length > 0 ? [...layouts, kept] : layouts,
      }),
    };
  });
}
