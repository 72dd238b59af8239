import { parseUnit, unitOf } from '@sthene/core';

/** Unit words that stand behind an underscore in our own headers: `left_n`, `time_ms`. No `v` or `w`: those end other names. */
const ENDINGS: ReadonlyMap<string, string> = new Map([
  ['n', 'N'],
  ['kn', 'kN'],
  ['mv', 'mV'],
  ['kgf', 'kgf'],
  ['lbf', '[lbf_av]'],
  ['nm', 'N.m'],
  ['s', 's'],
  ['ms', 'ms'],
  ['us', 'us'],
  ['hz', 'Hz'],
  ['cm', 'cm'],
  ['mm', 'mm'],
  ['kg', 'kg'],
  ['deg', 'deg'],
]);
const ENDING_OF = new Map([...ENDINGS].map(([ending, code]) => [code, ending]));

const PREFIX = '(?:Y|Z|E|P|T|G|M|k|h|da|d|c|m|u|n|p|f|a)?';
const ATOM = `${PREFIX}(?:mol|rad|cd|Hz|Pa|Ohm|Cel|bar|gf|deg|min|eV|[mgsAKCNJWVFTSH])`;
const SPECIAL = '\\[(?:lbf_av|lb_av|oz_av|in_i|ft_i|yd_i|g|psi|mi_i)\\]|%|10\\*-?\\d{1,2}|\\d{1,6}|\\{[!-z|~]{0,40}\\}';
const TERM = `(?:${ATOM}|${SPECIAL})(?:-?\\d)?`;
const UCUM = new RegExp(`^/?${TERM}(?:[./]${TERM}){0,6}$`);

/**
 * UCUM code of a unit in a header, or undefined: any spelling the product knows, and in square brackets any code of UCUM
 * built from the atoms a laboratory meets, so that our own files keep units the product cannot convert.
 */
export function unitInHeader(written: string, square: boolean): string | undefined {
  if (written === '' || written.length > 60) return undefined;
  return parseUnit(written)?.code ?? (square && UCUM.test(written) ? written : undefined);
}

/** UCUM code of an ending such as the `n` of `left_n`, or undefined. */
export const unitOfEnding = (ending: string): string | undefined => ENDINGS.get(ending.toLowerCase());

/** The ending that stands for a UCUM code in our own headers, or undefined. */
export const endingOf = (code: string): string | undefined => ENDING_OF.get(code);

/** Seconds in one of a time unit, or undefined when the code is no time unit. */
export function secondsIn(code: string): number | undefined {
  const unit = unitOf(code);
  return unit?.dimension === 'time' ? unit.factor : undefined;
}

/** True for units that may stand alone as a column's whole heading. */
export function standsAlone(code: string): boolean {
  const unit = unitOf(code);
  return unit?.dimension === 'force' || unit?.dimension === 'voltage' || ['s', 'ms', 'us'].includes(code);
}
