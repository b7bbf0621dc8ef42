import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fileNameFor } from '../../src/document/file-name.ts';

describe('fileNameFor', () => {
  it.each([
    ['Harbour sampler', 'Harbour sampler.underpaper.json'],
    ['Gull ‘Æsa’ ⅜', 'Gull ‘Æsa’ ⅜.underpaper.json'],
    ['a/b\\c:d*e?f"g<h>i|j', 'a b c d e f g h i j.underpaper.json'],
    ['  ..hidden. ', 'hidden.underpaper.json'],
    ['../../etc/passwd', 'etc passwd.underpaper.json'],
    ['line\nbreak\u0000', 'line break.underpaper.json'],
    ['', 'project.underpaper.json'],
    ['///', 'project.underpaper.json'],
  ])('%j becomes %j', (name, fileName) => {
    expect(fileNameFor(name)).toBe(fileName);
  });

  it('is a name every common system takes: no sign Windows forbids, not too long', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (name) => {
        const fileName = fileNameFor(name);
        expect(fileName).toMatch(/^[^.\s<>:"/\\|?*\p{Cc}][^<>:"/\\|?*\p{Cc}]*\.underpaper\.json$/u);
        expect(fileName.length).toBeLessThanOrEqual(120);
      }),
    );
  });
});
