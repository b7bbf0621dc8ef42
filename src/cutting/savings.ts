import { clothOf, cutKey, PIECES_FROM, type Piece } from './piece.ts';
import type { Choices } from './pieces.ts';

/** A patch, how often it is cut, and what it may be cut as. */
export interface Offer {
  readonly choices: Choices;
  readonly copies: number;
}

/**
 * Which piece each patch of one fabric is cut as, in the order of the offers. A cut that yields several pieces is
 * taken where so many patches share it that cloth is saved: what is left over of the last one counts as spent.
 * `fits`: whether the fabric is wide enough for a piece. All copies of a patch are cut alike.
 */
export function cutsThatSave(offers: readonly Offer[], fits: (piece: Piece) => boolean): readonly Piece[] {
  const chosen = offers.map(({ choices }) => choices.rectangle);
  let open = [...offers.keys()];
  const savings = offers.map(({ choices }) => choices.savings.filter(fits));
  // What takes least cloth is tried first; a patch that finds no company in it tries its next.
  for (let turn = 0; open.length > 0; turn++) {
    open = open.filter((i) => savings[i]!.length > turn);
    const groups = new Map<string, number[]>();
    for (const i of open) {
      const key = cutKey(savings[i]![turn]!.cut);
      groups.set(key, [...(groups.get(key) ?? []), i]);
    }
    for (const group of groups.values()) {
      for (const i of worthSharing(group, turn)) {
        chosen[i] = savings[i]![turn]!;
        open = open.filter((other) => other !== i);
      }
    }
  }
  return chosen;

  /** Those of a group that share cuts with a saving. */
  function worthSharing(group: readonly number[], turn: number): readonly number[] {
    const { cut } = savings[group[0]!]![turn]!;
    const yielded = PIECES_FROM[cut.kind];
    const whole = cut.width * cut.height;
    const savedBy = (members: readonly number[]): number => {
      let pieces = 0;
      let spared = 0;
      for (const i of members) {
        const { copies, choices } = offers[i]!;
        pieces += copies;
        spared += copies * (fits(choices.rectangle) ? clothOf(choices.rectangle.cut) : 2 * whole);
      }
      return spared - Math.ceil(pieces / yielded) * whole;
    };
    let best = group;
    // Left out are, one after another, those whose own rectangle is the least loss, as long as that saves more.
    const byGain = [...group].sort(
      (a, b) => clothOf(offers[a]!.choices.rectangle.cut) - clothOf(offers[b]!.choices.rectangle.cut),
    );
    for (let out = 1; out <= Math.min(byGain.length, yielded - 1); out++) {
      const without = byGain.slice(out);
      if (savedBy(without) > savedBy(best) + 1e-9) best = without;
    }
    return savedBy(best) > 1e-9 ? best : [];
  }
}
