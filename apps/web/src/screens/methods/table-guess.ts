import { metricRegistry } from '@sthene/core';

/** What the columns of a pasted table are taken for. */
export interface TableGuess {
  /** What says which trial a line is. */
  readonly way: 'trial' | 'file' | 'person';
  readonly columns: Readonly<Record<string, string>>;
  readonly values: Readonly<Record<string, { readonly metric: string; readonly unit: string }>>;
}

/** Headings of a pasted table: by tab, semicolon or comma, whichever there are most of in its first line. */
export function columnsOf(text: string): string[] {
  const [line = ''] = text.replace(/^\uFEFF/u, '').split(/\r?\n/u, 1);
  if (line.trim() === '') return [];
  const count = (sign: string) => line.split(sign).length;
  const sign = ['\t', ';', ','].reduce((best, one) => (count(one) > count(best) ? one : best), '\t');
  return line.split(sign).map((name) =>
    name
      .trim()
      .replace(/^"(.*)"$/u, '$1')
      .replaceAll('""', '"'),
  );
}

const names: Readonly<Record<string, RegExp>> = {
  trial: /^(trial|trial[ _]?id|id)$/iu,
  file: /^(file|file[ _]?name|recording)$/iu,
  label: /^(label|part)$/iu,
  person: /^(athlete|person|name|code)$/iu,
  date: /^(date|day)$/iu,
  order: /^(order|number|nr|no|trial[ _]?(no|nr|number))$/iu,
};

/** Takes headings for what they most likely are: a metric's id or title, with a unit in brackets where there is one. */
export function guessOf(columns: readonly string[]): TableGuess {
  const found: Record<string, string> = {};
  const values: Record<string, { metric: string; unit: string }> = {};
  for (const column of columns) {
    const key = Object.keys(names).find((one) => found[one] === undefined && names[one]?.test(column));
    if (key !== undefined) {
      found[key] = column;
      continue;
    }
    const [, bare = column, unit = ''] = /^(.*?)\s*[([]([^)\]]+)[)\]]\s*$/u.exec(column) ?? [];
    const plain = (text: string) =>
      text
        .toLowerCase()
        .replace(/[^a-z0-9]+/gu, ' ')
        .trim();
    const metric = metricRegistry.all.find(({ id, title }) => [id, title].map(plain).includes(plain(bare)));
    values[column] = { metric: metric?.id ?? '', unit };
  }
  const way =
    found.trial !== undefined
      ? 'trial'
      : found.file !== undefined
        ? 'file'
        : found.person !== undefined
          ? 'person'
          : 'trial';
  return { way, columns: found, values };
}
