import { StoreError } from './errors.ts';

/**
 * JSON text of a document, keys in their own order. JSON has no NaN or infinity and would silently write null, so such a
 * number throws `bad-value`: a value that could not be computed must arrive as a reason.
 */
export function toJson(value: unknown): string {
  // Asking about each number makes writing many times slower; without a "null" in the text none of them was written as one.
  const text = JSON.stringify(value);
  if (text === undefined)
    throw new StoreError('bad-value', 'A document must be JSON; undefined and functions are not.');
  return text.includes('null') ? JSON.stringify(value, refuseNonFinite) : text;
}

/** JSON with sorted keys and no blanks: equal content gives equal text, for hashing. */
export function canonicalJson(value: unknown): string {
  return toJson(sorted(value));
}

/** Reads what `toJson` wrote. */
export function fromJson<T>(text: string): T {
  return JSON.parse(text) as T;
}

function refuseNonFinite(key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new StoreError('bad-value', 'A document holds a number that is not finite.', { field: key });
  }
  return value;
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== 'object') return value;
  const entries = Object.entries(value).filter(([, member]) => member !== undefined);
  // Code-unit order, the same on every machine; a locale's order would not be.
  entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  // Without a prototype, so that a key named __proto__ stays an ordinary member.
  const result: Record<string, unknown> = Object.create(null);
  for (const [key, member] of entries) result[key] = sorted(member);
  return result;
}
