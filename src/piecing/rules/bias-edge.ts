import type { Segment } from '../../geometry/point.ts';
import { middle } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { isOnBias } from '../measure.ts';
import type { Rule } from './rule.ts';

/** Sides of the block that run neither level nor upright: the cloth at the edge lies on the bias there. */
export const biasEdge: Rule = {
  code: 'bias-edge',
  title: phrase('Edge on the bias'),
  severity: 'note',
  check: ({ block }) => {
    const sides = block.outline.map((a, k): Segment => [a, block.outline[(k + 1) % block.outline.length]!]);
    const bias = sides.filter(isOnBias);
    const first = bias[0];
    if (!first) return [];
    return [
      {
        at: middle(...first),
        stretches: bias,
        message: phrase(
          "{bias, plural, one {One side} other {# sides}} of the block run off the straight grain and can stretch: lay the cloth's grain along that edge where it shows, and keep the paper on until the block is joined on all sides.",
          { bias: bias.length },
        ),
      },
    ];
  },
};
