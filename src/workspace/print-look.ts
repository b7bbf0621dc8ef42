import type { Unit } from '../document/project.ts';
import { DEFAULT_NESTING } from '../foundations/sheet/filling.ts';
import { longDay } from '../words/numeral.ts';
import { type PaperSettings, type Read, readChosenPage, readMargin } from './paper-settings.ts';
import type { PrintOrder } from './pdf-client.ts';
import { chosenCorrection, type Printers } from './printers.ts';

/** How papers look and lie: everything of an order but what is printed. */
export type PrintLook = Omit<PrintOrder, 'work' | 'parts' | 'codes'>;

/** The look that was chosen in the Paper place, or why the page or margin typed there is none. */
export function printLook(settings: PaperSettings, unit: Unit, known: Printers): Read<PrintLook> {
  const page = readChosenPage(settings, unit);
  if (!page.ok) return page;
  const margin = readMargin(settings, unit, page.value);
  if (!margin.ok) return margin;
  const correction = chosenCorrection(known);
  const { width, height } = page.value;
  const { side, turning, together, style, grain, large, tone } = settings;
  return {
    ok: true,
    value: {
      page: { name: '', width, height },
      margin: margin.value,
      side,
      nesting: { ...DEFAULT_NESTING, turning, together },
      style,
      grain,
      large,
      tone,
      correction: correction?.ok ? correction.correction : null,
      printedOn: longDay(new Date()),
    },
  };
}
