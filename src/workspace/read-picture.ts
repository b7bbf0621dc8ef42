import { MAX_PICTURE_BYTES, pictureTooLarge, readPictureHeader } from '../document/picture-file.ts';
import { phrase } from '../words/phrase.ts';

/** A picture as the project keeps it: pixels alone, nothing of the file they came from. */
export interface ReadPicture {
  /** `data:image/jpeg;base64,…`: the picture upright, what is see-through in it white. */
  readonly data: string;
  /** Of the picture in `data`, pixels. */
  readonly width: number;
  readonly height: number;
}

export type PictureRead =
  | { readonly ok: true; readonly picture: ReadPicture }
  | { readonly ok: false; readonly error: string };

/** How long the longer side of a picture may be, in pixels, for lines in it to be followed at the size of a screen. */
export const TRACED_PX = 1600;

/** Fine enough that no blocks show at a line's edge, at about a tenth of the bytes of a PNG. */
const JPEG_QUALITY = 0.88;

/**
 * Reads a chosen, dropped or pasted picture. Its kind is told by its first bytes, its size before it is decoded; it
 * is turned as its camera says, made smaller until its longer side is at most `longestSide` pixels (never larger),
 * and encoded anew, so that place, time and whatever else the file tells stay behind. Never rejects: what cannot be
 * read is one sentence.
 */
export async function readPicture(file: Blob, longestSide = TRACED_PX): Promise<PictureRead> {
  if (file.size > MAX_PICTURE_BYTES) return refused(tooManyBytes(file.size));
  let bytes: Uint8Array<ArrayBuffer>;
  try {
    bytes = new Uint8Array(await file.arrayBuffer());
  } catch {
    return refused(phrase('The browser could not read it: it may have been moved, or be a folder.'));
  }
  const read = readPictureHeader(bytes);
  if (!read.ok) return read;
  const tooLarge = pictureTooLarge(read.header);
  if (tooLarge !== null) return refused(tooLarge);
  if (!read.header.isWhole)
    return refused(phrase('The picture stops in the middle: the end of the file is missing.'));
  let bitmap: ImageBitmap;
  try {
    // The kind that the bytes tell, not what the file is said to be.
    const picture = new Blob([bytes], { type: `image/${read.header.kind}` });
    bitmap = await createImageBitmap(picture, { imageOrientation: 'from-image' });
  } catch {
    return refused(phrase('The picture is damaged: the browser cannot show it.'));
  }
  try {
    return encoded(bitmap, longestSide);
  } finally {
    bitmap.close();
  }
}

function encoded(bitmap: ImageBitmap, longestSide: number): PictureRead {
  const factor = Math.min(1, longestSide / Math.max(bitmap.width, bitmap.height));
  const width = Math.max(1, Math.round(bitmap.width * factor));
  const height = Math.max(1, Math.round(bitmap.height * factor));
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const ctx = canvas.getContext('2d');
  if (ctx === null) return refused(phrase('The browser has no memory left for the picture.'));
  ctx.fillStyle = '#fff';
  ctx.fillRect(0, 0, width, height);
  ctx.imageSmoothingQuality = 'high';
  ctx.drawImage(bitmap, 0, 0, width, height);
  const data = canvas.toDataURL('image/jpeg', JPEG_QUALITY);
  return data.startsWith('data:image/jpeg;base64,')
    ? { ok: true, picture: { data, width, height } }
    : refused(phrase('The browser could not make the picture smaller.'));
}

const refused = (error: string): PictureRead => ({ ok: false, error });

const tooManyBytes = (bytes: number): string =>
  phrase('The picture is {ceil, number} MB; pictures of up to {maxPictureBytes} MB can be used.', {
    ceil: Math.ceil(bytes / 1e6),
    maxPictureBytes: MAX_PICTURE_BYTES / 1e6,
  });
