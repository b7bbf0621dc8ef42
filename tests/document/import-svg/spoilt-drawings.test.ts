import { describe, expect, it } from 'vitest';
import { addDrawnBlock } from '../../../src/document/add-drawn-block.ts';
import { readSvg } from '../../../src/document/import-svg/read-svg.ts';
import { toBlock } from '../../../src/document/import-svg/to-block.ts';
import { EMPTY_PROJECT } from '../../../src/document/project.ts';
import { Prng } from '../../designs/prng.ts';
import { SAIL, svg } from './imported.ts';

/** How many drawings are spoilt: a sample here, 5,000 in `npm run audit`. */
const COUNT = Number(process.env.UNDERPAPER_AUDIT_DRAWINGS ?? 150);
const SEED = Number(process.env.UNDERPAPER_AUDIT_SEED ?? 20_261_201);

const SAMPLES = [
  SAIL,
  svg(
    `<g transform="translate(20 20) rotate(15) scale(.5)"><path d="M0 0L300 0L300 300Z M20 20C40 80 120 80 160 20S240 -40 280 60" stroke="#123"/>
     <polygon points="10,10 390,10 200,380" fill="none" stroke="red"/><polyline points="0 0 100 100 200 0"/></g>
     <circle cx="200" cy="200" r="90"/><ellipse cx="90" cy="300" rx="60" ry="20" style="stroke:black"/><line x1="0" y1="200" x2="400" y2="200" stroke="black"/>`,
  ),
  svg(
    `<symbol id="s"><rect width="9" height="9"/></symbol><text x="3" y="9">Quay</text><rect x="8" y="8" width="384" height="384" rx="30" stroke="black"/>
     <path d="m10,10h380v380h-380z m0 190 l380 0 M200 10 V390" stroke="black" class="a"/>`,
    'width="6in" height="6in" viewBox="0 0 400 400" preserveAspectRatio="xMinYMax slice"',
  ),
];

const STRANGE = [
  '<',
  '>',
  '"',
  "'",
  '&',
  '&amp;',
  '&x;',
  '/>',
  '</g>',
  '<g>',
  '<!--',
  '-->',
  '<![CDATA[',
  ']]>',
  '<?x',
  '\u0000',
  '\ud800',
  'NaN',
  '1e999',
  '-1e-999',
  '1e5',
  '0',
  'M',
  'z',
  'A1 1 0 0 1',
  'constructor',
  '__proto__',
  ' style="',
  'matrix(0 0 0 0 0 0)',
  'scale(1e300)',
  'rotate(',
  'viewBox="0 0 0 0"',
  'width="1e9km"',
  ',,',
  '--',
  '.5.5.5',
];

function spoilt(rng: Prng, text: string): string {
  let changed = text;
  for (let changes = rng.whole(1, 3); changes > 0; changes--) {
    const at = rng.whole(0, changed.length);
    const to = Math.min(changed.length, at + rng.whole(0, 60));
    switch (rng.chance(0.6) ? 4 : rng.whole(0, 5)) {
      case 0:
        changed = changed.slice(0, at) + changed.slice(to);
        break;
      case 1:
        changed = changed.slice(0, at) + rng.pick(STRANGE) + changed.slice(at);
        break;
      case 2:
        changed = changed.slice(0, to) + changed.slice(at, to).repeat(rng.whole(1, 200)) + changed.slice(to);
        break;
      case 3: {
        const from = rng.whole(0, changed.length);
        changed = changed.slice(0, at) + changed.slice(from, from + rng.whole(0, 80)) + changed.slice(to);
        break;
      }
      case 4:
        changed = changed.replace(/-?\d+(\.\d+)?/g, (number) =>
          rng.chance(0.05) ? rng.pick(STRANGE) : number,
        );
        break;
      default:
        changed = changed.slice(0, at);
    }
  }
  return changed;
}

describe('SVG drawings with something changed in them', () => {
  it(`${COUNT} of them are read, or refused in one sentence, and what is read becomes a block or a sentence`, () => {
    const rng = new Prng(SEED);
    let refused = 0;
    let slowest = 0;
    for (let i = 0; i < COUNT; i++) {
      const text = spoilt(rng, rng.pick(SAMPLES));
      const name = `drawing ${i} of seed ${SEED}`;
      const begin = performance.now();
      const read = readSvg(text, rng.pick([0, 4, 16]));
      const made = read.ok
        ? toBlock(read.drawing, { scale: { kind: 'per-inch', pixels: 96 }, joinWithin: 0.02 })
        : read;
      slowest = Math.max(slowest, performance.now() - begin);
      if (!made.ok) {
        refused++;
        expect(made.error, name).toMatch(/^\S.*\.$/);
        expect(made.error.length, name).toBeLessThan(300);
        continue;
      }
      const { outline, cuts } = made.block;
      for (const point of [...outline, ...cuts.flat()]) expect(point.every(Number.isFinite), name).toBe(true);
      const { blocks } = addDrawnBlock(EMPTY_PROJECT, { name: 'Drawing', outline, cuts });
      expect(blocks, name).toHaveLength(1);
    }
    console.log(`${COUNT} drawings, ${refused} refused, the slowest took ${Math.round(slowest)} ms`);
    expect(refused).toBeGreaterThan(COUNT / 20);
    expect(refused).toBeLessThan(COUNT);
  });
});
