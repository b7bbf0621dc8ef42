/** 0 → A … 25 → Z, 26 → AA: letters of sections and of registration points. */
export function letters(index: number): string {
  let text = '';
  for (let n = index; n >= 0; n = Math.floor(n / 26) - 1) text = String.fromCharCode(65 + (n % 26)) + text;
  return text;
}

/** Order of patch ids: A1, A2 … A10, B1 … Z9, AA1. */
export function compareIds(a: string, b: string): number {
  const lettersA = lettersIn(a);
  const lettersB = lettersIn(b);
  if (lettersA !== lettersB) return lettersA - lettersB;
  for (let k = 0; k < lettersA; k++) {
    const apart = a.charCodeAt(k) - b.charCodeAt(k);
    if (apart !== 0) return apart;
  }
  return Number(a.slice(lettersA)) - Number(b.slice(lettersB));
}

/** How many letters an id begins with; figures follow. */
function lettersIn(id: string): number {
  let count = 0;
  while (count < id.length && id.charCodeAt(count) > 57) count++;
  return count;
}
