import { phrase } from '../words/phrase.ts';
import type { Checked } from './limits.ts';
import type { FabricPicture, Project } from './project.ts';

/** Longest side of a fabric's picture as the app keeps it, pixels: sharper than a screen shows a quilt. */
export const PICTURE_SIDE_PX = 512;

/** Largest side a file may give a picture, pixels. */
export const MAX_PICTURE_PX = 4_096;

/** Longest text of one picture, about 1 MB of it: a photo of `PICTURE_SIDE_PX` takes a tenth of that. */
export const PICTURE_LETTERS = 1_400_000;

/** Longest text of all pictures of fabrics together: with it a project stays well below the largest file that is read. */
export const ALL_PICTURES_LETTERS = 30_000_000;

/** Narrowest and widest piece of fabric a picture may show, inches. */
export const MIN_ACROSS_IN = 1 / 16;
export const MAX_ACROSS_IN = 120;

const WRITTEN =
  /^data:image\/(?:png|jpeg|webp);base64,(?:[A-Za-z0-9+/]{4})+(?:[A-Za-z0-9+/]{2}==|[A-Za-z0-9+/]{3}=)?$/;

/** Whether a text is a PNG, JPEG or WebP picture written out, and nothing else: no address, no drawing with scripts. */
export const isPictureData = (data: string, most = PICTURE_LETTERS): boolean =>
  data.length <= most && WRITTEN.test(data);

/** A width of real fabric in inches that a picture can show, or a sentence on why not. */
export function checkAcross(inches: number): Checked<number> {
  if (!Number.isFinite(inches))
    return { ok: false, error: phrase('The width of the piece is not a number.') };
  if (inches < MIN_ACROSS_IN) {
    return { ok: false, error: phrase('The width of the piece is less than 1/16 in (1.6 mm).') };
  }
  if (inches > MAX_ACROSS_IN) {
    return {
      ok: false,
      error: phrase('The width of the piece is more than {maxAcross} in (3 m).', {
        maxAcross: MAX_ACROSS_IN,
      }),
    };
  }
  return { ok: true, value: inches };
}

/** A picture that a fabric can have, or a sentence on why not. */
export function checkPicture(picture: FabricPicture): Checked<FabricPicture> {
  if (picture.data.length > PICTURE_LETTERS) {
    return { ok: false, error: phrase('The picture is too large to be kept: 1 MB is the most.') };
  }
  if (!isPictureData(picture.data)) {
    return { ok: false, error: phrase('The picture is not a PNG, JPEG or WebP picture.') };
  }
  const isSide = (pixels: number): boolean =>
    Number.isInteger(pixels) && pixels >= 1 && pixels <= MAX_PICTURE_PX;
  if (!isSide(picture.width) || !isSide(picture.height)) {
    return {
      ok: false,
      error: phrase('The picture must be 1 to {maxPicture, number} pixels each way.', {
        maxPicture: MAX_PICTURE_PX,
      }),
    };
  }
  const across = checkAcross(picture.across);
  return across.ok ? { ok: true, value: picture } : across;
}

/** Whether a picture still has room beside those of the other fabrics; a sentence when it has not. */
export function checkRoom(
  project: Project,
  fabricId: string,
  picture: FabricPicture,
): Checked<FabricPicture> {
  const others = project.fabrics.filter(({ id }) => id !== fabricId);
  return lettersOf(others) + picture.data.length <= ALL_PICTURES_LETTERS
    ? { ok: true, value: picture }
    : {
        ok: false,
        error: phrase(
          'The pictures of all fabrics together would be too large for a file. Take the picture of another fabric away first.',
        ),
      };
}

/** How long the texts of all the pictures of some fabrics, or blocks, are together. */
export const lettersOf = (
  all: readonly { readonly picture?: { readonly data: string } | undefined }[],
): number => all.reduce((sum, { picture }) => sum + (picture?.data.length ?? 0), 0);

/** How many inches of real fabric a picture shows from top to bottom. */
export const downOf = ({ width, height, across }: FabricPicture): number => (across * height) / width;

/**
 * Whether a picture file holds more pictures than one, to be shown in turn: a PNG with an acTL chunk before its first
 * IDAT (PNG, third edition, 11.3.6), or a WebP whose VP8X flags say so (RFC 9649, 2.7). A fabric takes its first.
 */
export function isMoving(bytes: Uint8Array): boolean {
  const textAt = (at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (textAt(0) === 'RIFF') return textAt(12) === 'VP8X' && ((bytes[20] ?? 0) & 0x02) !== 0;
  if (textAt(1).slice(0, 3) !== 'PNG') return false;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 8; at + 12 <= bytes.length; at += 12 + view.getUint32(at)) {
    const chunk = textAt(at + 4);
    if (chunk === 'acTL') return true;
    if (chunk === 'IDAT') return false;
  }
  return false;
}
