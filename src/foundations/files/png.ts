import { zlibSync } from 'fflate';

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** A picture in grey, 8 bits a dot, as a PNG file (ISO/IEC 15948): header, one stretch of data, end. */
export function greyPng(width: number, height: number, grey: Uint8Array): Uint8Array {
  const rows = new Uint8Array(height * (width + 1));
  // Each row begins with its filter: 0, none.
  for (let y = 0; y < height; y++) rows.set(grey.subarray(y * width, (y + 1) * width), y * (width + 1) + 1);
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  header[8] = 8;
  const chunks = [
    chunkOf('IHDR', header),
    chunkOf('IDAT', zlibSync(rows, { level: 9 })),
    chunkOf('IEND', new Uint8Array()),
  ];
  const png = new Uint8Array(SIGNATURE.length + chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  png.set(SIGNATURE);
  let at = SIGNATURE.length;
  for (const chunk of chunks) {
    png.set(chunk, at);
    at += chunk.length;
  }
  return png;
}

/** Length, name, data, and the check sum of name and data (ISO/IEC 15948, 5.3). */
function chunkOf(name: string, data: Uint8Array): Uint8Array {
  const chunk = new Uint8Array(12 + data.length);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, data.length);
  for (let i = 0; i < 4; i++) chunk[4 + i] = name.charCodeAt(i);
  chunk.set(data, 8);
  view.setUint32(8 + data.length, checkSum(chunk.subarray(4, 8 + data.length)));
  return chunk;
}

/** CRC-32 with the polynomial of ISO/IEC 15948, annex D. */
function checkSum(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return ~sum >>> 0;
}
