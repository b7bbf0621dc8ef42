import { PIECES_FROM } from '../cutting/piece.ts';
import { fitsWidth, type LaidStrip } from '../cutting/strips/cloth.ts';
import { layStrips, QUICK_STEPS } from '../cutting/strips/lay-strips.ts';
import type { Work, WorkCut } from '../document/work.ts';
import { paperIn } from './work.ts';

/** Pieces of one size that are cut for a round. */
export interface RoundCut {
  readonly cut: WorkCut;
  /** Cuts to make: two patches come from one half-square. */
  readonly count: number;
  /** Patches served. */
  readonly patches: number;
}

export interface RoundCuts {
  /** The largest first. */
  readonly sizes: readonly RoundCut[];
  /** How they lie in strips across the cloth, `item` counting the cuts of `sizes` in turn; none for those too wide. */
  readonly strips: readonly LaidStrip[];
  /** Patches of which no size was kept. */
  readonly unknown: number;
}

/** The cloth a round is cut from. */
export interface RoundCloth {
  /** Between the selvages, inches. */
  readonly usableWidth: number;
  /** Its pieces may be laid one way only. */
  readonly isDirectional: boolean;
}

/** What is cut in one go for a round, or for some of its papers. */
export function cutsOfRound(
  work: Work,
  round: number,
  { usableWidth, isDirectional }: RoundCloth,
  papers?: readonly string[],
): RoundCuts {
  const bySize = new Map<string, { cut: WorkCut; patches: number }>();
  let unknown = 0;
  for (const { paper, patches } of work.rounds[round]!.takes) {
    if (papers && !papers.includes(paper)) continue;
    const { block } = paperIn(work, paper)!;
    for (const id of patches) {
      const cut = block.patches.find((patch) => patch.id === id)?.cut;
      if (cut === undefined) {
        unknown++;
        continue;
      }
      const key = `${cut.kind} ${cut.width} ${cut.height}`;
      const known = bySize.get(key);
      if (known) known.patches++;
      else bySize.set(key, { cut, patches: 1 });
    }
  }
  const sizes = [...bySize.values()]
    .map(
      ({ cut, patches }): RoundCut => ({ cut, patches, count: Math.ceil(patches / PIECES_FROM[cut.kind]) }),
    )
    .sort((a, b) => b.cut.height - a.cut.height || b.cut.width - a.cut.width);
  const items = sizes
    .flatMap(({ cut: { width, height }, count }) =>
      Array.from({ length: count }, () => ({ width, height, turns: !isDirectional })),
    )
    .filter((item) => fitsWidth(item, usableWidth));
  return { sizes, strips: layStrips(items, usableWidth, QUICK_STEPS), unknown };
}
