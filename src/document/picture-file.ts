import { numeral } from '../words/numeral.ts';
import { phrase } from '../words/phrase.ts';

/** What the first bytes of a picture file say, read before anything is decoded. Bytes and numbers only. */

export type PictureKind = 'png' | 'jpeg' | 'webp';

export interface PictureHeader {
  readonly kind: PictureKind;
  /** As stored, in pixels: a JPEG that is to be shown turned has them the other way about. */
  readonly width: number;
  readonly height: number;
  /** Its end is there too. */
  readonly isWhole: boolean;
}

export type ReadHeader =
  | { readonly ok: true; readonly header: PictureHeader }
  | { readonly ok: false; readonly error: string };

/** Largest picture file that is read at all, in bytes. */
export const MAX_PICTURE_BYTES = 40_000_000;

/** Most pixels that are decoded: four bytes each, 400 MB while a picture is being made smaller. */
export const MAX_PICTURE_PIXELS = 100_000_000;

/**
 * Reads the header of a PNG (ISO/IEC 15948), JPEG (ITU-T T.81) or WebP (RFC 9649) file from its bytes; the file's
 * name counts for nothing. Never throws; what is no such picture is one sentence.
 */
export function readPictureHeader(bytes: Uint8Array): ReadHeader {
  if (bytes.length === 0) return refused(phrase('The file is empty.'));
  const read = HEADERS.find(({ begins }) => begins(bytes))?.read(bytes);
  if (read === undefined) return refused(whatElse(bytes));
  if (read === null) return refused(phrase('The picture stops in the middle: most of the file is missing.'));
  if (read.width < 1 || read.height < 1)
    return refused(phrase('The picture is damaged: it has no width or height.'));
  return { ok: true, header: read };
}

/** Why a picture is too large to be decoded; null when it is not. */
export function pictureTooLarge({ width, height }: PictureHeader): string | null {
  if (width * height <= MAX_PICTURE_PIXELS) return null;
  return phrase(
    'The picture is {of} by {of2} pixels, more than this page can hold: make it smaller, up to {of3} million pixels.',
    { of: numeral(width), of2: numeral(height), of3: numeral(MAX_PICTURE_PIXELS / 1e6) },
  );
}

/** The bytes of `data:image/…;base64,…`, or null where what stands there is none. */
function bytesOfData(data: string): Uint8Array | null {
  try {
    return Uint8Array.from(atob(data.slice(data.indexOf(',') + 1)), (sign) => sign.charCodeAt(0));
  } catch {
    return null;
  }
}

/** Whether what is written out is a picture of a size that can be decoded, whatever a file says of it. */
export function isSafeData(data: string): boolean {
  const bytes = bytesOfData(data);
  const read = bytes === null ? null : readPictureHeader(bytes);
  return read?.ok === true && pictureTooLarge(read.header) === null;
}

const refused = (error: string): ReadHeader => ({ ok: false, error });

const HEADERS: readonly {
  readonly begins: (bytes: Uint8Array) => boolean;
  /** Null when the file ends before its size is told. */
  readonly read: (bytes: Uint8Array) => PictureHeader | null;
}[] = [
  { begins: (bytes) => hasBytes(bytes, 0, PNG), read: readPng },
  { begins: (bytes) => hasBytes(bytes, 0, [0xff, 0xd8, 0xff]), read: readJpeg },
  { begins: (bytes) => textAt(bytes, 0, 4) === 'RIFF' && textAt(bytes, 8, 4) === 'WEBP', read: readWebp },
];

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** Signature, then chunks of length, name, data and check sum; IHDR is the first, IEND the last (5.2, 5.3, 11.2). */
function readPng(bytes: Uint8Array): PictureHeader | null {
  const view = viewOf(bytes);
  if (bytes.length < 33 || textAt(bytes, 12, 4) !== 'IHDR') return null;
  let at = PNG.length;
  let isWhole = false;
  while (at + 12 <= bytes.length && !isWhole) {
    isWhole = textAt(bytes, at + 4, 4) === 'IEND';
    at += 12 + view.getUint32(at);
  }
  return { kind: 'png', width: view.getUint32(16), height: view.getUint32(20), isWhole };
}

