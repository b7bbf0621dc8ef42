import { inflateSync } from 'node:zlib';
import { zlibSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { hasPictures, linkOf, openLink, withoutPictures } from '../../src/document/link.ts';
import { EMPTY_PROJECT } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import { codeOf } from '../../src/piecing/codes.ts';
import { Prng } from '../designs/prng.ts';
import { harbour } from './projects.ts';

const BASE = 'https://example.org/quilts/';
const hashOf = (link: string): string => link.slice(link.indexOf('#'));
/** A link with a right check around any bytes. */
const around = (bytes: Uint8Array): string => {
  const text = Buffer.from(bytes).toString('base64url');
  return `#project=1.${codeOf(text, 6)}.${text}`;
};

describe('a project in a link', () => {
  it('comes out as it went in', () => {
    for (const project of [harbour, EMPTY_PROJECT, { ...harbour, name: 'Grüße vom Hafen 🐟 “quay” #?&=%' }]) {
      const link = linkOf(project, BASE);
      expect(link.startsWith(`${BASE}#project=`)).toBe(true);
      const opened = openLink(hashOf(link));
      if (!opened.ok) throw new Error(opened.error.message);
      expect(toText(opened.project)).toBe(toText(project));
    }
  });

  it('is zlib in base64url, as another implementation reads it (RFC 1950, RFC 4648 section 5)', () => {
    const text = linkOf(harbour, BASE).split('.').at(-1)!;
    expect(text).toMatch(/^[A-Za-z0-9_-]+$/);
    expect(inflateSync(Buffer.from(text, 'base64url')).toString()).toBe(toText(harbour));
  });

  it('that is cut anywhere, or has one sign changed, is refused with a sentence', () => {
    const hash = hashOf(linkOf(harbour, BASE));
    const rng = new Prng(12);
    for (let i = 0; i < 300; i++) {
      const at = '#project='.length + rng.whole(0, hash.length - '#project='.length - 1);
      const sign = hash[at] === 'x' ? 'y' : 'x';
      for (const broken of [hash.slice(0, at), hash.slice(0, at) + sign + hash.slice(at + 1)]) {
        const opened = openLink(broken);
        expect(opened.ok, broken).toBe(false);
        if (!opened.ok) expect(opened.error.message).toMatch(/^The (link|file) .*\.$/);
      }
    }
  });

  it('that unpacks to more than a file may have is refused before it fills the memory', () => {
    const bomb = around(zlibSync(new Uint8Array(80_000_000), { level: 9 }));
    expect(bomb.length).toBeLessThan(200_000);
    const opened = openLink(bomb);
    expect(opened).toMatchObject({ ok: false, error: { message: expect.stringContaining('as a file') } });
  });

  it('with anything else in it is refused with a sentence', () => {
    for (const bad of [
      '#project=',
      '#project=1',
      '#project=1..',
      '#project=1.AAAAAA.%%%',
      '#project=2.AAAAAA.x',
      around(new Uint8Array()),
      around(new Uint8Array([1, 2, 3])),
      around(new Uint8Array(40).fill(255)),
      around(zlibSync(Buffer.from('[]'))),
      around(zlibSync(Buffer.from('{"format":"underpaper","version":99}'))),
      `#project=1.AAAAAA.${'A'.repeat(5_000_000)}`,
    ]) {
      const opened = openLink(bad);
      expect(opened.ok, bad.slice(0, 60)).toBe(false);
      if (!opened.ok) expect(opened.error.message).toMatch(/^The (link|file) .*\.$/s);
    }
    expect(openLink('#project=2.AAAAAA.x')).toMatchObject({
      error: { message: expect.stringContaining('newer Underpaper') },
    });
  });

  it('can leave out pictures', () => {
    const [first, ...fabrics] = harbour.fabrics;
    const picture = { data: `data:image/png;base64,${'iVBOR'.repeat(2000)}`, width: 4 };
    const pictured = { ...harbour, fabrics: [{ ...first!, picture: picture as never }, ...fabrics] };
    expect(hasPictures(pictured)).toBe(true);
    expect(hasPictures(withoutPictures(pictured))).toBe(false);
    expect(toText(withoutPictures(pictured))).toBe(toText(withoutPictures(harbour)));
  });
});
