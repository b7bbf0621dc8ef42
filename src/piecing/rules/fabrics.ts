import type { Segment } from '../../geometry/point.ts';
import { centroid, middle } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Lightness } from '../options.ts';
import type { Edge, Patch, Section } from '../plan.ts';
import { listed, type Rule } from './rule.ts';

/** Lightness steps (L* / 100) from which a dark allowance shows through a light patch. A judgement of the trade. */
export const SHADOW_STEP = 0.25;

/**
 * Patches lighter than one they are sewn to: the allowance of both lies under the newer patch, so the darker one
 * shows through.
 */
export const shadowing: Rule = {
  code: 'shadowing',
  title: phrase('Shadowing'),
  severity: 'note',
  check: ({ patches, sections, edges, options }) => {
    const { lightness } = options;
    if (!lightness) return [];
    const byId = new Map(patches.map((patch) => [patch.id, patch]));
    return sections.flatMap((section) =>
      darkUnder(section, byId, lightness).map(({ patch, under }) => ({
        at: centroid(patch.polygon),
        patches: [patch.id, ...under],
        stretches: edgesBetween(edges, (one, other) =>
          one === patch.id ? under.includes(other) : other === patch.id && under.includes(one),
        ),
        message: phrase(
          '{id} is lighter than {under} it is sewn to: the dark allowance lies under it and may show. Trim that allowance a little shorter, or sew {id} earlier.',
          { id: patch.id, under: listed(under) },
        ),
      })),
    );
  },
};

/** The edges that have two patches beside them of which so much is true. */
const edgesBetween = (
  edges: readonly Edge[],
  isMeant: (left: string, right: string) => boolean,
): readonly Segment[] =>
  edges.flatMap(({ from, to, left, right }) =>
    left !== null && right !== null && isMeant(left, right) ? [[from, to] as const] : [],
  );

/** Patches side by side in two fabrics that can hardly be told apart, all seams between one such pair in one finding. */
export const alikeNeighbours: Rule = {
  code: 'alike-neighbours',
  title: phrase('Neighbours alike'),
  severity: 'note',
  check: ({ patches, edges, options }) => {
    const fabricOf = new Map(patches.map(({ id, fabric }) => [id, fabric]));
    return (options.alike ?? []).flatMap(([one, other]) => {
      const isMeant = (left: string, right: string): boolean => {
        const [a, b] = [fabricOf.get(left), fabricOf.get(right)];
        return (a === one && b === other) || (a === other && b === one);
      };
      const meeting = edges.filter(
        ({ left, right }) => left !== null && right !== null && isMeant(left, right),
      );
      const ids = [...new Set(meeting.flatMap(({ left, right }) => [left!, right!]))];
      const [first] = meeting;
      if (!first) return [];
      return [
        {
          at: middle(first.from, first.to),
          patches: ids,
          stretches: edgesBetween(edges, isMeant),
          message: phrase(
            '{ids} lie side by side in fabrics that can hardly be told apart: their seams will not be seen. A lighter or darker fabric for one side keeps the picture clear.',
            { ids: listed(ids) },
          ),
        },
      ];
    });
  },
};

/** A patch, and the darker ones whose allowance lies under it. */
export interface Shadow {
  readonly patch: Patch;
  readonly under: readonly string[];
}

/** The patches of a section, sewn in its order, that are lighter than one they are sewn to, a unit it starts from included. */
export function darkUnder(
  section: Pick<Section, 'order' | 'startsFrom'>,
  byId: ReadonlyMap<string, Patch>,
  lightness: Lightness,
): Shadow[] {
  const earlier = new Set<string>();
  for (const [id, patch] of byId) if (section.startsFrom.includes(patch.section)) earlier.add(id);
  return section.order.flatMap((id) => {
    const patch = byId.get(id)!;
    const under = patch.neighbours.filter((other) => {
      const fabric = byId.get(other)!.fabric;
      if (!earlier.has(other) || fabric === null || patch.fabric === null) return false;
      return (lightness.get(patch.fabric) ?? 1) - (lightness.get(fabric) ?? 1) >= SHADOW_STEP;
    });
    earlier.add(id);
    return under.length === 0 ? [] : [{ patch, under }];
  });
}

/** Patches without a fabric, all in one finding. */
export const unpainted: Rule = {
  code: 'unpainted',
  title: phrase('Patch without a fabric'),
  severity: 'note',
  check: ({ patches }) => {
    const bare = patches.filter((patch) => patch.fabric === null);
    if (bare.length === 0) return [];
    const ids = bare.map((patch) => patch.id);
    return [
      {
        at: centroid(bare[0]!.polygon),
        patches: ids,
        message:
          bare.length === patches.length
            ? phrase('No patch has a fabric yet: the cutting list needs them.')
            : phrase(
                '{ids} {ids2, plural, one {has} other {have}} no fabric yet: the cutting list needs {ids2, plural, one {it} other {them}}.',
                { ids: listed(ids), ids2: ids.length },
              ),
      },
    ];
  },
};