/** Segments of marker and length; the frame header has the size (B.2.2), the end marker is FF D9 (B.1.1.3). */
function readJpeg(bytes: Uint8Array): PictureHeader | null {
  const view = viewOf(bytes);
  let size: readonly [width: number, height: number] | null = null;
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1]!;
    // Any number of FF may stand before a marker.
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (isFrame(marker) && at + 9 <= bytes.length) size = [view.getUint16(at + 7), view.getUint16(at + 5)];
    const isScan = marker === 0xda;
    at += 2 + view.getUint16(at + 2);
    if (isScan) break;
  }
  if (size === null) return null;
  return { kind: 'jpeg', width: size[0], height: size[1], isWhole: hasEndMarker(bytes, at) };
}

/** SOF0 … SOF15, among which C4, C8 and CC mean something else (table B.1). */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/** Within the coded picture an FF is always followed by something else, so FF D9 can only be the end. */
function hasEndMarker(bytes: Uint8Array, from: number): boolean {
  for (let i = bytes.lastIndexOf(0xd9); i > from; i = bytes.lastIndexOf(0xd9, i - 1))
    if (bytes[i - 1] === 0xff) return true;
  return false;
}

/** A RIFF file whose first chunk is VP8 (lossy), VP8L (lossless) or VP8X (with extras); sizes in 2.5 to 2.7. */
function readWebp(bytes: Uint8Array): PictureHeader | null {
  if (bytes.length < 30) return null;
  const view = viewOf(bytes);
  const isWhole = view.getUint32(4, true) + 8 <= bytes.length;
  const of = (width: number, height: number): PictureHeader => ({ kind: 'webp', width, height, isWhole });
  switch (textAt(bytes, 12, 4)) {
    case 'VP8 ':
      // Frame tag of three bytes, start code of three, then 14 bits each (RFC 6386, 9.1).
      return of(view.getUint16(26, true) & 0x3fff, view.getUint16(28, true) & 0x3fff);
    case 'VP8L': {
      const bits = view.getUint32(21, true);
      return of((bits & 0x3fff) + 1, ((bits >>> 14) & 0x3fff) + 1);
    }
    case 'VP8X':
      return of((view.getUint32(24, true) & 0xffffff) + 1, (view.getUint32(26, true) >>> 8) + 1);
    default:
      return of(0, 0);
  }
}

/** What a file is that is none of the three, as far as its first bytes tell. */
function whatElse(bytes: Uint8Array): string {
  const start = textAt(bytes, 0, 1_000).replace(/^\u00ef\u00bb\u00bf/, '');
  const only = phrase('Pictures can be PNG, JPEG or WebP.');
  if (/^\s*<(\?xml|!doctype svg|!--|svg)/i.test(start) && /<svg[\s>]/i.test(start))
    return phrase('The file is an SVG drawing, not a picture of pixels. {only}', { only });
  if (start.startsWith('GIF8')) return phrase('The picture is a GIF. {only}', { only });
  if (start.startsWith('BM')) return phrase('The picture is a BMP. {only}', { only });
  if (/^(II\*\0|MM\0\*)/.test(start)) return phrase('The picture is a TIFF. {only}', { only });
  if (start.startsWith('%PDF')) return phrase('The file is a PDF. {only}', { only });
  if (/^ftyp(hei|hev|mif1|msf1)/.test(start.slice(4)))
    return phrase('The picture is a HEIC photo: save it as JPEG first. {only}', { only });
  if (/^ftypavi/.test(start.slice(4))) return phrase('The picture is an AVIF. {only}', { only });
  return phrase('The file is not a picture. {only}', { only });
}

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

const hasBytes = (bytes: Uint8Array, at: number, wanted: readonly number[]): boolean =>
  wanted.every((byte, i) => bytes[at + i] === byte);

/** Bytes as letters, one each; shorter where the file ends. */
const textAt = (bytes: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + length));
