/** In which order a day is written where the signs alone do not say. */
export type DayOrder = 'ymd' | 'dmy' | 'mdy';

/** A day, and the time and zone where they stand beside it. */
export interface FoundDay {
  /** `YYYY-MM-DD`. */
  readonly day: string;
  /** `HH:MM` or `HH:MM:SS`. */
  readonly time?: string;
  /** `Z` or `+01:00`. */
  readonly zone?: string;
}

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const clock = /[T\s,]+(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s*([ap]m)?\s*(Z|[+-]\d{2}:?\d{2})?$/i;

/**
 * Reads a day: ISO 8601; day.month.year with dots; with slashes or hyphens in the order given; with the month in English letters; or the
 * serial number of a spreadsheet (1900 system, whole days from 1954 to 2119, so that a year or a force is none).
 *
 * Two-digit years: 69 to 99 are 19xx, 00 to 68 are 20xx, as POSIX strptime reads them.
 */
export function readDay(text: string, order: DayOrder): FoundDay | undefined {
  const plain = text.trim();
  if (plain === '' || plain.length > 60) return undefined;
  const at = clock.exec(plain);
  const day = dayOf(at === null ? plain : plain.slice(0, at.index), order);
  if (day === undefined) return undefined;
  if (at === null) return { day };
  const [, hour = '', minute = '', second, half, zone] = at;
  const hours = half === undefined ? Number(hour) : (Number(hour) % 12) + (/^p/i.test(half) ? 12 : 0);
  if (hours > 23 || Number(minute) > 59 || Number(second ?? 0) > 59) return undefined;
  const time = `${String(hours).padStart(2, '0')}:${minute}${second === undefined ? '' : `:${second}`}`;
  if (zone === undefined) return { day, time };
  return { day, time, zone: /^z$/i.test(zone) ? 'Z' : zone.replace(/^(...)(\d\d)$/, '$1:$2') };
}

function dayOf(text: string, order: DayOrder): string | undefined {
  const plain = text.trim();
  if (/^\d{5}(\.\d+)?$/.test(plain)) {
    const serial = Math.floor(Number(plain));
    return serial >= 20_000 && serial <= 80_000
      ? new Date(Date.UTC(1899, 11, 30) + serial * 86_400_000).toISOString().slice(0, 10)
      : undefined;
  }
  const compact = /^((?:19|20)\d{2})(\d{2})(\d{2})$/.exec(plain);
  if (compact) return calendar(compact[1], compact[2], compact[3]);
  const numbers = /^(\d{1,4})([./\-\s]+)(\d{1,2})\2(\d{1,4})\.?$/.exec(plain);
  if (numbers) {
    const [, a = '', sign = '', b = '', c = ''] = numbers;
    if (a.length === 4) return calendar(a, b, c);
    if (a.length > 2 || c.length === 3 || c.length === 1) return undefined;
    if (sign.includes('.')) return calendar(c, b, a);
    return order === 'ymd' ? undefined : order === 'dmy' ? calendar(c, b, a) : calendar(c, a, b);
  }
  const named =
    /^(?:(\d{1,2})[\s.-]+([a-z]{3,9})|([a-z]{3,9})[\s.-]+(\d{1,2})(?:st|nd|rd|th)?)[\s.,-]+(\d{2}|\d{4})$/i.exec(plain);
  if (!named) return undefined;
  const name = (named[2] ?? named[3] ?? '').slice(0, 3).toLowerCase();
  const month = months.indexOf(name) + 1;
  return month === 0 ? undefined : calendar(named[5], String(month), named[1] ?? named[4]);
}

function calendar(year = '', month = '', day = ''): string | undefined {
  const short = Number(year);
  const full = year.length === 2 ? (short >= 69 ? 1900 : 2000) + short : short;
  const date = new Date(Date.UTC(full, Number(month) - 1, Number(day)));
  const is =
    date.getUTCMonth() === Number(month) - 1 && date.getUTCDate() === Number(day) && full >= 1900 && full < 2200;
  return is ? date.toISOString().slice(0, 10) : undefined;
}

/**
 * The orders under which every one of the texts is a day; both `dmy` and `mdy` when nothing tells them apart, and then a person must.
 * Texts that are no day under any order do not count.
 */
export function dayOrders(texts: readonly string[]): DayOrder[] {
  const orders = ['dmy', 'mdy'] as const;
  const read = texts.map((text) => orders.map((order) => readDay(text, order)?.day));
  const days = read.filter((one) => one.some((day) => day !== undefined));
  if (days.length === 0) return [];
  if (days.every(([a, b]) => a === b)) return ['ymd'];
  const fits = orders.filter((_, i) => days.every((one) => one[i] !== undefined));
  if (fits.length > 0) return fits;
  const counts = orders.map((_, i) => days.filter((one) => one[i] !== undefined).length);
  return [(counts[0] as number) >= (counts[1] as number) ? 'dmy' : 'mdy'];
}
