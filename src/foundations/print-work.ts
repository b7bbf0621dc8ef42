import type { PlainCuts } from '../cutting/plain-cuts.ts';
import type { Project } from '../document/project.ts';
import { drawnFor } from '../document/turned-over.ts';
import type { MadeBlock } from '../making/making.ts';
import type { Section } from '../piecing/plan.ts';
import { verifyPlan } from '../piecing/verify.ts';
import { phrase } from '../words/phrase.ts';
import { bareShape } from './foundation/frame.ts';
import type { FabricLabel } from './foundation/label-request.ts';
import type { SheetShape } from './sheet/filling.ts';
import type { Rectangle } from './sheet/level-packing.ts';
import type { Side } from './side.ts';
import { printable, type Typeface } from './type/typeface.ts';

export interface PrintWork {
  readonly project: Project;
  readonly jobs: readonly MadeBlock[];
  /** One copy of one section alone, as when a paper was lost; all when absent. */
  readonly only?: { readonly section: string; readonly copy: number };
  /** Plain cloth that the cutting list counts beside the blocks, where a whole quilt is in hand. */
  readonly plain?: readonly PlainCuts[];
}

/**
 * Something the person should know about a print. `refused`: a block, or the whole, that is not printed. `name`:
 * a name of which the typeface lacks letters. `tiled`: a foundation larger than a sheet. `crowded`: a paper on
 * which a label found no free place. `empty`: there is nothing to print.
 */
export interface PrintNote {
  readonly kind: 'refused' | 'name' | 'tiled' | 'crowded' | 'empty';
  /** Id of the block, where it is about one. */
  readonly block: string | null;
  /** One or two plain sentences. */
  readonly message: string;
  /** Of a `tiled` note: what a sheet holds, inches. */
  readonly room?: Rectangle;
}

/** One section of one block, to be drawn once and printed in every copy. */
export interface Foundation {
  readonly job: MadeBlock;
  readonly section: Section;
  /** The one copy that is printed; all when undefined. */
  readonly onlyCopy: number | undefined;
  /** As the typeface can print it. */
  readonly blockName: string;
  /** Its paper without labels, inches. */
  readonly size: SheetShape;
}

/**
 * The foundations of all chosen blocks, in the order of the blocks. Every plan is checked once more by the sewing
 * rule itself; one that fails, or has no outline, is refused with a note.
 */
export function foundationsOf(
  work: PrintWork,
  side: Side,
  typeface: Typeface,
  notes: PrintNote[],
): readonly Foundation[] {
  return work.jobs.flatMap((job): Foundation[] => {
    const { block, plan, copies } = job;
    if (!(copies >= 1)) return [];
    const drawn = drawnFor(work.project, block.id);
    const position = work.project.blocks.findIndex(({ id }) => id === drawn) + 1;
    const name = printable(typeface, block.name, phrase('Block {position}', { position }));
    const refuse = (why: string): Foundation[] => {
      notes.push({
        kind: 'refused',
        block: block.id,
        message: phrase('{text} is not printed: {why}', { text: name.text, why }),
      });
      return [];
    };
    if (plan.verdict === 'broken')
      return refuse(
        plan.findings.find(({ severity }) => severity === 'trouble')?.message ??
          phrase('it has no usable outline.'),
      );
    const faults = verifyPlan(plan, block);
    if (faults.length > 0)
      return refuse(
        phrase('its plan failed the last check before printing ({fault}) Please report this block.', {
          fault: faults[0],
        }),
      );
    if (name.lacking !== '')
      notes.push(nameNote(block.id, phrase('The name of block {position}', { position }), name));
    // One job for all sections of the block: they are known by it to belong together.
    const counted = { ...job, copies: Math.floor(copies) };
    const printed = plan.sections.filter(
      ({ letter }) => work.only === undefined || letter === work.only.section,
    );
    return printed.map((section) => ({
      job: counted,
      section,
      onlyCopy: work.only?.copy,
      blockName: name.text,
      size: bareShape(section, work.project.seamAllowance, side),
    }));
  });
}

/** A fabric is named in full or by its code, never in part: two names may differ in the letters that are lacking. */
export function fabricLabels(
  work: PrintWork,
  typeface: Typeface,
  notes: PrintNote[],
): Map<string, FabricLabel> {
  const used = new Set(work.jobs.flatMap(({ plan }) => plan.patches.map(({ fabric }) => fabric)));
  return new Map(
    work.project.fabrics.map((fabric, i) => {
      const code = `#${i + 1}`;
      const name = printable(typeface, fabric.name, code);
      if (name.lacking !== '' && used.has(fabric.id))
        notes.push({
          kind: 'name',
          block: null,
          message: phrase(
            'The name of fabric {i} ({clipped}) has letters that the printing typeface lacks: its code {code} stands for it.',
            { i: i + 1, clipped: clipped(fabric.name), code },
          ),
        });
      const full = name.lacking === '' && name.text !== code ? name.text : null;
      const meaning =
        full ??
        (name.text !== code
          ? name.text
          : name.lacking !== ''
            ? phrase('(name in other letters)')
            : phrase('(no name)'));
      const short = full !== null && [...full].length <= LONGEST_ON_PATCH ? full : null;
      return [fabric.id, { name: short, code, meaning, look: { color: fabric.color, number: i } }];
    }),
  );
}

/** Letters of a fabric's name that are still read at a glance on a patch. */
const LONGEST_ON_PATCH = 48;

/** An entry of the key on the sheets: `#3 Night sea`. */
export const keyEntry = ({ code, meaning }: FabricLabel): string => `${code} ${clipped(meaning)}`;

export const nameNote = (
  block: string | null,
  what: string,
  { text }: { readonly text: string },
): PrintNote => ({
  kind: 'name',
  block,
  message: phrase('{what} has letters that the printing typeface lacks: on paper it reads “{text}”.', {
    what,
    text,
  }),
});

const clipped = (text: string): string =>
  [...text].length > 48 ? `${[...text].slice(0, 48).join('').trimEnd()}…` : text;
