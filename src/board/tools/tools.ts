import { chainTool } from './chain.ts';
import { cutTool } from './cut.ts';
import { measureTool } from './measure.ts';
import { outlineTool } from './outline.ts';
import { paintTool } from './paint.ts';
import { panTool } from './pan.ts';
import { selectTool } from './select.ts';
import { shortenTool } from './shorten.ts';
import { type Machine, machineOf, type ToolName } from './tool.ts';

/** A tool as people know it. */
export interface ToolEntry {
  readonly name: ToolName;
  readonly label: string;
  /** The single key that takes it up. */
  readonly key: string;
  /** How it works, in one line. */
  readonly hint: string;
  /** The same for a finger. */
  readonly touchHint: string;
  readonly begin: () => Machine;
}

/** Every tool, once: the strip of buttons, the keys and the help all read this list. */
export const TOOLS: readonly ToolEntry[] = [
  {
    name: 'select',
    label: 'Select',
    key: 'V',
    hint: 'Click to choose, drag to move it or to draw a box round cuts. Shift adds.',
    touchHint:
      'Tap to choose, drag to move it or to draw a box round cuts. Press and hold for what can be done.',
    begin: () => machineOf(selectTool),
  },
  {
    name: 'cut',
    label: 'Cut',
    key: 'C',
    hint: 'Drag, or click both ends. Type a length, Tab, an angle; T: a place. Shift: 15° steps.',
    touchHint: 'Drag, or tap both ends. 15° and Free are beside the tools or under Aids.',
    begin: () => machineOf(cutTool),
  },
  {
    name: 'chain',
    label: 'Chain',
    key: 'D',
    hint: 'Click place after place, each leg a cut. Close on the first, or end with Enter or a second click.',
    touchHint: 'Tap place after place, each leg a cut. Close on the first, or end with End or a second tap.',
    begin: () => machineOf(chainTool),
  },
  {
    name: 'shorten',
    label: 'Shorten or extend',
    key: 'E',
    hint: 'Click a stretch of a cut to take it away; near its end, to draw it on to the next line.',
    touchHint: 'Tap a stretch of a cut to take it away; near its end, to draw it on to the next line.',
    begin: () => machineOf(shortenTool),
  },
  {
    name: 'outline',
    label: 'Outline',
    key: 'O',
    hint: 'Click corner after corner, close on the first. Type a length, Tab, an angle; T: a place.',
    touchHint: 'Tap corner after corner, close on the first.',
    begin: () => machineOf(outlineTool),
  },
  {
    name: 'paint',
    label: 'Lay fabric',
    key: 'B',
    hint: 'Choose a fabric, then click patches or drag over them.',
    touchHint: 'Choose a fabric, then tap patches or draw over them.',
    begin: () => machineOf(paintTool),
  },
  {
    name: 'measure',
    label: 'Measure',
    key: 'M',
    hint: 'Drag, or click both ends: length, angle, across and down.',
    touchHint: 'Drag, or tap both ends: length, angle, across and down.',
    begin: () => machineOf(measureTool),
  },
  {
    name: 'pan',
    label: 'Move sheet',
    key: 'H',
    hint: 'Drag the sheet. With any tool: hold the space bar, or drag with two fingers.',
    touchHint: 'Drag the sheet. With any tool: drag with two fingers.',
    begin: () => machineOf(panTool),
  },
];

export const toolEntry = (name: ToolName): ToolEntry => TOOLS.find((tool) => tool.name === name)!;
