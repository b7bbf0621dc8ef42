import {
  type CuttingPlan,
  cuttingPlan,
  type FabricPlan,
  type Strip,
  type StripCut,
} from '../../cutting/cutting-plan.ts';
import { KIND_WORDS } from '../../cutting/cutting-table.ts';
import { joinedWords } from '../../cutting/joined-cloth.ts';
import { toBuy } from '../../cutting/lengths.ts';
import type { PlainCuts } from '../../cutting/plain-cuts.ts';
import { clothsOf, cuttingRulesOf, handSizesOf, slackOf } from '../../cutting/project-cutting.ts';
import { THOROUGH_STEPS } from '../../cutting/strips/lay-strips.ts';
import { BOUND_WORDS, boughtWords, sumLines } from '../../cutting/sums.ts';
import type { Project } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import { type Mark, PT } from '../marks.ts';
import type { PrintWork } from '../print-work.ts';
import { lengthOf, textAt } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import { type BlockWork, fabricWords } from './block-work.ts';
import { CAUTIONS } from './cautions.ts';
import {
  BODY,
  draftsOf,
  type FlowItem,
  flowInto,
  HEADING,
  moved,
  type PageDraft,
  type PageSetting,
  paragraph,
  readingFrame,
  ruleItem,
  SMALL,
  STRONG,
  TITLE,
  tickBox,
  together,
} from './flow.ts';

/** The cutting list: for each fabric how much of it, its strips drawn to scale, and what each cut is for. */
export function cuttingPages(
  blocks: readonly BlockWork[],
  { project, plain = [] }: Pick<PrintWork, 'project' | 'plain'>,
  setting: PageSetting,
): readonly PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const plan = planOf(blocks, project, plain);
  if (plan.fabrics.length === 0) return [];
  const cautions = CAUTIONS.find(({ about }) => about === phrase('Rotary cutter'))?.lines ?? [];
  const items: FlowItem[] = [
    ...paragraph(typeface, phrase('Cutting list'), TITLE, frame.width),
    ...paragraph(
      typeface,
      phrase('{cautions} The makers’ instructions come first.', { cautions: cautions.join(' ') }),
      SMALL,
      frame.width,
      0.06,
    ),
    ruleItem(frame.width, 0.08),
    ...plan.fabrics.flatMap((fabric) => fabricItems(fabric, blocks, project, typeface, frame.width)),
  ];
  const block = blocks.length === 1 && plain.length === 0 ? blocks[0]!.blockId : null;
  return draftsOf(
    flowInto(items, frame.height),
    frame,
    { part: 'cutting', block, title: phrase('Cutting list') },
    setting,
  );
}

/** The very plan that the screen shows for these blocks and copies. */
const planOf = (blocks: readonly BlockWork[], project: Project, plain: readonly PlainCuts[]): CuttingPlan =>
  cuttingPlan({
    plain,
    made: blocks.map(({ blockId, plan, copies }) => ({ block: { id: blockId }, plan, copies })),
    cloths: clothsOf(project),
    rules: cuttingRulesOf(project),
    sizeOf: handSizesOf(project),
    steps: THOROUGH_STEPS,
  });

