import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { phrase } from '../../words/phrase.ts';
import type { Mark, TextMark } from '../marks.ts';
import { blockMarks } from '../type/lettering.ts';
import { grainArrow, upTries } from './arrows.ts';
import {
  lengthTries,
  mateText,
  mateTries,
  pointTries,
  runsOf,
  type Title,
  type TitleTry,
  titleTries,
} from './edge-labels.ts';
import { freeSquare } from './free-square.ts';
import { Ground } from './ground.ts';
import { boxAround, type LabelRequest, type LaidPatch, type Try } from './label-request.ts';
import { besidePatch, insidePatch, smallLabels } from './patch-labels.ts';

export interface PlacedLabels {
  /** Labels and their leader lines, alike on every copy. */
  readonly marks: readonly Mark[];
  readonly title: Title | null;
  /** Middle of the square code; null where none is wanted, or no spot is free. */
  readonly code: Point | null;
  /** Ids of fabrics shown by their code. */
  readonly codedFabrics: readonly string[];
  /** Texts that found no free place: they lie over a line, or where even that was impossible are left out. */
  readonly crowded: readonly string[];
}

/**
 * Finds a place for every label of a paper, in order of how little choice it has: registration points, patches,
 * mates of joining edges, patches that need a leader, grain arrows, the edge to measure, the title, what is up. Each takes the first free
 * place in its order of wishes; where none is free, the one with the fewest lines under it that touches no other
 * label.
 */
export function placeLabels(request: LabelRequest): PlacedLabels {
  const placed = placeInTurn(request, false);
  // On a small paper the title goes before what can do without: it must not be cut off.
  if (!placed.isTitleCutOff) return placed;
  const titleFirst = placeInTurn(request, true);
  return titleFirst.isTitleCutOff ? placed : titleFirst;
}

interface Placed extends PlacedLabels {
  readonly isTitleCutOff: boolean;
}

function placeInTurn(request: LabelRequest, isTitleEarly: boolean): Placed {
  const { room } = request;
  const ground = new Ground(room);
  for (const line of [...request.obstacles, ...room.lines]) ground.addLine(line);
  for (const x of room.barriersX)
    ground.addBarrier([
      [x, room.minY],
      [x, room.maxY],
    ]);
  for (const y of room.barriersY)
    ground.addBarrier([
      [room.minX, y],
      [room.maxX, y],
    ]);

  const marks: Mark[] = [];
  const coded = new Set<string>();
  const crowded: string[] = [];

  const put = (one: Try): TextMark[] => {
    ground.addLabel(boxAround({ ...one, pad: one.pad / 2, gap: 0 }));
    return blockMarks(one.block, one.slot.at, one.slot.turn);
  };
  const choose = <T extends Try>(tries: () => Iterable<T>): T | null => {
    for (const one of tries()) if (ground.isFree(boxAround(one))) return one;
    let best: T | null = null;
    let fewest = Number.POSITIVE_INFINITY;
    for (const one of tries()) {
      const box = boxAround({ ...one, pad: 0, gap: 0 });
      if (!ground.isAllowed(box)) continue;
      const under = ground.linesUnder(box);
      if (under >= fewest) continue;
      fewest = under;
      best = { ...one, pad: 0, gap: 0 };
    }
    return best;
  };
  const place = (text: string, tries: () => Iterable<Try>): TextMark[] => {
    const chosen = choose(tries);
    if (!chosen || ground.linesUnder(boxAround({ ...chosen, pad: 0, gap: 0 })) > 0) crowded.push(text);
    return chosen ? put(chosen) : [];
  };

  const labelled = new Set<string>();
  for (const edge of request.edges) {
    for (const point of edge.points) {
      if (labelled.has(point.label)) continue;
      labelled.add(point.label);
      marks.push(...place(point.label, () => pointTries(request, edge, point)));
    }
  }

  const homeless: LaidPatch[] = [];
  for (const laid of request.patches) {
    const inside = insidePatch(request, ground, laid);
    if (!inside) {
      homeless.push(laid);
      continue;
    }
    marks.push(...put(inside));
    if (inside.coded && laid.fabricId !== null) coded.add(laid.fabricId);
  }

  const runs = runsOf(request);
  let title: TitleTry | null = null;
  const placeTitle = (): void => {
    title ??= choose(() => titleTries(request, runs));
    if (!title) {
      crowded.push(phrase('the title'));
      return;
    }
    put(title);
    if (ground.linesUnder(boxAround({ ...title, pad: 0, gap: 0 })) > 0) crowded.push(phrase('the title'));
  };
  if (isTitleEarly) placeTitle();

  for (const edge of request.edges) marks.push(...place(mateText(edge), () => mateTries(request, edge)));

  for (const laid of homeless) {
    if (laid.fabricId !== null) coded.add(laid.fabricId);
    const beside = besidePatch(request, ground, laid);
    if (beside) {
      marks.push(...beside.leader, ...put(beside.label));
      for (const mark of beside.leader)
        if (mark.kind === 'line') ground.addLine([mark.points[0]!, mark.points[1]!]);
    } else {
      const block = smallLabels(request, laid).at(-1)!;
      marks.push(...place(laid.id, () => [{ block, slot: { at: innerSpot(laid.area), turn: 0 }, pad: 0 }]));
    }
  }

  for (const laid of request.patches) {
    if (!laid.grain) continue;
    const arrow = grainArrow(ground, laid);
    if (arrow) marks.push(...arrow);
    else if (!homeless.includes(laid)) crowded.push(phrase('the grain arrow of {id}', { id: laid.id }));
  }

  marks.push(...place(phrase('the length of an edge'), () => lengthTries(request, runs)));
  if (!isTitleEarly) placeTitle();
  marks.push(...place(phrase('the arrow that shows what is up'), () => upTries(request)));
  const chosen = title as TitleTry | null;
  const code = request.hasCode ? freeSquare(request, ground) : null;
  return {
    marks,
    title: chosen?.title ?? null,
    code,
    codedFabrics: [...coded],
    crowded,
    isTitleCutOff: chosen === null || chosen.isCutOff,
  };
}
