import { lineCodec } from '../codec/lines/line-codec.ts';
import { parseNumber } from '../codec/lines/parse-number.ts';
import type { FieldRole, LineLayout } from '../description.ts';
import type { ProposedLayout } from './recognise.ts';
import { columnRole } from './series.ts';

const named: Readonly<Record<string, string>> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  ' ': 'blanks',
  '|': 'bars',
};
const least = 5;

/** Delimited lines of numbers, when nearly all bytes are text. */
export function recogniseLines(bytes: Uint8Array): ProposedLayout[] {
  let text = 0;
  for (const byte of bytes) if ((byte >= 32 && byte < 127) || byte === 9 || byte === 10 || byte === 13) text++;
  if (bytes.length === 0 || text < 0.98 * bytes.length) return [];
  const lines = new TextDecoder('latin1')
    .decode(bytes)
    .split(/[\r\n]+/u)
    .slice(1, -1)
    .filter((line) => line.trim() !== '');
  if (lines.length < least) return [];
  const found: ProposedLayout[] = [];
  for (const delimiter of [';', '\t', ',', '|', ' ']) {
    for (const decimal of ['.', ','] as const) {
      if (delimiter === decimal) continue;
      const proposal = withSigns(lines, bytes, delimiter, decimal);
      if (proposal !== undefined && !found.some(({ channels }) => channels.length >= proposal.channels.length))
        found.push(proposal);
    }
  }
  return found;
}

function withSigns(
  lines: readonly string[],
  bytes: Uint8Array,
  delimiter: string,
  decimal: '.' | ',',
): ProposedLayout | undefined {
  const rows = lines.map((line) =>
    (delimiter === ' ' ? line.trim().split(/[ \t]+/u) : line.split(delimiter)).map((cell) => cell.trim()),
  );
  const width = mostCommon(rows.map((row) => row.length));
  const whole = rows.filter((row) => row.length === width);
  if (whole.length < Math.max(least, 0.8 * rows.length)) return undefined;
  const columns = Array.from({ length: width }, (_, c) => whole.map((row) => parseNumber(row[c] as string, decimal)));
  if (!columns.some((column) => column.every((value) => value !== undefined))) return undefined;
  const reasons = [
    width === 1
      ? 'Each line is one number.'
      : `${whole.length} of ${rows.length} lines have ${width} fields between ${named[delimiter]}.`,
  ];
  if (decimal === ',' && whole.some((row) => row.some((cell) => cell.includes(','))))
    reasons.push('Numbers have a decimal comma.');
  else if (decimal === ',') return undefined;
  const channels: string[] = [];
  const roles = new Set<string>();
  const fields = columns.map((column, c): FieldRole => {
    const values = column.filter((value) => value !== undefined);
    if (values.length < 0.95 * column.length) {
      reasons.push(`Field ${c + 1} is no number.`);
      return { role: 'ignore' };
    }
    const { role, reason } = columnRole(values, c + 1);
    if (role !== undefined && !roles.has(role.role)) {
      roles.add(role.role);
      reasons.push(reason as string);
      return role;
    }
    const name = `channel ${channels.length + 1}`;
    channels.push(name);
    return { role: 'channel', channel: name };
  });
  if (channels.length === 0) return undefined;
  const comment = ['#', '%', '//'].find((sign) => lines.some((line) => line.trimStart().startsWith(sign)));
  const layout: LineLayout = {
    kind: 'lines',
    delimiter,
    ...(decimal === ',' ? { decimal } : {}),
    ...(comment === undefined ? {} : { comment }),
    fields,
  };
  let good = 0;
  let bad = 0;
  const codec = lineCodec(layout, channels, { run: () => good++, damage: () => bad++ });
  codec.feed(bytes);
  return good === 0 ? undefined : { layout, channels, fits: good / (good + bad), reasons };
}

function mostCommon(numbers: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const number of numbers) counts.set(number, (counts.get(number) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 0;
}
