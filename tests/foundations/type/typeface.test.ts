import { describe, expect, it } from 'vitest';
import { printable } from '../../../src/foundations/type/typeface.ts';
import { typeface } from '../harbour.ts';

describe('a name as the typeface can print it', () => {
  const cases: readonly (readonly [name: string, text: string, lacking: string])[] = [
    ['Night sea', 'Night sea', ''],
    ['Żółć gęślą jaźń', 'Żółć gęślą jaźń', ''],
    ['Ночное море', 'Ночное море', ''],
    ['3⅝ in, ½ left → right', '3⅝ in, ½ left → right', ''],
    ['夜の海', '#4', '夜の海'],
    ['بحر الليل', '#4', 'بحرالليل'],
    ['Night 海 sea', 'Night · sea', '海'],
    ['  two\n lines\t', 'two lines', ''],
    ['', '#4', ''],
    ['***', '#4', ''],
    ['Lamp 💡', 'Lamp ·', '💡'],
    // Decomposed accents are put together; direction marks and joiners are no letters.
    ['Z\u0307o\u0301łw', 'Żółw', ''],
    ['left\u200e\u202eright\u200d', 'leftright', ''],
  ];
  for (const [name, text, lacking] of cases) {
    it(`${JSON.stringify(name)} → ${text}`, () => {
      expect(printable(typeface, name, '#4')).toEqual({ text, lacking });
    });
  }

  it('never leaves a letter that the typeface lacks', () => {
    for (let code = 0x20; code < 0x11000; code += 7) {
      const { text } = printable(typeface, `a${String.fromCodePoint(code)}b`, '#1');
      for (const letter of text)
        expect(typeface.has(letter.codePointAt(0)!), `U+${code.toString(16)}`).toBe(true);
    }
  });
});
