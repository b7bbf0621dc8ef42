import { useMemo } from 'react';
import { toBuy } from '../../cutting/lengths.ts';
import { slackOf } from '../../cutting/project-cutting.ts';
import { costOf, shortageOf } from '../../cutting/shortage.ts';
import { BOUND_WORDS, boughtWords, sumLines } from '../../cutting/sums.ts';
import { cutMark } from '../../document/cutting-choices.ts';
import type { Fabric, Project } from '../../document/project.ts';
import { formatLength } from '../../geometry/length.ts';
import type { FabricCuts } from '../../workspace/cutting-client.ts';
import { Icon } from '../icons.tsx';
import { PiecesTable } from './pieces-table.tsx';
import { StripDrawing } from './strip-drawing.tsx';
import { bothWords } from './words.ts';

interface FabricSheetProps {
  readonly project: Project;
  readonly fabric: Fabric | null;
  readonly cuts: FabricCuts;
}

/** All there is to cut from one fabric: how much of it, its strips, its pieces. */
export function FabricSheet({ project, fabric, cuts }: FabricSheetProps) {
  const { unit } = project;
  const { plan, pieces } = cuts;
  const slack = slackOf(project);
  const said = (inches: number): string => formatLength(inches, unit);
  const done = useMemo(() => new Set(project.cutting?.done ?? []), [project.cutting?.done]);
  const keys = useMemo(
    () => new Map(pieces.map(({ block, patch, key }) => [`${block}/${patch}`, key])),
    [pieces],
  );
  const keyOf = (block: string, patch: string): string => keys.get(`${block}/${patch}`) ?? patch;
  const total =
    pieces.reduce((sum, { copies }) => sum + copies, 0) +
    plan.plain.reduce((sum, { count }) => sum + count, 0);
  const cutAlready = pieces.reduce(
    (sum, piece) =>
      sum +
      Array.from({ length: piece.copies }, (_, i) => i).filter((i) =>
        done.has(cutMark([piece.block, piece.key, piece.firstCopy + i], piece.piece.cut)),
      ).length,
    0,
  );
  const drawn = (strips: FabricCuts['plan']['strips'], width: number) =>
    strips.map((strip, k) => (
      <StripDrawing
        // biome-ignore lint/suspicious/noArrayIndexKey: strips are known by their order.
        key={k}
        strip={strip}
        nth={k + 1}
        width={width}
        fabric={fabric}
        unit={unit}
        done={done}
        keyOf={keyOf}
      />
    ));
  return (
    <div className="fabric-sheet">
      <header className="fabric-sheet-head">
        <h2>{fabric?.name ?? 'Without a fabric'}</h2>
        <p>
          {plan.strips.length > 0 ? boughtWords(toBuy(plan.length, slack), unit) : 'nothing to buy'}, {total}{' '}
          {total === 1 ? 'piece' : 'pieces'}
          {cutAlready > 0 && `, ${cutAlready} cut`}
          {fabric?.price &&
            plan.strips.length > 0 &&
            `, ${costOf(plan.length, slack, fabric.price).toFixed(2)} in all`}
        </p>
      </header>
      <Troubles project={project} fabric={fabric} cuts={cuts} />
      {plan.strips.length > 0 && (
        <section className="fabric-sum" aria-labelledby="sum-title">
          <h3 id="sum-title">How much</h3>
          <ol className="sum-lines">
            {sumLines(plan, slack, unit).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ol>
          <p className="soft">
            No plan can do with less than {said(plan.bound.length)}: {BOUND_WORDS[plan.bound.kind]}.{' '}
            {(100 * plan.fill).toFixed(1)} % of the strips is used.
          </p>
        </section>
      )}
      {plan.fromStock.map((piece, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: pieces at hand are known by their order.
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways where it is narrow, by keys too.
        <section key={i} className="strips" aria-label={`Piece ${i + 1} at hand`} tabIndex={0}>
          <h3>From a piece at hand, {bothWords(piece.width, piece.height, unit)}</h3>
          {drawn(piece.strips, piece.width)}
        </section>
      ))}
      {plan.strips.length > 0 && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways where it is narrow, by keys too.
        <section className="strips" aria-labelledby="strips-title" tabIndex={0}>
          <h3 id="strips-title">Strips across {said(plan.usableWidth)}, in the order to cut them</h3>
          <p className="soft caution-line">
            <Icon name="caution" size={16} /> Close the blade after every cut, cut away from yourself, fingers
            well behind the edge of the ruler. The maker’s instructions come first.
          </p>
          {drawn(plan.strips, plan.usableWidth)}
        </section>
      )}
      {plan.plain.length > 0 && (
        <section aria-labelledby="plain-title">
          <h3 id="plain-title">For the quilt</h3>
          <ul>
            {plan.plain.map((cut) => (
              <li key={`${cut.what} ${cut.kind} ${cut.width} ${cut.height}`}>
                <b>{cut.count}</b> · {cut.what}, {bothWords(cut.width, cut.height, unit)}
                {plan.plainTooLarge.includes(cut) &&
                  ': wider than the fabric, joined from two lengths and not counted'}
              </li>
            ))}
          </ul>
        </section>
      )}
      <section className="pieces" aria-labelledby="pieces-title">
        <h3 id="pieces-title">Pieces, to tick off as they are cut</h3>
        <p className="soft">Press a patch to see its cloth laid and swung over.</p>
        <PiecesTable pieces={pieces} blocks={project.blocks} unit={unit} done={done} />
      </section>
    </div>
  );
}

