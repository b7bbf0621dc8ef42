import { dragDesign, withApp } from './page.ts';

/**
 * The whole board drawn anew, all its canvases, against a painter that makes the very same marks on one plain canvas,
 * call after call, with nothing to work out: the calls the board made are written down and played back. Both in the
 * page of the built app, in turn, until the pixels are there.
 */
export interface RedrawRow {
  readonly patches: number;
  readonly calls: number;
  readonly boardMs: number;
  readonly painterMs: number;
}

const ROUNDS = 30;

/** Runs in the page. Medians of `rounds`, each first in every other round. */
function measure(rounds: number): Omit<RedrawRow, 'patches'> {
  type Call =
    | readonly [name: string, value: unknown]
    | readonly [name: string, values: unknown[], isCall: true];
  interface BoardLayer {
    readonly drawScene: () => void;
    readonly getNativeCanvasElement: () => HTMLCanvasElement;
  }
  const stage = (window as unknown as { Konva: { stages: { getLayers: () => BoardLayer[] }[] } }).Konva
    .stages[0]!;
  const layers = stage.getLayers();
  const calls: Call[] = [];
  for (const layer of layers) {
    const element = layer.getNativeCanvasElement();
    const plain = element.getContext('2d')!;
    const noting = new Proxy(plain, {
      get(_, name: string) {
        const value: unknown = Reflect.get(plain, name, plain);
        if (typeof value !== 'function') return value;
        return (...values: unknown[]) => {
          calls.push([name, values, true]);
          return (value as (...all: unknown[]) => unknown).apply(plain, values);
        };
      },
      set(_, name: string, value) {
        calls.push([name, value]);
        return Reflect.set(plain, name, value, plain);
      },
    });
    Object.defineProperty(element, 'getContext', { value: () => noting, configurable: true });
    layer.drawScene();
    Reflect.deleteProperty(element, 'getContext');
  }
  const canvas = document.createElement('canvas');
  const first = layers[0]!.getNativeCanvasElement();
  canvas.width = first.width;
  canvas.height = first.height;
  const pen = canvas.getContext('2d')!;
  // One canvas is wiped once; words are measured to place them, which is no mark.
  const marks = calls.filter(([name], k) => name !== 'measureText' && (name !== 'clearRect' || k < 5));
  const settle = (context: CanvasRenderingContext2D): unknown => context.getImageData(0, 0, 1, 1);
  const board = (): void => {
    for (const layer of layers) layer.drawScene();
    for (const layer of layers) settle(layer.getNativeCanvasElement().getContext('2d')!);
  };
  const painter = (): void => {
    const on = pen as unknown as Record<string, unknown>;
    for (const [name, value, isCall] of marks)
      if (isCall) (on[name] as (...all: unknown[]) => unknown).apply(pen, value as unknown[]);
      else on[name] = value;
    settle(pen);
  };
  const times: Record<'board' | 'painter', number[]> = { board: [], painter: [] };
  for (let round = 0; round < rounds; round++)
    for (const who of round % 2 === 0 ? (['board', 'painter'] as const) : (['painter', 'board'] as const)) {
      const begun = performance.now();
      (who === 'board' ? board : painter)();
      times[who].push(performance.now() - begun);
    }
  const middle = (values: number[]): number => values.sort((a, b) => a - b)[values.length >> 1]!;
  return { calls: marks.length, boardMs: middle(times.board), painterMs: middle(times.painter) };
}

/** Null when there is no browser or no build. */
export const benchRedraw = (patches: number): Promise<RedrawRow | null> =>
  withApp(async (open) => {
    const { page } = await open(dragDesign(1, patches).block, patches);
    const row = await page.evaluate(measure, ROUNDS);
    return { patches, ...row };
  });
