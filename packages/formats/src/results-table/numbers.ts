import { parseUnit } from '@sthene/core';
import { numberOf } from '../text/number.ts';

/** Cells that say that there is no value (common practice); compared without case. */
const missing = new Set([
  '',
  '-',
  '\u2013',
  '\u2014',
  '.',
  '..',
  '?',
  'n/a',
  'na',
  '#n/a',
  'n.a.',
  'nan',
  'null',
  'none',
  'missing',
]);
export const isMissing = (text: string): boolean => missing.has(text.trim().toLowerCase());

/** A number and a unit that stood behind it in the cell. */
export interface CellNumber {
  readonly value: number;
  /** UCUM code; absent where the cell names none. */
  readonly unit?: string;
}

const grouped = {
  '.': /^[+\-\u2212]?\d{1,3}(?:([,' \u00a0\u2009\u202f])\d{3})(?:\1\d{3})*(?:\.\d+)?$/,
  ',': /^[+\-\u2212]?\d{1,3}(?:([.' \u00a0\u2009\u202f])\d{3})(?:\1\d{3})*(?:,\d+)?$/,
} as const;

/** The number of a cell: with grouped thousands, and with a known unit behind it; undefined when it is none. */
export function cellNumber(text: string, decimal: '.' | ','): CellNumber | undefined {
  const plain = text.trim();
  if (plain.length > 60) return undefined;
  const value = plainNumber(plain, decimal);
  if (value !== undefined) return { value };
  const split = /^([+\-\u2212]?[\d.,' \u00a0\u2009\u202f]*\d(?:[eE][+-]?\d+)?)\s*(\D.*)$/.exec(plain);
  const unit = split && parseUnit(split[2] as string)?.code;
  const number = split && plainNumber((split[1] as string).trim(), decimal);
  return unit && number !== undefined && number !== null ? { value: number, unit } : undefined;
}

function plainNumber(text: string, decimal: '.' | ','): number | undefined {
  const signed = text.replace(/^\u2212/, '-');
  const one = numberOf(signed, decimal);
  if (one !== undefined) return one;
  const groups = grouped[decimal].exec(signed);
  if (groups === null) return undefined;
  const joined = signed.split(groups[1] as string).join('');
  return numberOf(joined, decimal);
}

/**
 * The decimal sign that cells use, and whether they leave it open: `1,234` alone may be either.
 *
 * @param texts cells that should be numbers
 * @param delimiter of the text; where the comma parts the cells, a point is no thousands sign
 */
export function decimalOf(texts: readonly string[], delimiter?: string): { decimal: '.' | ','; sure: boolean } {
  let point = 0;
  let comma = 0;
  const open = { '.': 0, ',': 0 };
  for (const text of texts) {
    const plain = text.trim();
    if (!/^[+\-\u2212]?[\d.,' \u00a0]*\d/.test(plain)) continue;
    const [lastPoint, lastComma] = [plain.lastIndexOf('.'), plain.lastIndexOf(',')];
    if (lastPoint < 0 && lastComma < 0) continue;
    if (lastPoint >= 0 && lastComma >= 0) lastPoint > lastComma ? point++ : comma++;
    else if (/^[+\-\u2212]?[1-9]\d{0,2}([.,]\d{3})+$/.test(plain)) {
      if ((plain.match(/[.,]/g) ?? []).length > 1) lastPoint > lastComma ? comma++ : point++;
      else if (lastPoint > lastComma && delimiter === ',') point++;
      else open[lastPoint > lastComma ? '.' : ',']++;
    } else lastPoint > lastComma ? point++ : comma++;
  }
  if (point === 0 && comma === 0) {
    const likely = open[','] > open['.'] && delimiter !== ',' ? ',' : '.';
    return { decimal: likely, sure: open['.'] + open[','] === 0 };
  }
  return { decimal: comma > point ? ',' : '.', sure: true };
}
