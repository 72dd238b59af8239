/** Plain JSON data. Absent members are left out, never `undefined` inside arrays. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json | undefined };

/**
 * Canonical JSON text: no blanks, members sorted by UTF-16 code units, numbers and strings as ECMAScript writes them; members
 * that are `undefined` are left out. Equal data give equal text, whatever the order they were written in.
 *
 * @throws TypeError for numbers that JSON has no word for
 * Source: RFC 8785 (JSON Canonicalization Scheme).
 */
export function canonicalJson(value: Json): string {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new TypeError(`JSON has no word for ${value}.`);
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  if (isList(value)) return `[${value.map(canonicalJson).join(',')}]`;
  const members = Object.keys(value)
    .sort()
    .flatMap((key) => {
      const member = value[key];
      return member === undefined ? [] : [`${JSON.stringify(key)}:${canonicalJson(member)}`];
    });
  return `{${members.join(',')}}`;
}

const isList = (value: object): value is readonly Json[] => Array.isArray(value);
