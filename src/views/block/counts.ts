/** `1 join`, `2 joins`. */
export const countOf = (count: number, one: string, many: string = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
