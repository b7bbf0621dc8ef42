import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import { toText } from '../../src/document/to-text.ts';
import { piece } from '../../src/piecing/piece.ts';
import { Prng } from '../designs/prng.ts';

/** How many files are spoilt: a sample here, 20,000 in `npm run audit`. */
const COUNT = Number(process.env.UNDERPAPER_AUDIT_FILES ?? 400);
const SEED = Number(process.env.UNDERPAPER_AUDIT_SEED ?? 20_261_201);

const folder = new URL('samples/', import.meta.url);
const SAMPLES = readdirSync(folder)
  .filter((name) => !name.includes('canonical'))
  .map((name) => readFileSync(new URL(name, folder), 'utf8'));

const STRANGE_TEXT = [
  '{',
  '}',
  '[',
  ']',
  '"',
  ',',
  ':',
  '\\',
  '\u0000',
  '\ud800',
  'NaN',
  '-',
  '1e999',
  'null',
  '\uFEFF',
];
const STRANGE_VALUES: readonly unknown[] = [
  null,
  true,
  -1,
  0,
  0.1 + 0.2,
  1e300,
  -1e-300,
  2 ** 53,
  '',
  '__proto__',
  'constructor',
  '#12345',
  '‮gnol'.repeat(400),
  '\ud800',
  [],
  {},
  [[]],
  [0, 0],
  [1e9, -1e9],
  Array(3_000).fill([1, 1]),
];

type Json = Record<string, unknown> | unknown[];
const isJson = (value: unknown): value is Json => typeof value === 'object' && value !== null;

/** Every place in a JSON value that something could be put in. */
function placesIn(value: Json, found: [Json, string][] = []): [Json, string][] {
  for (const key of Object.keys(value)) {
    found.push([value, key]);
    const inner = (value as Record<string, unknown>)[key];
    if (isJson(inner)) placesIn(inner, found);
  }
  return found;
}

function spoilValue(rng: Prng, text: string): string {
  const json = JSON.parse(text) as Json;
  for (let changes = rng.whole(1, 3); changes > 0; changes--) {
    const [holder, key] = rng.pick(placesIn(json));
    const [other, otherKey] = rng.pick(placesIn(json));
    const into = holder as Record<string, unknown>;
    const from = structuredClone((other as Record<string, unknown>)[otherKey]);
    switch (rng.whole(0, 4)) {
      case 0:
        if (Array.isArray(holder)) holder.splice(Number(key), 1);
        else delete into[key];
        break;
      case 1:
        into[key] = structuredClone(rng.pick(STRANGE_VALUES));
        break;
      case 2:
        into[key] = from;
        break;
      case 3:
        if (typeof into[key] === 'number') into[key] = into[key] * rng.pick([-1, 0, 1e-6, 1.0001, 7, 1e6]);
        else if (Array.isArray(holder)) holder.push(from);
        else into[rng.pick(['extra', 'constructor', 'toString', otherKey])] = from;
        break;
      default:
        if (Array.isArray(holder)) holder.splice(Number(key), 0, ...Array(rng.whole(1, 40)).fill(into[key]));
        else into[key] = [into[key]];
    }
    if (placesIn(json).length === 0) break;
  }
  return JSON.stringify(json);
}

function spoilText(rng: Prng, text: string): string {
  let spoilt = text;
  for (let changes = rng.whole(1, 3); changes > 0; changes--) {
    const at = rng.whole(0, spoilt.length);
    const to = Math.min(spoilt.length, at + rng.whole(0, 40));
    switch (rng.whole(0, 3)) {
      case 0:
        spoilt = spoilt.slice(0, at) + spoilt.slice(to);
        break;
      case 1:
        spoilt = spoilt.slice(0, at) + rng.pick(STRANGE_TEXT) + spoilt.slice(at);
        break;
      case 2:
        spoilt = spoilt.slice(0, to) + spoilt.slice(at);
        break;
      default:
        spoilt = spoilt.slice(0, at);
    }
  }
  return spoilt;
}

describe('project files with something changed in them', () => {
  it(`${COUNT} of them are opened whole, or refused in one sentence`, () => {
    const rng = new Prng(SEED);
    let refused = 0;
    let slowest = 0;
    for (let i = 0; i < COUNT; i++) {
      const sample = rng.pick(SAMPLES);
      const text = rng.chance(0.6) ? spoilValue(rng, sample) : spoilText(rng, sample);
      const name = `file ${i} of seed ${SEED}`;
      const begin = performance.now();
      const opened = openFile(text);
      if (opened.ok) {
        // What was opened can be saved, opened again to the same, and pieced.
        const saved = toText(opened.project);
        const again = openFile(saved);
        expect(again.ok && toText(again.project), name).toBe(saved);
        for (const block of opened.project.blocks) expect(piece(block).findings, name).toBeDefined();
      } else {
        refused++;
        expect(opened.error.message, name).toMatch(/^[^\n]{10,400}\.$/);
        expect(opened.error.message, name).not.toMatch(/undefined|\[object|NaN of|\bat \S+:\d+/);
      }
      slowest = Math.max(slowest, performance.now() - begin);
    }
    console.log(`${COUNT} files, ${refused} refused, the slowest took ${slowest.toFixed(0)} ms`);
    expect(refused).toBeGreaterThan(COUNT / 4);
    expect(refused).toBeLessThan(COUNT);
    if (process.env.UNDERPAPER_AUDIT_FILES) expect(slowest).toBeLessThan(2_000);
  }, 3_600_000);
});
