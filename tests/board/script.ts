import {
  type Effect,
  type Machine,
  machineOf,
  type Surroundings,
  type Tool,
} from '../../src/board/tools/tool.ts';
import type { Block, Project } from '../../src/document/project.ts';
import type { Point } from '../../src/geometry/point.ts';
import { piece } from '../../src/piecing/piece.ts';
import { projectWith, WINDOW } from '../editing/window.ts';

/**
 * A board without a screen, at 50 px to the inch: a tool in hand, a pointer that is told where to go, and the same
 * history a session keeps (every edit is one step).
 */
export class Script<State> {
  readonly #machine: Machine;
  project: Project;
  shown: Project;
  selection: readonly string[] = [];
  chosen: Surroundings['chosen'] = null;
  fabricId: string | null = null;
  outlineFor: Surroundings['outlineFor'] = { kind: 'this-block' };
  gridIn = 1 / 4;
  symmetry: Surroundings['symmetry'] = 'none';
  onePatch = false;
  chain: Surroundings['chain'] = { curve: 'straight', legs: 4 };
  readonly steps: string[] = [];
  readonly warnings: string[] = [];
  readonly panned: Point[] = [];
  isDone = false;

  constructor(tool: Tool<State>, block: Block = WINDOW) {
    this.#machine = machineOf(tool);
    this.project = projectWith(block);
    this.shown = this.project;
  }

  get block(): Block {
    return this.project.blocks[0]!;
  }

  get state(): { readonly kind: string } {
    return this.#machine.state() as { readonly kind: string };
  }

  get marks() {
    return this.#machine.marks();
  }

  down(x: number, y: number, keys: { shift?: boolean; free?: boolean } = {}): this {
    return this.#pointer('down', x, y, keys);
  }

  move(x: number, y: number, keys: { shift?: boolean; free?: boolean } = {}): this {
    return this.#pointer('move', x, y, keys);
  }

  up(x: number, y: number, keys: { shift?: boolean; free?: boolean } = {}): this {
    return this.#pointer('up', x, y, keys);
  }

  click(x: number, y: number, keys: { shift?: boolean; free?: boolean } = {}): this {
    return this.move(x, y, keys).down(x, y, keys).up(x, y, keys);
  }

  drag(from: Point, to: Point, keys: { shift?: boolean; free?: boolean } = {}): this {
    this.move(...from, keys).down(...from, keys);
    for (const share of [0.2, 0.5, 0.8, 1])
      this.move(from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share, keys);
    return this.up(...to, keys);
  }

  press(kind: 'cancel' | 'finish' | 'back'): this {
    return this.#carryOut(this.#machine.send({ kind }, this.#around()));
  }

  /** Types signs one by one, Tab as `\t`. */
  type(text: string): this {
    for (const sign of text)
      this.#carryOut(
        this.#machine.send(sign === '\t' ? { kind: 'next' } : { kind: 'type', sign }, this.#around()),
      );
    return this;
  }

  #pointer(
    kind: 'down' | 'move' | 'up',
    x: number,
    y: number,
    keys: { shift?: boolean; free?: boolean },
  ): this {
    const pointer = {
      at: [x, y] as const,
      screen: [x * 50, y * 50] as const,
      adds: keys.shift ?? false,
      steps: keys.shift ?? false,
      free: keys.free ?? false,
    };
    return this.#carryOut(this.#machine.send({ kind, pointer }, this.#around()));
  }

  #around(): Surroundings {
    const block = this.outlineFor.kind === 'new-block' ? null : this.block;
    return {
      project: this.project,
      block,
      plan: block === null ? null : piece(block),
      selection: this.selection,
      chosen: this.chosen,
      fabricId: this.fabricId,
      outlineFor: this.outlineFor,
      gridIn: this.gridIn,
      gridKind: 'square',
      divisions: [],
      symmetry: this.symmetry,
      chain: this.chain,
      onePatch: this.onePatch,
      reachIn: 10 / 50,
      grabIn: 10 / 50,
      dragIn: 4 / 50,
      pxIn: 1 / 50,
    };
  }

  #carryOut(effects: readonly Effect[]): this {
    for (const effect of effects) {
      switch (effect.kind) {
        case 'preview':
          this.shown = effect.change(this.project);
          break;
        case 'cancel-preview':
          this.shown = this.project;
          break;
        case 'edit':
          this.project = effect.change(this.project);
          this.shown = this.project;
          this.steps.push(effect.label);
          if (effect.select !== undefined) this.selection = effect.select;
          break;
        case 'select':
          this.selection = effect.cuts;
          this.chosen = null;
          break;
        case 'choose':
          this.selection = [];
          this.chosen = effect.chosen;
          break;
        case 'pan':
          this.panned.push(effect.by);
          break;
        case 'warn':
          this.warnings.push(effect.text);
          break;
        case 'done':
          this.isDone = true;
          break;
        case 'announce':
          break;
      }
    }
    return this;
  }
}
