/** 0 → A … 25 → Z, 26 → AA: letters of sections and of registration points. */
export function letters(index: number): string {
  let text = '';
  for (let n = index; n >= 0; n = Math.floor(n / 26) - 1) text = String.fromCharCode(65 + (n % 26)) + text;
  return text;
}

/** Order of patch ids: A1, A2 … A10, B1 … Z9, AA1. */
export function compareIds(a: string, b: string): number {
  const [, letterA = '', numberA = '0'] = /^([A-Z]*)(\d*)$/.exec(a) ?? [];
  const [, letterB = '', numberB = '0'] = /^([A-Z]*)(\d*)$/.exec(b) ?? [];
  if (letterA.length !== letterB.length) return letterA.length - letterB.length;
  if (letterA !== letterB) return letterA < letterB ? -1 : 1;
  return Number(numberA) - Number(numberB);
}
