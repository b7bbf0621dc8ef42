/** Figures and capitals that no one reads, or writes by hand, as another; without vowels, so that they spell no word. */
const SIGNS = '234679CDFGHJKMNPQRTVWXY';

/** A code of so many signs, up to 11, for a text: the same for the same text, and hardly ever for another. */
export function codeOf(text: string, length: number): string {
  let rest = hashOf(text);
  let code = '';
  while (code.length < length) {
    code += SIGNS[rest % SIGNS.length];
    rest = Math.floor(rest / SIGNS.length);
  }
  return code;
}

/** A whole number of 53 bits: two multiplicative hashes of 32 bits side by side, each stirred at the end. */
function hashOf(text: string): number {
  let low = 0x811c9dc5;
  let high = 0x9e3779b9;
  for (let i = 0; i < text.length; i++) {
    const sign = text.charCodeAt(i);
    low = Math.imul(low ^ sign, 0x01000193);
    high = Math.imul(high ^ sign, 0x85ebca6b);
    high ^= high >>> 13;
  }
  return 2 ** 32 * (stirred(high) & 0x1fffff) + stirred(low ^ high);
}

function stirred(hash: number): number {
  let bits = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return (bits ^ (bits >>> 16)) >>> 0;
}
