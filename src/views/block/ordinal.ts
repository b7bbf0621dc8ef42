const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth'];

/** `third`, `12th`. */
export function ordinal(position: number): string {
  const word = ORDINALS[position];
  if (word !== undefined) return word;
  const [tens, ones] = [Math.floor(position / 10) % 10, position % 10];
  const end = tens === 1 ? 'th' : (['th', 'st', 'nd', 'rd'][ones] ?? 'th');
  return `${position}${end}`;
}
