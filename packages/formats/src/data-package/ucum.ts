/** Unit atoms that take metric prefixes. */
const metric = new Set([
  'm',
  'g',
  's',
  'A',
  'K',
  'mol',
  'cd',
  'rad',
  'sr',
  'N',
  'J',
  'W',
  'Pa',
  'Hz',
  'V',
  'C',
  'F',
  'Ohm',
  'S',
  'T',
  'Wb',
  'L',
  'l',
  'bar',
  'Cel',
  'eV',
  'gf',
]);
/** Atoms that stand alone. */
const plain = new Set([
  '%',
  'deg',
  "'",
  "''",
  'min',
  'h',
  'd',
  'wk',
  'mo',
  'a',
  '[lbf_av]',
  '[lb_av]',
  '[in_i]',
  '[ft_i]',
  '[g]',
  '[pi]',
  '10*',
]);
const prefixes = ['da', 'Y', 'Z', 'E', 'P', 'T', 'G', 'M', 'k', 'h', 'd', 'c', 'm', 'u', 'n', 'p', 'f', 'a', 'z', 'y'];

function isAtom(text: string): boolean {
  if (metric.has(text) || plain.has(text)) return true;
  return prefixes.some((prefix) => text.startsWith(prefix) && metric.has(text.slice(prefix.length)));
}

/**
 * Whether a text is a UCUM code of the quantities this product meets: atoms with prefixes and exponents, joined by `.` and
 * `/`. Case counts. Parentheses and annotations, which the product never writes, are not accepted.
 *
 * Source: UCUM specification (atoms from memory), methods/jumps-and-plates.md section 6.3.
 */
export function isUcum(code: string): boolean {
  if (!/^[!-~]+$/.test(code)) return false;
  const parts = code.split(/[./]/);
  if (parts[0] === '' && code.startsWith('/')) parts.shift();
  return parts.every((part) => {
    if (/^\d+$/.test(part)) return true;
    const exponent = /^(.*?[^\d+-])([+-]?\d+)?$/.exec(part);
    return exponent !== null && isAtom(exponent[1] as string);
  });
}
