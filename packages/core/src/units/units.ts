import type { Unit } from './table.ts';
import { units } from './table.ts';

const byCode = new Map<string, Unit>();
const bySpelling = new Map<string, Unit>();
for (const unit of units) {
  if (byCode.has(unit.code)) throw new Error(`The unit "${unit.code}" is listed twice.`);
  byCode.set(unit.code, unit);
}
// Spellings must be free; a code's lower-case form is only a convenience and gives way to them.
for (const unit of units) {
  for (const text of [...unit.spellings, unit.code]) {
    const key = plain(text);
    const taken = bySpelling.get(key);
    if (taken === undefined) bySpelling.set(key, unit);
    else if (taken !== unit && unit.spellings.includes(text)) {
      throw new Error(`The spelling "${text}" stands for ${taken.code} and ${unit.code}.`);
    }
  }
}

/** The unit of a UCUM code, or undefined when the product does not know it. */
export const unitOf = (code: string): Unit | undefined => byCode.get(code);

/**
 * Reads a unit as people and programs write it: `N`, `[N]`, `(Newton)`, `lbs`, `kp`, `Nm`, `N·m`, `ms`.
 *
 * Exact UCUM codes come first (case counts: `mN`, `MN`), then usual spellings without case, blanks and brackets.
 * @returns the unit, or undefined when the text names none that is known (an empty text too)
 */
export function parseUnit(text: string): Unit | undefined {
  const bare = unwrap(text);
  // A capital M before N or V is a million, never a thousandth.
  if (/^M[NV]$/iu.test(bare) && bare.startsWith('M')) return undefined;
  return byCode.get(bare) ?? byCode.get(text.trim()) ?? bySpelling.get(plain(bare));
}

/**
 * Converts a value between two units of one dimension; the only place that does.
 *
 * @param value number in `from`
 * @param from UCUM code
 * @param to UCUM code
 * @throws RangeError for an unknown code or two dimensions: callers check outside data with `parseUnit` first
 */
export function convert(value: number, from: string, to: string): number {
  return value * conversionFactor(from, to);
}

/** Factor by which a value in `from` is multiplied to give the value in `to`; exactly 1 for equal units. Throws as `convert`. */
export function conversionFactor(from: string, to: string): number {
  const source = known(from);
  const target = known(to);
  if (source.dimension !== target.dimension) {
    throw new RangeError(`${from} measures ${source.dimension}, ${to} measures ${target.dimension}.`);
  }
  return source === target ? 1 : source.factor / target.factor;
}

/** True when both codes are known and measure the same. */
export function convertible(from: string, to: string): boolean {
  const dimension = byCode.get(from)?.dimension;
  return dimension !== undefined && dimension === byCode.get(to)?.dimension;
}

function known(code: string): Unit {
  const unit = byCode.get(code);
  if (unit === undefined) throw new RangeError(`The unit "${code}" is not known.`);
  return unit;
}

/** Removes blanks around and one pair of brackets. */
function unwrap(text: string): string {
  const trimmed = text.trim();
  const inner = /^[[({](.*)[\])}]$/u.exec(trimmed)?.[1]?.trim();
  return inner === undefined || inner === '' ? trimmed : inner;
}

function plain(text: string): string {
  return text
    .toLowerCase()
    .replace(/[\s_]/gu, '')
    .replace(/-force/gu, 'force')
    .replace(/\.$/u, '');
}
