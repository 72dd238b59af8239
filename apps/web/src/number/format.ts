const minus = '\u2212';
const thin = '\u202f';

/** Decimal sign of numbers on screen. A point unless a person chose otherwise; machine files always use a point. */
export type DecimalSign = '.' | ',';

/**
 * Writes a number for people: fixed decimals, a true minus, groups of three by a narrow blank from five digits on (never a
 * comma, which half of the world reads as a decimal sign). Does not ask the machine's locale, so that the same result
 * looks the same on every screen.
 */
export function numberText(value: number, decimals: number, sign: DecimalSign = '.'): string {
  const fixed = Math.abs(value).toFixed(decimals);
  const [whole = '0', part] = fixed.split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, thin) : whole;
  const zero = Number(fixed) === 0;
  return `${value < 0 && !zero ? minus : ''}${grouped}${part === undefined ? '' : sign + part}`;
}

/** With a plus sign where positive, for values that have a direction. */
export function signedText(value: number, decimals: number, sign: DecimalSign = '.'): string {
  const text = numberText(value, decimals, sign);
  return value > 0 && Number(value.toFixed(decimals)) !== 0 ? `+${text}` : text;
}

/** What is known of the measurement that produced a value. */
export interface Resolution {
  /** Samples a second. */
  readonly sampleRate: number;
  /** SD of one sample at rest, in the force unit. */
  readonly noise?: number;
}

/**
 * Decimals that the measurement supports: a time down to one sample, a force down to the noise of one sample but not
 * below a tenth; per kilogram two, a share one. Unknown units are given by three significant digits.
 */
export function decimalsFor(unit: string, value: number, { sampleRate, noise }: Resolution): number {
  const noiseDecimals = noise === undefined || noise >= 0.5 ? 0 : 1;
  switch (unit) {
    case 'N':
      return Math.abs(value) < 100 ? 1 : noiseDecimals;
    case 'N/s':
      return 0;
    case 'N.s':
      return 1;
    case 'N.m':
      return Math.abs(value) < 10 ? 2 : Math.abs(value) < 100 ? 1 : 0;
    case 's':
      return Math.min(4, Math.max(1, Math.ceil(Math.log10(sampleRate) - 1e-9)));
    case 'ms':
      return 0;
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

const names: Readonly<Record<string, string>> = {
  'N.s': 'N\u00b7s',
  'N.m': 'N\u00b7m',
  '1': '',
  '%': '%',
};

/** A UCUM code as people write it. */
export const unitText = (code: string): string => names[code] ?? code.replaceAll('.', '\u00b7');

/** Value and unit in one text, with a blank that does not break. */
export function quantityText(value: number, unit: string, resolution: Resolution): string {
  const text = numberText(value, decimalsFor(unit, value, resolution));
  return unitText(unit) === '' ? text : `${text}\u00a0${unitText(unit)}`;
}
