import { describe, expect, it } from 'vitest';
import { pictureTooLarge, readPictureHeader } from '../../src/document/picture-file.ts';

const bytesOf = (base64: string): Uint8Array => new Uint8Array(Buffer.from(base64, 'base64'));

/** The pictures that Google's WebP FAQ publishes to find out whether a browser shows WebP: one pixel each. */
const LOSSY = bytesOf('UklGRiIAAABXRUJQVlA4IBYAAAAwAQCdASoBAAEADsD+JaQAA3AAAAAA');
const LOSSLESS = bytesOf('UklGRhoAAABXRUJQVlA4TA0AAAAvAAAAEAcQERGIiP4HAA==');
const WITH_ALPHA = bytesOf(
  'UklGRkoAAABXRUJQVlA4WAoAAAAQAAAAAAAAAAAAQUxQSAwAAAARBxAR/Q9ERP8DAABWUDggGAAAABQBAJ0BKgEAAQAAAP4AAA3AAAAA/gKEhAAA',
);

/** A JPEG of a size by the letter of ITU-T T.81, annex B: app data with a thumbnail's own markers, frame, scan, end. */
function jpeg(width: number, height: number, frame = 0xc0): Uint8Array {
  const thumbnail = [0xff, 0xd8, 0xff, 0xc0, 0, 11, 8, 0, 1, 0, 1, 1, 1, 0x11, 0, 0xff, 0xd9];
  return Uint8Array.from([
    ...[0xff, 0xd8],
    ...[0xff, 0xe1, 0, 2 + thumbnail.length, ...thumbnail],
    ...[0xff, 0xc4, 0, 4, 0x11, 0],
    ...[0xff, 0xff, frame, 0, 11, 8, height >> 8, height & 255, width >> 8, width & 255, 1, 1, 0x11, 0],
    ...[0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0],
    ...[0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56],
    ...[0xff, 0xd9],
  ]);
}

/** Three grey dots across and two down, written by Python's zlib (ISO/IEC 15948). */
const png = (): Uint8Array =>
  Uint8Array.from(
    Buffer.from(
      'iVBORw0KGgoAAAANSUhEUgAAAAMAAAACCAAAAAC4HznGAAAAC0lEQVR42mNggAAAAAgAAST8BHIAAAAASUVORK5CYII=',
      'base64',
    ),
  );

describe('the header of a picture', () => {
  it('tells kind and size', () => {
    const cases = [
      [png(), 'png', 3, 2],
      [jpeg(4000, 3000), 'jpeg', 4000, 3000],
      [jpeg(640, 480, 0xc2), 'jpeg', 640, 480],
      [LOSSY, 'webp', 1, 1],
      [LOSSLESS, 'webp', 1, 1],
      [WITH_ALPHA, 'webp', 1, 1],
    ] as const;
    for (const [bytes, kind, width, height] of cases)
      expect(readPictureHeader(bytes)).toEqual({ ok: true, header: { kind, width, height, isWhole: true } });
  });

  it('reads the larger sizes of WebP where RFC 9649 puts them', () => {
    const sized = (bytes: Uint8Array, at: number, ...put: number[]): Uint8Array => {
      const copy = bytes.slice();
      copy.set(put, at);
      return copy;
    };
    const sizeOf = (bytes: Uint8Array): unknown => {
      const read = readPictureHeader(bytes);
      return read.ok ? [read.header.width, read.header.height] : read.error;
    };
    // 14 bits each, little end first; the top two bits are a scale.
    expect(sizeOf(sized(LOSSY, 26, 0x40, 0x46, 0x90, 0x81))).toEqual([1600, 400]);
    // 14 bits of width less one, then 14 of height less one: 1600 is 0x63f, 400 is 0x18f.
    expect(sizeOf(sized(LOSSLESS, 21, 0x3f, 0xc6, 0x63, 0x00))).toEqual([1600, 400]);
    // 24 bits each, less one.
    expect(sizeOf(sized(WITH_ALPHA, 24, 0x3f, 0x06, 0, 0x1f, 0x4e, 0))).toEqual([1600, 20_000]);
  });

  it('tells when the end is missing', () => {
    for (const whole of [png(), jpeg(40, 30), LOSSY, LOSSLESS, WITH_ALPHA]) {
      const cut = readPictureHeader(whole.subarray(0, whole.length - 3));
      expect(cut.ok && cut.header.isWhole).toBe(false);
      // However short, an answer and never a throw.
      for (let length = 0; length < whole.length; length++)
        expect(readPictureHeader(whole.subarray(0, length))).toHaveProperty('ok');
    }
    // The end of a thumbnail within is not the end of the picture.
    const noEnd = jpeg(40, 30);
    expect(readPictureHeader(noEnd.subarray(0, noEnd.length - 2))).toMatchObject({
      header: { isWhole: false },
    });
    // What cameras put after the end does not matter.
    expect(readPictureHeader(Uint8Array.from([...jpeg(40, 30), 1, 2, 3]))).toMatchObject({
      header: { isWhole: true },
    });
  });

  it('says what a file is that is no such picture, whatever it is called', () => {
    const said = (text: string): string => {
      const read = readPictureHeader(new TextEncoder().encode(text));
      return read.ok ? '' : read.error;
    };
    expect(said('')).toBe('The file is empty.');
    expect(said('<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"/>')).toMatch(/SVG drawing/);
    expect(said('  <svg><script>alert(1)</script></svg>')).toMatch(/SVG drawing/);
    expect(said('GIF89a')).toMatch(/GIF/);
    expect(said('\0\0\0\x18ftypheic')).toMatch(/HEIC.*JPEG/);
    expect(said('%PDF-1.7')).toMatch(/PDF/);
    expect(said('A gull is no picture.')).toBe(
      'The file is not a picture. Pictures can be PNG, JPEG or WebP.',
    );
  });

  it('refuses a size of nothing, and one that no memory holds', () => {
    const nothing = png();
    nothing.fill(0, 16, 20);
    expect(readPictureHeader(nothing)).toMatchObject({ ok: false, error: /no width or height/ });
    const huge = png();
    new DataView(huge.buffer).setUint32(16, 20_000);
    new DataView(huge.buffer).setUint32(20, 20_000);
    const read = readPictureHeader(huge);
    expect(read.ok && pictureTooLarge(read.header)).toMatch(/20,000 by 20,000 pixels/);
    // A long strip of as many pixels as a photo is no trouble.
    expect(pictureTooLarge({ kind: 'png', width: 20_000, height: 1_000, isWhole: true })).toBeNull();
  });
});
