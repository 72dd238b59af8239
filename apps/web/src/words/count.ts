/** A number with its noun, one or many. */
export const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;
