import { dropFile } from '../../e2e/window.ts';
import { EMPTY_PROJECT } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { piece } from '../../src/piecing/piece.ts';
import { joiningOf } from '../../src/quilt/joining.ts';
import { layOut } from '../../src/quilt/layout.ts';
import { benchDesign } from './bench-design.ts';
import { median, type Patience, timeOf } from './measure.ts';
import { dragDesign, withWindows } from './page.ts';

/** The joining plan of a quilt beside the plan of one block of 200 patches, milliseconds. */
export interface JoiningRow {
  readonly places: number;
  readonly joiningMs: number;
  readonly blockMs: number;
}

/** About so many places of 6 in, every fifteenth one four times as large. */
function mixedPlaces(side: number) {
  const places: { id: string; at: [number, number]; size: [number, number] }[] = [];
  const taken = new Set<string>();
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      if (taken.has(`${x} ${y}`)) continue;
      const size = x % 5 === 0 && y % 3 === 0 && x + 1 < side && y + 1 < side ? 2 : 1;
      for (let i = 0; i < size; i++) for (let j = 0; j < size; j++) taken.add(`${x + i} ${y + j}`);
      places.push({ id: `p${places.length + 1}`, at: [6 * x, 6 * y], size: [6 * size, 6 * size] });
    }
  return places;
}

/** Division and joining of the quilt; division and piecing of the block. */
export function benchJoining(patience: Patience): JoiningRow {
  const places = mixedPlaces(23);
  const design = benchDesign(200, 200);
  const block = {
    id: 'bench-200',
    name: 'Bench 200',
    outline: design.outline,
    cuts: design.lines.map(([from, to], i) => ({ id: `c${i + 1}`, from, to, role: 'auto' as const })),
    patches: [],
  };
  return {
    places: places.length,
    joiningMs: timeOf(() => joiningOf(layOut({ places }, [])), patience),
    blockMs: timeOf(() => piece(block), patience),
  };
}

/** A frame of a drag on the quilt's board, and a plain canvas that paints all the same pictures, milliseconds. */
export interface QuiltDragRow {
  readonly blocks: number;
  readonly frameMs: number;
  readonly slowestMs: number;
  readonly plainMs: number;
}

/** Runs in the page while a place is carried. Each in turn, until the pixels are there. */
function measure([rounds, blocks, dots]: readonly [number, number, number]): {
  frames: number[];
  plain: number[];
} {
  interface BoardLayer {
    readonly drawScene: () => void;
    readonly getNativeCanvasElement: () => HTMLCanvasElement;
  }
  const stage = (window as unknown as { Konva: { stages: { getLayers: () => BoardLayer[] }[] } }).Konva
    .stages[0]!;
  const layers = stage.getLayers();
  const board = layers[0]!.getNativeCanvasElement();
  const pictures = Array.from({ length: blocks }, (_, k) => {
    const canvas = document.createElement('canvas');
    canvas.width = dots;
    canvas.height = dots;
    const pen = canvas.getContext('2d')!;
    pen.fillStyle = `hsl(${(k * 47) % 360} 50% 50%)`;
    pen.fillRect(0, 0, dots, dots);
    return canvas;
  });
  const plainBoard = document.createElement('canvas');
  plainBoard.width = board.width;
  plainBoard.height = board.height;
  const pen = plainBoard.getContext('2d')!;
  const columns = Math.ceil(Math.sqrt(blocks));
  const side = Math.min(board.width, board.height) / columns;
  const pixels = (context: CanvasRenderingContext2D): unknown => context.getImageData(0, 0, 1, 1);
  const frames: number[] = [];
  const plain: number[] = [];
  for (let round = -10; round < rounds; round++) {
    let begun = performance.now();
    // What a move paints: what is carried, and the words over it.
    for (const layer of layers.slice(1)) {
      layer.drawScene();
      pixels(layer.getNativeCanvasElement().getContext('2d')!);
    }
    const frame = performance.now() - begun;
    begun = performance.now();
    pen.clearRect(0, 0, plainBoard.width, plainBoard.height);
    pictures.forEach((picture, k) => {
      pen.drawImage(picture, (k % columns) * side, Math.floor(k / columns) * side, side, side);
    });
    pixels(pen);
    // The first rounds warm both up.
    if (round < 0) continue;
    frames.push(frame);
    plain.push(performance.now() - begun);
  }
  return { frames, plain };
}

/** Drags a block over quilts of so many blocks, each of 60 patches, in the built app. Null without a browser or a build. */
export function benchQuiltDrag(sizes: readonly number[]): Promise<QuiltDragRow[] | null> {
  return withWindows(async (newWindow, address) => {
    const rows: QuiltDragRow[] = [];
    for (const blocks of sizes) {
      const page = await newWindow();
      await page.goto(address);
      await page.locator('.block-open').first().waitFor();
      const drawn = Array.from({ length: Math.min(blocks, 70) }, (_, k) => dragDesign(900 + k, 60).block);
      const project = {
        ...EMPTY_PROJECT,
        fabrics: [
          { id: 'f1', name: 'Night sea', color: '#1d3557' },
          { id: 'f2', name: 'Foam', color: '#f1ede2' },
        ],
        blocks: drawn.map((block, k) => ({
          ...block,
          id: `b${k + 1}`,
          name: `Block ${k + 1}`,
          patches: block.patches.map((patch, i) => ({ ...patch, fabric: i % 2 === 0 ? 'f1' : 'f2' })),
        })),
      };
      const columns = Math.ceil(Math.sqrt(blocks));
      const reach = project.blocks.map(({ outline }) => Math.max(...outline.flat()));
      const step = Math.ceil(Math.max(...reach)) + 1;
      const places = Array.from({ length: blocks }, (_, k) => ({
        id: `p${k + 1}`,
        block: project.blocks[k % project.blocks.length]!.id,
        at: [(k % columns) * step, Math.floor(k / columns) * step] as const,
        turn: 0,
        mirrored: false,
      }));
      await dropFile(page, 'wall.underpaper.json', toText({ ...project, quilt: { places } }));
      await page.keyboard.press('Alt+2');
      const board = page.locator('.quilt-board');
      await board.waitFor();
      await page.waitForTimeout(2_000);
      const box = (await board.boundingBox())!;
      const [scale, x, y] = (await board.getAttribute('data-camera'))!.split(' ').map(Number);
      const at = (inches: number): [number, number] => [
        box.x + x! + inches * scale!,
        box.y + y! + inches * scale!,
      ];
      await page.mouse.move(...at(step / 3));
      await page.mouse.down();
      await page.mouse.move(...at(2 * step), { steps: 6 });
      const { frames, plain } = await page.evaluate(measure, [
        60,
        blocks,
        Math.max(8, Math.round(step * scale!)),
      ] as const);
      await page.mouse.up();
      await page.close();
      rows.push({ blocks, frameMs: median(frames), slowestMs: Math.max(...frames), plainMs: median(plain) });
    }
    return rows;
  });
}