/** What stands in the way of cutting all of it from what there is. */
function Troubles({ project, fabric, cuts: { plan, pieces } }: FabricSheetProps) {
  const { unit } = project;
  const said = (inches: number): string => formatLength(inches, unit);
  const blockName = (id: string): string => project.blocks.find((block) => block.id === id)?.name ?? id;
  const lines: string[] = [];
  if (plan.tooLarge.length > 0) {
    const { block, patch, piece } = plan.tooLarge[0]!;
    const more = plan.tooLarge.length > 1 ? ` and ${plan.tooLarge.length - 1} more` : '';
    lines.push(
      `${blockName(block)} ${patch}${more} takes ${bothWords(piece.cut.width, piece.cut.height, unit)}, and the fabric is only ${said(plan.usableWidth)} wide${
        plan.grain === 'directional' ? ' with its print upright' : ''
      }: it is in no strip. A wider fabric, or a seam in the patch, would do.`,
    );
  }
  const short = pieces.filter((piece) => piece.short.length > 0);
  if (short.length > 0)
    lines.push(
      `${blockName(short[0]!.block)} ${short[0]!.patch}${short.length > 1 ? ` and ${short.length - 1} more` : ''} would not be covered by the size chosen by hand.`,
    );
  const atHand = fabric?.atHand?.length;
  const shortage = atHand === undefined ? null : shortageOf(plan, slackOf(project), atHand);
  if (shortage) {
    const names = shortage.patches.map(([block, patch]) => `${blockName(block)} ${patch}`);
    const listed = [...new Set(names)];
    lines.push(
      `What is at hand falls short by ${said(shortage.inches)}. In another fabric could go: ${listed.slice(0, 12).join(', ')}${listed.length > 12 ? ` and ${listed.length - 12} more` : ''}.`,
    );
  } else if (atHand !== undefined && plan.length > 0)
    lines.push(`What is at hand is enough: ${said(atHand)}.`);
  return (
    <>
      {lines.map((line) => (
        <p key={line} className={line.includes('is enough') ? 'fabric-good' : 'fabric-trouble'}>
          <Icon name={line.includes('is enough') ? 'good' : 'caution'} size={16} /> {line}
        </p>
      ))}
    </>
  );
}
