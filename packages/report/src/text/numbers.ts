import type { Language } from '../model/document.ts';
import { type Cell, none } from '../model/table.ts';

const minus = '\u2212';
const thin = '\u202f';
const blank = '\u00a0';

/** Decimals a value is given with: a force to 1 N, a time to 1 ms; other units by three significant digits. */
export function decimalsFor(unit: string, value: number): number {
  switch (unit) {
    case 'N':
      return Math.abs(value) < 100 ? 1 : 0;
    case 'N/s':
    case 'ms':
      return 0;
    case 's':
      return 3;
    case 'N.s':
    case 'kg':
    case '%':
      return 1;
    case 'N/kg':
      return 2;
    default: {
      const size = Math.abs(value);
      return size === 0 ? 0 : Math.min(4, Math.max(0, 2 - Math.floor(Math.log10(size))));
    }
  }
}

const unitNames: Readonly<Record<string, string>> = { '1': '', deg: '°' };

/** A UCUM code as people write it. */
export const unitText = (code: string): string => unitNames[code] ?? code.replaceAll('.', '\u00b7');

/** Numbers for people, in the way of one language; no machine's locale is asked, so that the same report has the same bytes. */
export interface Numbers {
  /** Fixed decimals, a true minus, groups of three from five digits on. */
  fixed(value: number, decimals: number): string;
  /** With a plus sign where positive. */
  signed(value: number, decimals: number): string;
  /** With its unit, by as many decimals as the unit bears. */
  quantity(value: number, unit: string): string;
  /** A quantity with its sign. */
  difference(value: number, unit: string): string;
  /** Both ends with as many decimals as the larger bears, the unit once; with signs for differences. */
  range(low: number, high: number, unit: string, between: string, signs?: boolean): string;
  /** As few decimals as tell it, at most four. */
  short(value: number): string;
  percent(value: number, decimals?: number): string;
  /** A probability in whole per cent, never as certain as 0 or 100. */
  share(share: number): string;
  /** A cell with a number of the unit, the unit being said in the heading. */
  cell(value: number | undefined, unit: string): Cell;
  /** A cell with so many decimals. */
  fixedCell(value: number | undefined, decimals: number): Cell;
}

export function numbersOf(language: Language): Numbers {
  const sign = language === 'de' ? ',' : '.';
  const fixed = (value: number, decimals: number): string => {
    const [whole = '0', part] = Math.abs(value).toFixed(decimals).split('.');
    const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, thin) : whole;
    const zero = Number(Math.abs(value).toFixed(decimals)) === 0;
    return `${value < 0 && !zero ? minus : ''}${grouped}${part === undefined ? '' : sign + part}`;
  };
  const signed = (value: number, decimals: number) => {
    const said = fixed(value, decimals);
    return value > 0 && Number(value.toFixed(decimals)) !== 0 ? `+${said}` : said;
  };
  const united = (said: string, unit: string) => (unitText(unit) === '' ? said : `${said}${blank}${unitText(unit)}`);
  return {
    fixed,
    signed,
    quantity: (value, unit) => united(fixed(value, decimalsFor(unit, value)), unit),
    difference: (value, unit) => united(signed(value, decimalsFor(unit, value)), unit),
    range(low, high, unit, between, signs = false) {
      const decimals = decimalsFor(unit, Math.max(Math.abs(low), Math.abs(high)));
      const say = signs ? signed : fixed;
      return united(`${say(low, decimals)} ${between} ${say(high, decimals)}`, unit);
    },
    short: (value) =>
      String(Number(value.toFixed(4)))
        .replace('.', sign)
        .replace('-', minus),
    percent: (value, decimals = 1) => `${fixed(value, decimals)}${blank}%`,
    share: (share) => `${share > 0.99 ? '>99' : share < 0.01 ? '<1' : fixed(100 * share, 0)}${blank}%`,
    cell: (value, unit) => (value === undefined ? none : { text: fixed(value, decimalsFor(unit, value)), value }),
    fixedCell: (value, decimals) => (value === undefined ? none : { text: fixed(value, decimals), value }),
  };
}