function fabricItems(
  fabric: FabricPlan,
  blocks: readonly BlockWork[],
  project: Project,
  typeface: Typeface,
  width: number,
): FlowItem[] {
  const { unit } = project;
  const slack = slackOf(project);
  const said = (inches: number): string => formatLength(inches, unit);
  const known = blocks[0]?.fabrics.find(({ id }) => id === fabric.fabric);
  const name = known ? fabricWords(known) : phrase('No fabric yet');
  const bought = fabric.length > 0 ? `: ${boughtWords(toBuy(fabric.length, slack), unit)}` : '';
  const kept = (items: readonly FlowItem[]): FlowItem[] =>
    items.map((item) => ({ ...item, keepsWithNext: true }));
  const short = fabric.tooLarge.map(({ block, patch, piece }) =>
    phrase('{nameOf} {patch} takes {width} × {height}: the fabric is too narrow for it.', {
      nameOf: nameOf(blocks, block),
      patch,
      width: said(piece.cut.width),
      height: said(piece.cut.height),
    }),
  );
  const joined = fabric.joined.map((one) => `${joinedWords(one, unit)}.`);
  return [
    ...kept(paragraph(typeface, `${name}${bought}`, HEADING, width, 0.24)),
    ...(fabric.length > 0
      ? [
          ...kept(paragraph(typeface, `${sumLines(fabric, slack, unit).join('; ')}.`, BODY, width, 0.04)),
          ...kept(
            paragraph(
              typeface,
              phrase('No plan can do with less than {bound}: {boundWord}.', {
                bound: said(fabric.bound.length),
                boundWord: BOUND_WORDS[fabric.bound.kind],
              }),
              SMALL,
              width,
              0.03,
            ),
          ),
        ]
      : []),
    ...short.flatMap((line) => paragraph(typeface, line, STRONG, width, 0.05)),
    ...joined.flatMap((line) => paragraph(typeface, line, BODY, width, 0.05)),
    ...fabric.fromStock.flatMap((one, i) =>
      one.strips.flatMap((strip, k) =>
        stripItems(
          strip,
          phrase('Piece {i} at hand, {width} × {height}, strip {k}', {
            i: i + 1,
            width: said(one.width),
            height: said(one.height),
            k: k + 1,
          }),
          one.width,
        ),
      ),
    ),
    ...fabric.strips.flatMap((strip, i) =>
      stripItems(strip, phrase('Strip {i}', { i: i + 1 }), fabric.usableWidth),
    ),
  ];

  function stripItems(strip: Strip, title: string, across: number): FlowItem[] {
    const [head] = paragraph(typeface, `${title}: ${said(strip.height)}`, STRONG, width - BOX_IN);
    const boxed: FlowItem = { ...head!, marks: [tickBox([0, 0.01]), ...moved(head!.marks, [BOX_IN, 0])] };
    const drawn = together([boxed, stripDrawing(strip, width, across, typeface)], 0.14);
    const lines = strip.cuts.flatMap((cut, i) =>
      paragraph(typeface, `${i + 1}   ${cutLine(cut)}`, SMALL, width, i === 0 ? 0.04 : 0.01),
    );
    return [{ ...drawn, keepsWithNext: true }, ...lines];
  }

  function cutLine({ kind, width: w, height, slant, for: patches, what }: StripCut): string {
    const then = KIND_WORDS[kind] && `, ${KIND_WORDS[kind]}`;
    const aslant = slant
      ? phrase(', from {slant} to {slant2} along its long edges', {
          slant: said(slant[0]),
          slant2: said(slant[1]),
        })
      : '';
    const names = patches.map(([block, patch, copy]) => {
      const copies = blocks.find(({ blockId }) => blockId === block)?.copies ?? 1;
      return phrase('{nameOf} {patch}{isCopies, select, true { (copy {copy})} other {}}', {
        nameOf: nameOf(blocks, block),
        patch,
        isCopies: copies > 1,
        copy,
      });
    });
    return `${said(w)} × ${said(height)}${then}${aslant}: ${what ?? names.join(', ')}`;
  }
}

/** Tallest drawing of a strip, inches. */
const TALLEST_IN = 2.5;

/** Room for a box to tick before a line, inches. */
const BOX_IN = 0.2;

const nameOf = (blocks: readonly BlockWork[], id: string): string =>
  blocks.find(({ blockId }) => blockId === id)?.blockName ?? id;

/** A strip as wide as the column, to scale, its cuts numbered in the order to make them. */
function stripDrawing(strip: Strip, width: number, across: number, typeface: Typeface): FlowItem {
  const scale = width / across;
  // A strip as long as a border is drawn lower than to scale, or it would fill the page.
  const down = Math.min(scale, TALLEST_IN / strip.height);
  const box = (x: number, w: number, h: number): Ring => [
    [x, 0],
    [x + w, 0],
    [x + w, h],
    [x, h],
  ];
  const high = strip.height * down;
  const marks: Mark[] = [{ kind: 'polygon', pen: 'cut-apart', ring: box(0, width, high) }];
  let x = 0;
  for (const [i, cut] of strip.cuts.entries()) {
    const [w, h] = [cut.width * scale, cut.height * down];
    marks.push({ kind: 'polygon', pen: 'frame', ring: box(x, w, h) });
    for (const points of furtherCuts(cut, w, h))
      marks.push({ kind: 'line', pen: 'trim', points: points.map(([a, b]): Point => [x + a, b]) });
    const size = Math.min(8 * PT, 0.8 * h);
    const number = { text: String(i + 1), face: 'semibold', size } as const;
    const wide = lengthOf(typeface, number);
    // In the upper left corner, clear of what is cut from corner to corner; not where it has no room.
    if (wide + 0.04 <= w)
      marks.push(textAt(typeface, number, [x + (w - wide) / 2, Math.min(h - 0.02, size + 0.02)]));
    x += w;
  }
  return { height: high, marks, space: 0.04 };
}

/** Where a cut is cut again, in its own frame. */
function furtherCuts(cut: StripCut, w: number, h: number): readonly (readonly Point[])[] {
  switch (cut.kind) {
    case 'rectangle':
      return [];
    case 'half-square':
      return [
        [
          [0, 0],
          [w, h],
        ],
      ];
    case 'quarter-square':
      return [
        [
          [0, 0],
          [w, h],
        ],
        [
          [w, 0],
          [0, h],
        ],
      ];
    case 'half-rectangle': {
      const [upper, lower] = cut.slant!;
      const whole = upper + lower;
      // It may lie turned a quarter in its strip: what ran along its top runs down its right side then.
      return Math.abs(whole - cut.width) < 1e-6
        ? [
            [
              [(upper / whole) * w, 0],
              [(lower / whole) * w, h],
            ],
          ]
        : [
            [
              [w, (upper / whole) * h],
              [0, (lower / whole) * h],
            ],
          ];
    }
  }
}
