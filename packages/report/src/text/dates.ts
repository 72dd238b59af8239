import type { Language } from '../model/document.ts';

const months: Readonly<Record<Language, readonly string[]>> = {
  en: 'January February March April May June July August September October November December'.split(' '),
  de: 'Januar Februar März April Mai Juni Juli August September Oktober November Dezember'.split(' '),
};

/** A blank at which no line ends. */
const tied = '\u00a0';

interface Parts {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly time: string;
}

/** Dates of one language in one time zone. The zone is part of what is reported, so that no machine's own zone changes a page. */
export interface Dates {
  /** "3 May 2026", "3. Mai 2026". */
  day(instant: string): string;
  /** "3 May 2026" with the month shortened, for a table. */
  short(instant: string): string;
  /** With the time of day. */
  moment(instant: string): string;
  /** `YYYY-MM-DD`. */
  iso(instant: string): string;
  /** Month by its number from 1, shortened. */
  month(number: number): string;
  parts(instant: string): Parts;
}

/**
 * @param zone IANA name of the time zone, as `Europe/Vienna`
 * @throws RangeError where there is no such zone
 */
export function datesOf(language: Language, zone: string): Dates {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    calendar: 'iso8601',
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
  });
  const parts = (instant: string): Parts => {
    const found = Object.fromEntries(format.formatToParts(new Date(instant)).map(({ type, value }) => [type, value]));
    return {
      year: Number(found.year),
      month: Number(found.month),
      day: Number(found.day),
      time: `${found.hour}:${found.minute}`,
    };
  };
  const shortened = (month: number) => name(month).slice(0, 3);
  const name = (month: number) => months[language][month - 1] ?? '';
  const dayMonth = ({ day, month }: Parts) => (language === 'de' ? `${day}. ${name(month)}` : `${day} ${name(month)}`);
  const long = (at: Parts) => `${dayMonth(at)} ${at.year}`;
  return {
    day: (instant) => long(parts(instant)),
    short(instant) {
      const { year, month, day } = parts(instant);
      return language === 'de'
        ? `${day}.${tied}${shortened(month)}${tied}${year}`
        : `${day}${tied}${shortened(month)}${tied}${year}`;
    },
    moment: (instant) => `${long(parts(instant))}, ${parts(instant).time}`,
    iso: (instant) => {
      const { year, month, day } = parts(instant);
      return [year, String(month).padStart(2, '0'), String(day).padStart(2, '0')].join('-');
    },
    month: shortened,
    parts,
  };
}
