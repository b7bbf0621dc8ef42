import { crc32, deflateSync } from 'node:zlib';

/** A photo of a chequered sheet on a table, made by a pinhole camera of its own: nothing here knows how the app straightens. */

type Place = readonly [number, number];

/** Pixels of the photo. */
export const WIDTH = 960;
export const HEIGHT = 720;

/** Squares along each side of the sheet. */
export const SQUARES = 6;

const FOCUS = 1100;
const DISTANCE = 15.5;
const TILT = 0.62;
const TURN = 0.21;

/** Where a place of the sheet (0 … `SQUARES` each way) is in the photo: turned on the table, tilted, and seen from a height. */
export function inPhoto([x, y]: Place): Place {
  const [sx, sy] = [x - SQUARES / 2, y - SQUARES / 2];
  const tx = sx * Math.cos(TURN) - sy * Math.sin(TURN);
  const ty = sx * Math.sin(TURN) + sy * Math.cos(TURN);
  const depth = DISTANCE - ty * Math.sin(TILT);
  return [WIDTH / 2 + (FOCUS * tx) / depth, HEIGHT / 2 + (FOCUS * ty * Math.cos(TILT)) / depth];
}

/** The place of the sheet that is seen at a place of the photo: the ray through it, met with the table. */
function onSheet([u, v]: Place): Place {
  const [rx, ry] = [(u - WIDTH / 2) / FOCUS, (v - HEIGHT / 2) / FOCUS];
  const ty = (ry * DISTANCE) / (Math.cos(TILT) + ry * Math.sin(TILT));
  const tx = rx * (DISTANCE - ty * Math.sin(TILT));
  return [
    tx * Math.cos(TURN) + ty * Math.sin(TURN) + SQUARES / 2,
    -tx * Math.sin(TURN) + ty * Math.cos(TURN) + SQUARES / 2,
  ];
}

const INK = [38, 60, 92];
const PAPER = [244, 240, 228];
const TABLE = [150, 122, 92];

function colorAt(place: Place): readonly number[] {
  const [x, y] = onSheet(place);
  if (x < 0 || y < 0 || x >= SQUARES || y >= SQUARES) return TABLE;
  return (Math.floor(x) + Math.floor(y)) % 2 === 0 ? INK : PAPER;
}

/** The photo as a PNG file, each pixel the mean of four rays. */
export function photo(): Buffer {
  return png(WIDTH, HEIGHT, (x, y) => {
    const sum = [0, 0, 0];
    for (const dx of [1 / 4, 3 / 4])
      for (const dy of [1 / 4, 3 / 4])
        colorAt([x + dx, y + dy]).forEach((value, channel) => {
          sum[channel]! += value / 4;
        });
    return sum;
  });
}

/** A PNG file (ISO/IEC 15948) of eight bits a channel, no filter. */
export function png(
  width: number,
  height: number,
  color: (x: number, y: number) => readonly number[],
): Buffer {
  const rows = Buffer.alloc(height * (1 + 3 * width));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      color(x, y).forEach((value, channel) => {
        rows[y * (1 + 3 * width) + 1 + 3 * x + channel] = Math.round(value);
      });
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 2, 0, 0, 0], 8);
  return pngOf(header, deflateSync(rows));
}

export function pngOf(header: Buffer, data: Buffer): Buffer {
  const chunk = (name: string, content: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(name, 'latin1'), content]);
    const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(content.length);
    check.writeUInt32BE(crc32(body));
    return Buffer.concat([length, body, check]);
  };
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk('IHDR', header),
    chunk('IDAT', data),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}
