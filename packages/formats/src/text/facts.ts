import { unguardText } from './header-cell.ts';
import { numberOf } from './number.ts';
import type { TextRecord } from './records.ts';

/** Most lines of preamble or footer that are kept; the rest is counted. */
export const MOST_FACT_LINES = 10_000;
const LONGEST_FACT = 4_096;

/** Key and value of a line outside the table: `key=value`, `key: value`, two cells, or the whole line under its number. */
export function factOf(
  record: TextRecord,
  place: string,
  decode: (bytes: string) => string,
): [string, string] | undefined {
  const cells = record.cells.map((cell) => unguardText(decode(cell).trim()));
  while (cells.length > 0 && cells.at(-1) === '') cells.pop();
  if (cells.length === 0) return undefined;
  const line = cells.length === 1 ? cells[0]! : decode(record.line).trim();
  const text = line.replace(/^[#%;]+\s*/, '').slice(0, LONGEST_FACT);
  const pair = cells.length <= 1 ? /^([^=:]{1,80}?)\s*(?:=|:\s|:$)\s*(.*)$/s.exec(text) : null;
  if (pair !== null) return [pair[1]!.trim(), pair[2]!.trim()];
  if (cells.length === 2 && cells[0] !== '') {
    return [
      cells[0]!
        .replace(/^[#%;]+\s*/, '')
        .replace(/[:=]$/, '')
        .trim()
        .slice(0, 200),
      cells[1]!.slice(0, LONGEST_FACT),
    ];
  }
  return text === '' ? undefined : [place, text];
}

/** Collects facts under unique keys; safe for any key, `__proto__` included. */
export function factList(): {
  add(fact: [string, string] | undefined): void;
  all(): Record<string, string>;
  cut(): number;
} {
  const list = new Map<string, string>();
  const seen = new Map<string, number>();
  let dropped = 0;
  return {
    add: (fact) => {
      if (fact === undefined) return;
      if (list.size >= MOST_FACT_LINES) {
        dropped++;
        return;
      }
      const key = fact[0] === '' ? 'line' : fact[0];
      let n = seen.get(key) ?? 0;
      let unique = key;
      do {
        n++;
        unique = n === 1 ? key : `${key} (${n})`;
      } while (list.has(unique));
      seen.set(key, n);
      list.set(unique, fact[1]);
    },
    all: () => Object.fromEntries(list),
    cut: () => dropped,
  };
}

const RATE_KEY = /^(?:sampl(?:e|ing)[ _-]*)?(?:rate|frequency|freq|fs)[ _-]*(?:[[(]?\s*hz\s*[\])]?)?$/i;

/** A sample rate declared in the preamble (`Sampling frequency: 1000 Hz`, `sample_rate_hz,450`), in Hz. */
export function declaredRate(facts: Readonly<Record<string, string>>, decimal: '.' | ','): number | undefined {
  for (const [key, value] of Object.entries(facts)) {
    if (!RATE_KEY.test(key)) continue;
    const parts = /^([\d.,eE+-]+)\s*(k?hz|1\/s)?$/i.exec(value.trim());
    const number = parts === null ? undefined : (numberOf(parts[1]!, decimal) ?? numberOf(parts[1]!, '.'));
    const rate = (number ?? 0) * (/^khz$/i.test(parts?.[2] ?? '') ? 1000 : 1);
    if (rate > 0 && rate <= 10_000_000) return rate;
  }
  return undefined;
}
