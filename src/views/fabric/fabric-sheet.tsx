import { useMemo } from 'react';
import { joinedWords } from '../../cutting/joined-cloth.ts';
import { toBuy } from '../../cutting/lengths.ts';
import { slackOf } from '../../cutting/project-cutting.ts';
import { costOf, shortageOf } from '../../cutting/shortage.ts';
import { BOUND_WORDS, boughtWords, sumLines } from '../../cutting/sums.ts';
import { cutMark } from '../../document/cutting-choices.ts';
import type { Fabric, Project } from '../../document/project.ts';
import { blockMade, blocksToMake } from '../../document/turned-over.ts';
import { formatLength } from '../../geometry/length.ts';
import { amount, numeral } from '../../words/numeral.ts';
import { phrase } from '../../words/phrase.ts';
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
        <h2>{fabric?.name ?? phrase('Without a fabric')}</h2>
        <p>
          {phrase(
            '{isStrips, select, true {{boughtWords}} other {nothing to buy}}, {total, plural, one {# piece} other {# pieces}}',
            {
              isStrips: plan.strips.length > 0,
              boughtWords: boughtWords(toBuy(plan.length, slack), unit),
              total,
            },
          )}
          {cutAlready > 0 && phrase(', {cutAlready} cut', { cutAlready })}
          {fabric?.price &&
            plan.strips.length > 0 &&
            phrase(', {cost} in all', { cost: amount(costOf(plan.length, slack, fabric.price)) })}
        </p>
      </header>
      <Troubles project={project} fabric={fabric} cuts={cuts} />
      {plan.strips.length > 0 && (
        <section className="fabric-sum" aria-labelledby="sum-title">
          <h3 id="sum-title">{phrase('How much')}</h3>
          <ol className="sum-lines">
            {sumLines(plan, slack, unit).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ol>
          <p className="soft">
            {phrase('No plan can do with less than {bound}: {boundWord}. {fill}% of the strips is used.', {
              bound: said(plan.bound.length),
              boundWord: BOUND_WORDS[plan.bound.kind],
              fill: numeral(100 * plan.fill, { minimumFractionDigits: 1, maximumFractionDigits: 1 }),
            })}
          </p>
        </section>
      )}
      {plan.fromStock.map((piece, i) => (
        <section
          // biome-ignore lint/suspicious/noArrayIndexKey: pieces at hand are known by their order.
          key={i}
          className="strips"
          aria-label={phrase('Piece {i} at hand', { i: i + 1 })}
          // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways where it is narrow, by keys too.
          tabIndex={0}
        >
          <h3>
            {phrase('From a piece at hand, {bothWords}', {
              bothWords: bothWords(piece.width, piece.height, unit),
            })}
          </h3>
          {drawn(piece.strips, piece.width)}
        </section>
      ))}
      {plan.strips.length > 0 && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways where it is narrow, by keys too.
        <section className="strips" aria-labelledby="strips-title" tabIndex={0}>
          <h3 id="strips-title">
            {phrase('Strips across {usableWidth}, in the order to cut them', {
              usableWidth: said(plan.usableWidth),
            })}
          </h3>
          <p className="soft caution-line">
            <Icon name="caution" size={16} />{' '}
            {phrase(
              'Close the blade after every cut, cut away from yourself, fingers well behind the edge of the ruler. The maker’s instructions come first.',
            )}
          </p>
          {drawn(plan.strips, plan.usableWidth)}
        </section>
      )}
      {plan.plain.length > 0 && (
        <section aria-labelledby="plain-title">
          <h3 id="plain-title">{phrase('For the quilt')}</h3>
          <ul>
            {plan.plain.map((cut) => (
              <li key={`${cut.what} ${cut.kind} ${cut.width} ${cut.height}`}>
                <b>{cut.count}</b> · {cut.what}, {bothWords(cut.width, cut.height, unit)}
              </li>
            ))}
            {plan.joined.map((one) => (
              <li key={one.parts.what}>{joinedWords(one, unit)}</li>
            ))}
          </ul>
        </section>
      )}
      <section className="pieces" aria-labelledby="pieces-title">
        <h3 id="pieces-title">{phrase('Pieces, to tick off as they are cut')}</h3>
        <p className="soft">{phrase('Press a patch to see its cloth laid and flipped over.')}</p>
        <PiecesTable
          pieces={pieces}
          blocks={blocksToMake(project, new Map(pieces.map((one) => [one.block, one.copies])))}
          unit={unit}
          done={done}
        />
      </section>
    </div>
  );
}

/** What stands in the way of cutting all of it from what there is. */
function Troubles({ project, fabric, cuts: { plan, pieces } }: FabricSheetProps) {
  const { unit } = project;
  const said = (inches: number): string => formatLength(inches, unit);
  const blockName = (id: string): string => blockMade(project, id)?.name ?? id;
  const lines: string[] = [];
  if (plan.tooLarge.length > 0) {
    const { block, patch, piece } = plan.tooLarge[0]!;
    const more =
      plan.tooLarge.length > 1 ? phrase(' and {tooLarge} more', { tooLarge: plan.tooLarge.length - 1 }) : '';
    lines.push(
      phrase(
        '{blockName} {patch}{more} takes {bothWords}, and the fabric is only {usableWidth} wide{grain, select, directional { with its print upright} other {}}: it is in no strip. A wider fabric, or a seam in the patch, would do.',
        {
          blockName: blockName(block),
          patch,
          more,
          bothWords: bothWords(piece.cut.width, piece.cut.height, unit),
          usableWidth: said(plan.usableWidth),
          grain: plan.grain,
        },
      ),
    );
  }
  const short = pieces.filter((piece) => piece.short.length > 0);
  if (short.length > 0)
    lines.push(
      phrase(
        '{blockName} {patch}{isShort, select, true { and {short} more} other {}} would not be covered by the size chosen by hand.',
        {
          blockName: blockName(short[0]!.block),
          patch: short[0]!.patch,
          isShort: short.length > 1,
          short: short.length - 1,
        },
      ),
    );
  const atHand = fabric?.atHand?.length;
  const enough = phrase('What is at hand is enough: {atHand}.', { atHand: said(atHand ?? 0) });
  const shortage = atHand === undefined ? null : shortageOf(plan, slackOf(project), atHand);
  if (shortage) {
    const names = shortage.patches.map(([block, patch]) => `${blockName(block)} ${patch}`);
    const listed = [...new Set(names)];
    lines.push(
      phrase(
        'What is at hand falls short by {inches}. In another fabric could go: {listed}{isListed, select, true { and {listed2} more} other {}}.',
        {
          inches: said(shortage.inches),
          listed: listed.slice(0, 12).join(', '),
          isListed: listed.length > 12,
          listed2: listed.length - 12,
        },
      ),
    );
  } else if (atHand !== undefined && plan.length > 0) lines.push(enough);
  return (
    <>
      {lines.map((line) => (
        <p key={line} className={line === enough ? 'fabric-good' : 'fabric-trouble'}>
          <Icon name={line === enough ? 'good' : 'caution'} size={16} /> {line}
        </p>
      ))}
    </>
  );
}
