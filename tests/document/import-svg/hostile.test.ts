import { describe, expect, it } from 'vitest';
import { MAX_SVG_LENGTH, readSvg } from '../../../src/document/import-svg/read-svg.ts';
import { toBlock } from '../../../src/document/import-svg/to-block.ts';
import { Prng } from '../../designs/prng.ts';
import { drawingOf, importedFrom, SAIL, svg } from './imported.ts';

/** The sentence of a refusal; a file that was read gives none. */
const refusal = (text: string): string => {
  const read = readSvg(text, 0);
  return read.ok ? '' : read.error;
};

const square = '<rect x="8" y="8" width="384" height="384" stroke="black"/>';

describe('files that mean harm are read for their lines, or refused in a sentence', () => {
  it('scripts and event attributes are counted, never kept', () => {
    const drawing = drawingOf(
      svg(
        `<script>alert(1)</script><script xlink:href="http://127.0.0.1/x.js"/><rect x="8" y="8" width="384" height="384" onclick="alert(2)"/>
         <foreignObject><body xmlns="http://www.w3.org/1999/xhtml"><script>alert(3)</script></body></foreignObject>`,
        'onload="alert(0)" viewBox="0 0 400 400"',
      ),
    );
    expect(Object.fromEntries(drawing.leftOut)).toEqual({ script: 5, foreign: 1 });
    expect(drawing.runs).toHaveLength(1);
    expect(JSON.stringify(drawing)).not.toContain('alert');
  });

  it('what points elsewhere is left out: pictures, copies, style sheets, entities from outside', () => {
    const drawing = drawingOf(
      `<?xml version="1.0"?><?xml-stylesheet href="http://127.0.0.1/a.css"?>
       <!DOCTYPE svg [<!ENTITY secret SYSTEM "file:///etc/hostname">]>
       ${svg(`<image href="http://127.0.0.1/lamp.png" width="9" height="9"/><use href="http://127.0.0.1/b.svg#x"/>
         <style>@import url(http://127.0.0.1/c.css);</style><path d="&secret;"/>${square}`)}`,
    );
    expect(Object.fromEntries(drawing.leftOut)).toEqual({ picture: 1, copy: 1, unreadable: 1 });
    expect(drawing.runs).toHaveLength(1);
  });

  it('entities that multiply are not spelled out', () => {
    const names = Array.from({ length: 12 }, (_, i) => `l${i}`);
    const laughs = names.map(
      (name, i) => `<!ENTITY ${name} "${i === 0 ? 'M0 0L9 9 ' : `&${names[i - 1]};`.repeat(10)}">`,
    );
    const text = `<!DOCTYPE svg [${laughs.join('')}]>${svg(`<path d="&l11;"/><text>&l11;</text>${square}`)}`;
    const drawing = drawingOf(text);
    expect(drawing.runs).toHaveLength(1);
    expect(Object.fromEntries(drawing.leftOut)).toEqual({ unreadable: 1, text: 1 });
  });

  it('a million points are refused before they are all read', () => {
    const path = `M0 0${' 1 1 2 0'.repeat(500_000)}`;
    expect(refusal(svg(`<path d="${path}"/>`))).toMatch(/^It has more than 200,000 points/);
    expect(refusal(svg('<line x2="9" y2="9"/>'.repeat(250_000)))).toMatch(/points|parts/);
  });

  it('nesting without end is refused', () => {
    expect(refusal(`<svg>${'<g>'.repeat(1e6)}`)).toMatch(/nested deeper than 500 levels/);
    expect(refusal(`${'<g>'.repeat(100)}`)).toBe('It is not an SVG drawing.');
    expect(refusal(svg(`${'<g>'.repeat(400)}${square}${'</g>'.repeat(400)}`))).toBe('');
  });

  it('numbers that are none leave their shape out, and nothing else', () => {
    for (const shape of [
      '<line x1="NaN" x2="9"/>',
      '<line x1="Infinity" x2="9"/>',
      '<rect width="1e999" height="9"/>',
      '<rect width="-5" height="9"/>',
      '<polygon points="0,0 NaN,4 4,4"/>',
      '<path d="M NaN 0 L 9 9"/>',
      '<circle r="NaN"/>',
      '<g transform="scale(NaN)"><line x2="9"/></g>',
      '<g transform="scale(1e200)"><g transform="scale(1e200)"><line x2="9"/></g></g>',
      '<line x2="9" transform="matrix(1 0 0)"/>',
    ]) {
      const drawing = drawingOf(svg(shape + square));
      expect([shape, drawing.runs.length, drawing.leftOut.get('unreadable')]).toEqual([shape, 1, 1]);
    }
    expect(importedFrom(svg(`<polyline points="0,0 400,400 7"/>${square}`)).cuts).toHaveLength(1);
  });

  it('a drawing far from anywhere still finds its place', () => {
    const far = importedFrom(svg(`<g transform="translate(1e7 -1e7)">${square}</g>`));
    expect(far.outline[0]).toEqual([0, 0]);
    expect(far.outline).toHaveLength(4);
  });

  it.each([
    ['nothing', ''],
    ['words', 'Dear reader, this is a letter.'],
    ['a page', '<!doctype html><html><body><svg/></body></html>'],
    ['a project', '{"format":"underpaper","version":1}'],
    ['a picture', '\u0089PNG\r\n\u001a\n\u0000\u0000'],
    ['a mere tag', '<'],
  ])('%s is no SVG drawing', (_, text) => {
    expect(refusal(text)).toBe('It is not an SVG drawing.');
  });

  it.each([
    ['<svg><path d="M0 0', /ends before all is closed/],
    ['<svg><g>', /ends before all is closed/],
    ['<svg></g></svg>', /closes what is not open/],
    ['<svg><path d=5/></svg>', /a value not in quotes/],
    ['<svg><path d/></svg>', /a tag that cannot be read/],
    ['<svg><!-- and so on', /ends before all is closed/],
    ['<svg><![CDATA[ and so on', /ends before all is closed/],
    ['<svg></svg></svg>', /closes what is not open/],
    ['<svg><', /ends before all is closed/],
    ['\u001f\u008b\u0008', /compressed/],
  ])('what is cut off or broken is said: %s', (text, sentence) => {
    expect(refusal(text)).toMatch(sentence);
  });

  it('too long a text is refused unread', () => {
    expect(refusal(' '.repeat(MAX_SVG_LENGTH + 1))).toMatch(/far too large for a block/);
  });

  it('names that every object knows are names like any other', () => {
    const names = ['constructor', '__proto__', 'toString', 'valueOf', 'hasOwnProperty'];
    for (const name of names) {
      const drawing = drawingOf(
        svg(`<${name} ${name}="1"/><g ${name}="${name}" style="${name}:1" transform="${name}(1)"/>
             <line x2="1${name}" y2="9"/><path d="${name}"/>${square}`),
      );
      expect([name, drawing.runs.length]).toEqual([name, 1]);
      // What is left out is counted under names that a person can be told.
      for (const kind of drawing.leftOut.keys()) expect([name, kind]).toEqual([name, 'unreadable']);
    }
  });

  it('a length of a hundred thousand signs is none', () => {
    const long = 100_000;
    for (const width of [
      '1'.repeat(long),
      `1${' '.repeat(long)}!`,
      `${'1'.repeat(long)}${' '.repeat(long)}!`,
      `${'1'.repeat(long)}x`,
      `1e${'9'.repeat(long)}`,
    ])
      expect(drawingOf(svg(square, `width="${width}" height="9"`)).runs).toHaveLength(1);
    expect(drawingOf(svg(square, `width="  96px${' '.repeat(long)}" height="96"`)).page?.maxX).toBe(96);
  });

  it('a line of a hundred thousand points is refused, and drawings of twenty thousand are not looked at for ever', () => {
    const prng = new Prng(5);
    const random = (): number => prng.next();
    const points = (count: number): string =>
      Array.from(
        { length: count },
        () => `${(400 * random()).toFixed(2)},${(400 * random()).toFixed(2)}`,
      ).join(' ');
    const blockOf = (count: number) =>
      toBlock(drawingOf(svg(`<polyline points="${points(count)}"/>`)), {
        scale: { kind: 'per-inch', pixels: 96 },
        joinWithin: 0.02,
      });
    expect(blockOf(100_000)).toEqual({
      ok: false,
      error: expect.stringMatching(/^It has 99,999 straight pieces, far too many/),
    });
    expect(blockOf(20_000)).toEqual({
      ok: false,
      error: expect.stringMatching(/^It comes to more than 5,000 lines/),
    });
  });

  it('5,000 drawings with something changed in them are read, or refused in a sentence', () => {
    const seed = 20_261_130;
    const prng = new Prng(seed);
    const random = (): number => prng.next();
    const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)]!;
    const sources = [
      SAIL,
      svg(`<g transform="rotate(30 9 9)">${square}<path d="M8 8C20 9 30 4 392 392a5 6 7 0 1 9 9z"/></g>`),
    ];
    const strange = [
      '<',
      '>',
      '"',
      '&',
      '&#0;',
      '/',
      ' ',
      '-',
      '1e309',
      'NaN',
      '\u0000',
      '\ud800',
      '<svg>',
      '</g>',
      '<!--',
      ']]>',
      '<![CDATA[',
      '<!DOCTYPE',
      'constructor',
      '__proto__',
      'a',
    ];
    let refused = 0;
    for (let i = 0; i < 5_000; i++) {
      let text = pick(sources);
      for (let changes = 1 + Math.floor(3 * random()); changes > 0; changes--) {
        const [at, end] = [random(), random()]
          .map((share) => Math.floor(share * text.length))
          .toSorted((a, b) => a - b);
        const kind = Math.floor(random() * 4);
        if (kind === 0) text = text.slice(0, at) + text.slice(Math.min(end!, at! + 12));
        else if (kind === 1) text = text.slice(0, at) + pick(strange) + text.slice(at);
        else if (kind === 2) text = text.slice(0, end) + text.slice(at, end) + text.slice(end);
        else text = text.slice(0, at) + pick(strange) + text.slice(at! + 1);
      }
      const read = readSvg(text, i % 3);
      const made =
        read.ok && toBlock(read.drawing, { scale: { kind: 'width', inches: 6 }, joinWithin: 0.02 });
      const error = !read.ok ? read.error : made && !made.ok ? made.error : null;
      if (error === null) continue;
      refused++;
      expect(error, `seed ${seed}, drawing ${i}`).toMatch(/^(It|Its|At|No) [^<>]*\.$/);
    }
    expect(refused).toBeGreaterThan(500);
    expect(refused).toBeLessThan(4_900);
  });
});
