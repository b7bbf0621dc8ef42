import { describe, expect, it } from 'vitest';
import type { CuttingRules, Grain } from '../../src/cutting/cutting-rules.ts';
import { choicesFor } from '../../src/cutting/pieces.ts';
import type { Point, Segment } from '../../src/geometry/point.ts';
import { randomPatch } from '../cutting/patches.ts';
import { Prng } from '../designs/prng.ts';
import { pastSeam, pieceFaults } from './check-cutting.ts';

const SEED = 20_261_130;
const PATCHES = 100_000;

const mirrored = ([x, y]: Point, [[ax, ay], [bx, by]]: Segment): Point => {
  const angle = 2 * Math.atan2(by - ay, bx - ax);
  const [dx, dy] = [x - ax, y - ay];
  return [ax + Math.cos(angle) * dx + Math.sin(angle) * dy, ay + Math.sin(angle) * dx - Math.cos(angle) * dy];
};

describe('the cloth of random patches', () => {
  it(`covers all of ${PATCHES.toLocaleString('en')} once it is swung over, seed ${SEED}`, () => {
    const rng = new Prng(SEED);
    const faults: string[] = [];
    const kinds = new Map<string, number>();
    for (let i = 0; i < PATCHES; i++) {
      const patch = randomPatch(rng);
      const allowance = rng.pick([0, 1 / 8, 1 / 4, 1 / 4, 6 / 25.4, 3 / 8]);
      const rules: CuttingRules = {
        allowance,
        ease: rng.pick([0, 1 / 8, 1 / 4, 1 / 4, 1 / 2]),
        step: rng.pick([1 / 8, 1 / 4, 1 / 4, 5 / 25.4]),
        usableWidth: 40,
        savings: 'all',
      };
      const grain = rng.pick<Grain>(['seam', 'seam', 'block', 'directional']);
      const { rectangle, savings } = choicesFor(patch, rules, grain);
      for (const { cut, shape, laid } of [rectangle, ...savings]) {
        kinds.set(cut.kind, (kinds.get(cut.kind) ?? 0) + 1);
        const wrong = pieceFaults(shape, cut, { ...patch, allowance });
        for (const side of [cut.width, cut.height]) {
          const steps = side / rules.step;
          if (Math.abs(steps - Math.round(steps)) > 1e-6)
            wrong.push(`${side} is no multiple of ${rules.step}`);
        }
        if ((laid === null) !== (patch.seam === null)) wrong.push('laid and seam do not agree');
        if (laid && patch.seam) {
          const swung = laid.map((point) => mirrored(point, patch.seam!));
          const strays = swung.filter(
            ([x, y]) => !shape.some(([sx, sy]) => Math.hypot(sx - x, sy - y) < 1e-6),
          );
          if (strays.length > 0) wrong.push('cloth laid down does not swing over to where it should lie');
          const past = pastSeam(shape, patch.polygon, patch.seam);
          if (grain === 'seam' && (past === null || Math.abs(past - allowance) > 2e-5))
            wrong.push(`its edge lies ${past} past the seam, not ${allowance}`);
        }
        if (wrong.length > 0) faults.push(`patch ${i}, ${cut.kind}: ${wrong[0]} ${JSON.stringify(patch)}`);
      }
    }
    expect(faults.slice(0, 3)).toEqual([]);
    expect([...kinds.keys()].sort()).toEqual([
      'half-rectangle',
      'half-square',
      'quarter-square',
      'rectangle',
    ]);
  });

  it('and the check finds cloth that does not', () => {
    const polygon: readonly Point[] = [
      [0, 0],
      [3, 0],
      [3, 2],
      [0, 2],
    ];
    const cloth = (left: number, top: number, w: number, h: number): readonly Point[] => [
      [left, top],
      [left + w, top],
      [left + w, top + h],
      [left, top + h],
    ];
    const patch = { polygon, seam: null, allowance: 0.25 };
    const cut = { kind: 'rectangle', width: 4, height: 3 };
    expect(pieceFaults(cloth(-0.5, -0.5, 4, 3), cut, patch)).toEqual([]);
    expect(pieceFaults(cloth(-0.2, -0.5, 4, 3), cut, patch)).not.toEqual([]);
    expect(pieceFaults(cloth(-0.5, -0.5, 4, 3), { ...cut, width: 3.75 }, patch)).not.toEqual([]);
    expect(pieceFaults(cloth(-0.5, -0.5, 4, 3), { ...cut, kind: 'half-square' }, patch)).not.toEqual([]);
  });
});
