import { Fragment } from 'react';
import { light } from '../../board/board-acts.ts';
import type { Block, Fabric } from '../../document/project.ts';
import { moved } from '../../piecing/hand-order.ts';
import { orderCounts } from '../../piecing/order-counts.ts';
import type { Patch, PiecingPlan, Section } from '../../piecing/plan.ts';
import { unitWords } from '../../piecing/sentences.ts';
import { phrase } from '../../words/phrase.ts';
import { pieceOptions } from '../../workspace/present-options.ts';
import { Icon } from '../icons.tsx';
import { FirstButton } from './first-button.tsx';
import { ordersFor, patchesOf, suggestOrder } from './order-edits.ts';
import { firstPosition, type OrderHand, useOrderHand } from './order-hand.ts';
import { OrderPlace } from './order-place.tsx';

interface OrderListProps {
  readonly block: Block;
  readonly plan: PiecingPlan;
  readonly section: Section;
  readonly fabrics: ReadonlyMap<string, Fabric>;
}

/** A section's patches in their order, each of which can be taken to another place by pointer or keyboard. */
export function OrderList({ block, plan, section, fabrics }: OrderListProps) {
  const { order, letter, startsFrom } = section;
  const orderHand = useOrderHand(block, plan, section);
  const { list, hand, faults, refusal, shown } = orderHand;
  const over = hand?.over ?? null;
  const counted =
    hand !== null && over !== null && faults[over] === null ? moved(order, hand.from, over) : order;
  return (
    <div className="order">
      <ol
        ref={list}
        className="order-list"
        data-taken={hand !== null}
        aria-label={phrase('Order of {letter}', { letter })}
        onBlur={(event) => {
          if (!event.currentTarget.contains(event.relatedTarget)) orderHand.forgetRefusal();
        }}
      >
        {startsFrom.length > 0 && (
          <li className="order-unit">
            {letter}1 = {unitWords(startsFrom)}
          </li>
        )}
        {patchesOf(plan, section).map((patch, place) => {
          const isInHand = hand?.from === place;
          const isOpen = hand !== null && !isInHand;
          const mark = (isOpen || refusal?.to === place) && (
            <OrderPlace
              key={`place ${patch.id}`}
              place={place}
              position={place + firstPosition(section)}
              inHand={order[hand?.from ?? 0]!}
              fault={faults[place] ?? null}
              isOver={over === place}
              refusal={refusal?.to === place ? refusal.fault : null}
              isOpen={isOpen}
              onOver={() => orderHand.goOver(place)}
              onPut={() => orderHand.putAt(place)}
              onLeave={() => orderHand.leave(place)}
            />
          );
          const row = (
            <li
              key={patch.id}
              className="order-row"
              data-in-hand={isInHand}
              data-place={isInHand ? place : undefined}
              onPointerEnter={() => {
                if (shown === null) light({ kind: 'patches', ids: [patch.id] });
              }}
              onPointerLeave={() => {
                if (shown === null) light(null);
              }}
            >
              <PatchName patch={patch} fabrics={fabrics} />
              {place > 0 && <FirstButton block={block} plan={plan} section={section} id={patch.id} isIcon />}
              {order.length > 1 && <Grip id={patch.id} isInHand={isInHand} {...orderHand.grip(place)} />}
            </li>
          );
          // The place of a patch below the one in hand lies under it, of one above it over it.
          const isBelow = hand !== null && place > hand.from;
          return <Fragment key={patch.id}>{isBelow ? [row, mark] : [mark, row]}</Fragment>;
        })}
      </ol>
      <p className="order-counts soft">{countWords(plan, section, counted)}</p>
      {ordersFor(block, plan, section).length > 0 && (
        <p className="order-hand">
          <span>{phrase('Set by hand.')}</span>
          <button type="button" className="button" onClick={() => suggestOrder(block, plan, section)}>
            {phrase('Back to the suggested order')}
          </button>
        </p>
      )}
    </div>
  );
}

interface PatchNameProps {
  readonly patch: Patch;
  readonly fabrics: ReadonlyMap<string, Fabric>;
}

function PatchName({ patch, fabrics }: PatchNameProps) {
  const fabric = patch.fabric === null ? undefined : fabrics.get(patch.fabric);
  return (
    <>
      <span className="row-swatch" style={{ backgroundColor: fabric?.color ?? 'var(--sheet)' }} />
      <b>{patch.id}</b>
      <span className="order-fabric soft">{fabric?.name ?? phrase('no fabric yet')}</span>
    </>
  );
}

type GripProps = ReturnType<OrderHand['grip']> & { readonly id: string; readonly isInHand: boolean };

/** What a patch is taken up by. */
function Grip({ id, isInHand, ...listens }: GripProps) {
  return (
    <button
      type="button"
      className="icon-button order-grip"
      aria-label={phrase('Move {id}', { id })}
      title={phrase('Move {id} to another place (Alt + up or down)', { id })}
      aria-pressed={isInHand}
      {...listens}
    >
      <Icon name="grip" size={18} />
    </button>
  );
}

function countWords(plan: PiecingPlan, section: Section, order: readonly string[]): string {
  const lightness = pieceOptions().lightness ?? new Map();
  const { fabricChanges, lightOverDark } = orderCounts(plan, section, order, lightness);
  const changes =
    fabricChanges === 0
      ? phrase('One fabric throughout')
      : phrase('{fabricChanges, plural, one {# change of fabric} other {# changes of fabric}}', {
          fabricChanges,
        });
  return phrase(
    '{changes}, {isLightOverDark, select, true {no light patch over a dark one} other {{lightOverDark} light over dark}}.',
    { changes, isLightOverDark: lightOverDark === 0, lightOverDark },
  );
}
