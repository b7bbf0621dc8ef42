import { phrase } from '../../words/phrase.ts';
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
    label: phrase('Select'),
    key: 'V',
    hint: phrase('Click to choose, drag to move it or to draw a box round lines. Shift adds.'),
    touchHint: phrase(
      'Tap to choose, drag to move it or to draw a box round lines. Press and hold for what can be done.',
    ),
    begin: () => machineOf(selectTool),
  },
  {
    name: 'cut',
    label: phrase('Line'),
    key: 'C',
    hint: phrase('Drag, or click both ends. Type a length, Tab, an angle; T: a place. Shift: 15° steps.'),
    touchHint: phrase('Drag, or tap both ends. 15° and Free are beside the tools or under Aids.'),
    begin: () => machineOf(cutTool),
  },
  {
    name: 'chain',
    label: phrase('Chain'),
    key: 'D',
    hint: phrase(
      'Click place after place, each leg a line. Close on the first, or end with Enter or a second click.',
    ),
    touchHint: phrase(
      'Tap place after place, each leg a line. Close on the first, or end with End or a second tap.',
    ),
    begin: () => machineOf(chainTool),
  },
  {
    name: 'shorten',
    label: phrase('Shorten or extend'),
    key: 'E',
    hint: phrase('Click a stretch of a line to take it away; near its end, to extend it to the next line.'),
    touchHint: phrase(
      'Tap a stretch of a line to take it away; near its end, to extend it to the next line.',
    ),
    begin: () => machineOf(shortenTool),
  },
  {
    name: 'outline',
    label: phrase('Outline'),
    key: 'O',
    hint: phrase('Click corner after corner, close on the first. Type a length, Tab, an angle; T: a place.'),
    touchHint: phrase('Tap corner after corner, close on the first.'),
    begin: () => machineOf(outlineTool),
  },
  {
    name: 'paint',
    label: phrase('Lay fabric'),
    key: 'B',
    hint: phrase('Choose a fabric, then click patches or drag over them.'),
    touchHint: phrase('Choose a fabric, then tap patches or draw over them.'),
    begin: () => machineOf(paintTool),
  },
  {
    name: 'measure',
    label: phrase('Measure'),
    key: 'M',
    hint: phrase('Drag, or click both ends: length, angle, across and down.'),
    touchHint: phrase('Drag, or tap both ends: length, angle, across and down.'),
    begin: () => machineOf(measureTool),
  },
  {
    name: 'pan',
    label: phrase('Move sheet'),
    key: 'H',
    hint: phrase('Drag the sheet. With any tool: hold the space bar, or drag with two fingers.'),
    touchHint: phrase('Drag the sheet. With any tool: drag with two fingers.'),
    begin: () => machineOf(panTool),
  },
];

export const toolEntry = (name: ToolName): ToolEntry => TOOLS.find((tool) => tool.name === name)!;
