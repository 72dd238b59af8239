/** Thrown inside the checks below and caught at the one door; never leaves this folder. */
export class Unfit extends Error {
  readonly path: string;
  readonly expected: string;
  constructor(path: string, expected: string) {
    super(`${path}: expected ${expected}`);
    this.path = path;
    this.expected = expected;
  }
}

/** Checks one value at a path and returns it as a narrow type. */
export type Check<T> = (value: unknown, path: string) => T;

export const text: Check<string> = (value, path) => {
  if (typeof value !== 'string') throw new Unfit(path, 'text');
  return value;
};

export const yesNo: Check<boolean> = (value, path) => {
  if (typeof value !== 'boolean') throw new Unfit(path, 'true or false');
  return value;
};

export const finite: Check<number> = (value, path) => {
  if (typeof value !== 'number' || !Number.isFinite(value)) throw new Unfit(path, 'a number');
  return value;
};

export const count: Check<number> = (value, path) => {
  if (typeof value !== 'number' || !Number.isSafeInteger(value) || value < 0) throw new Unfit(path, 'a whole number');
  return value;
};

export const positive: Check<number> = (value, path) => {
  if (finite(value, path) <= 0) throw new Unfit(path, 'a number above zero');
  return value as number;
};

export function oneOf<T extends string | number>(allowed: readonly T[]): Check<T> {
  return (value, path) => {
    if (!allowed.includes(value as T)) throw new Unfit(path, `one of ${allowed.join(', ')}`);
    return value as T;
  };
}

export function listOf<T>(item: Check<T>): Check<T[]> {
  return (value, path) => {
    if (!Array.isArray(value)) throw new Unfit(path, 'a list');
    return value.map((entry, i) => item(entry, `${path}[${i}]`));
  };
}

/** A list of exactly `size` numbers. */
export function numbers(size: number): Check<number[]> {
  return (value, path) => {
    const list = listOf(finite)(value, path);
    if (list.length !== size) throw new Unfit(path, `${size} numbers`);
    return list;
  };
}

export const object: Check<Readonly<Record<string, unknown>>> = (value, path) => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw new Unfit(path, 'an object');
  return value as Record<string, unknown>;
};

/** A text for each key; keys such as `__proto__` stay plain keys. */
export const texts: Check<Record<string, string>> = (value, path) =>
  Object.fromEntries(Object.entries(object(value, path)).map(([key, entry]) => [key, text(entry, `${path}.${key}`)]));

/** `{ [key]: value }` when the object has the key, else nothing to spread. */
export function optional<K extends string, T>(
  from: Readonly<Record<string, unknown>>,
  key: K,
  check: Check<T>,
  path: string,
): { [P in K]?: T } {
  const value = from[key];
  return (value === undefined ? {} : { [key]: check(value, `${path}.${key}`) }) as { [P in K]?: T };
}
