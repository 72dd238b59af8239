import type { ProtocolField } from './fields.ts';

const rounded = (value: number, digits: number): string => String(Number(value.toFixed(digits)));

/** A length of time as people say it: `90 s`, `2 min`, `2 min 30 s`. */
export function secondsText(seconds: number): string {
  if (seconds < 120) return `${rounded(seconds, 2)} s`;
  const minutes = Math.floor(seconds / 60);
  const left = Math.round(seconds - 60 * minutes);
  return left === 0 ? `${minutes} min` : `${minutes} min ${left} s`;
}

/** A number of a protocol with its unit, as people read it. */
export function valueText(value: number, unit: ProtocolField['unit'], force = 'N'): string {
  switch (unit) {
    case 's':
      return secondsText(value);
    case 'share':
      return `${rounded(100 * value, 1)} %`;
    case 'force':
      return `${rounded(value, 1)} ${force}`;
    case 'weights':
      return `${rounded(value, 2)} body weights`;
    case 'times':
      return rounded(value, 3);
  }
}

/** Both ends of a range, the unit said once where it is the same. */
export function rangeText(low: number, high: number, unit: ProtocolField['unit']): string {
  const to = valueText(high, unit);
  if (unit === 's') return `${valueText(low, unit)} to ${to}`;
  const alone = rounded(unit === 'share' ? 100 * low : low, 3);
  return `${alone} to ${to}`;
}
