import { kinds, marginalWords } from './plan.ts';
import { onsetScore, raisedBy, type ScoredPull, tally, targets } from './score.ts';

/** A table with its heading, ready for a terminal or a page. */
export interface Table {
  readonly title: string;
  readonly note?: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

const percent = (share: number, digits = 1): string => `${(100 * share).toFixed(digits)} %`;
const share = (part: number, whole: number): string => (whole === 0 ? '-' : percent(part / whole));
const ms = (value: number): string => value.toFixed(1);
const groups = <K>(
  pulls: readonly ScoredPull[],
  key: (pull: ScoredPull) => K,
): readonly (readonly [K, ScoredPull[]])[] => {
  const map = new Map<K, ScoredPull[]>();
  for (const pull of pulls) {
    const group = map.get(key(pull));
    if (group) group.push(pull);
    else map.set(key(pull), [pull]);
  }
  return [...map].sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
};

/** Every table of a scoring. */
export function tablesOf(pulls: readonly ScoredPull[]): readonly Table[] {
  return [
    targetTable(pulls),
    kindTable(pulls),
    countedTable(pulls, 'mass'),
    countedTable(pulls, 'noise'),
    ...onsetTables(pulls),
  ];
}

function targetTable(pulls: readonly ScoredPull[]): Table {
  const t = targets(pulls);
  const row = (words: string, { reached, met }: { reached: number; met: boolean }, wanted: string) => [
    words,
    wanted,
    percent(reached, 2),
    met ? 'met' : 'missed',
  ];
  return {
    title: 'Targets',
    head: ['target', 'wanted', 'reached', ''],
    rows: [
      row('onset within 20 ms, good pulls, plates of up to 1 N noise', t.onsetWithin20, '95 % or more'),
      row('bad pulls that count', t.badCounted, 'under 2 %'),
      row('good pulls that do not count', t.goodRefused, 'under 5 %'),
    ],
  };
}

function kindTable(pulls: readonly ScoredPull[]): Table {
  const rows: string[][] = [];
  for (const kind of kinds) {
    const own = pulls.filter((pull) => pull.kind === kind.id);
    const parts: [string, ScoredPull[]][] = [[kind.title, own.filter((pull) => !pull.marginal)]];
    const words = marginalWords(kind);
    if (words !== undefined) parts.push([`- ${words} (in no target)`, own.filter((pull) => pull.marginal)]);
    for (const [title, part] of parts) {
      const t = tally(part);
      const by = raisedBy(part.filter((pull) => pull.verdict !== 'counts'))
        .slice(0, 4)
        .map(([id, times]) => `${id} ${times}`)
        .join(', ');
      rows.push([
        title,
        String(t.pulls),
        share(t.counts, t.pulls),
        share(t.lookAgain, t.pulls),
        share(t.repeat, t.pulls),
        share(t.right, t.pulls),
        by,
      ]);
    }
  }
  return {
    title: 'Truth against verdict',
    note: 'Right: good pulls that count; faulty ones with a verdict that suits the fault. The last column counts the checks and reasons behind verdicts other than counts.',
    head: ['truth', 'pulls', 'counts', 'look again', 'repeat', 'right', 'raised by'],
    rows,
  };
}

/** Share of pulls that count, every kind against body mass or plate noise. */
function countedTable(pulls: readonly ScoredPull[], by: 'mass' | 'noise'): Table {
  const judged = pulls.filter((pull) => !pull.marginal);
  const key = (pull: ScoredPull): number => (by === 'mass' ? pull.bodyMass : pull.plateNoise);
  const columns = groups(judged, key).map(([value]) => value);
  return {
    title: by === 'mass' ? 'Share that counts by body mass' : 'Share that counts by plate noise',
    head: ['truth', ...columns.map((value) => `${value} ${by === 'mass' ? 'kg' : 'N'}`)],
    rows: kinds.map((kind) => [
      kind.title,
      ...columns.map((column) => {
        const own = judged.filter((pull) => pull.kind === kind.id && key(pull) === column);
        return share(tally(own).counts, own.length);
      }),
    ]),
  };
}

function onsetTables(pulls: readonly ScoredPull[]): readonly Table[] {
  const good = pulls.filter((pull) => pull.good);
  const quiet = good.filter((pull) => pull.plateNoise <= 1);
  const head = (first: string) => [
    first,
    'pulls',
    'no onset',
    'bias',
    'median size',
    '95th percentile',
    'within 20 ms',
  ];
  const row = (title: string, part: readonly ScoredPull[]): string[] => {
    const s = onsetScore(part);
    return [
      title,
      String(s.pulls),
      String(s.missing),
      ms(s.bias),
      ms(s.median),
      ms(s.percentile95),
      percent(s.within20),
    ];
  };
  const rowsBy = (part: readonly ScoredPull[], key: (pull: ScoredPull) => number | string, unit = '') =>
    groups(part, key).map(([value, own]) => row(`${value}${unit}`, own));
  const band = ({ breathing }: ScoredPull): string =>
    breathing < 5 ? '2 to 5 N' : breathing < 10 ? '5 to 10 N' : 'from 10 N';
  return [
    {
      title: 'Onset error of good pulls by plate noise, ms',
      note: 'Found minus true; positive is late. Bias is the median of the signed error.',
      head: head('noise'),
      rows: rowsBy(good, (pull) => pull.plateNoise, ' N'),
    },
    {
      title: 'Onset error of good pulls on plates of up to 1 N, ms',
      head: head('group'),
      rows: [
        ...(quiet.length === 0 ? [] : [row('all', quiet)]),
        ...rowsBy(quiet, (pull) => `pace ${pull.pace}`),
        ...rowsBy(quiet, (pull) => `form ${pull.form}`),
        ...rowsBy(quiet, (pull) => `breathing ${band(pull)}`),
      ],
    },
  ];
}

/** For a terminal: columns padded. */
export function asText(table: Table): string {
  const all = [table.head, ...table.rows];
  const widths = table.head.map((_, i) => Math.max(...all.map((row) => (row[i] ?? '').length)));
  const line = (row: readonly string[]): string =>
    row
      .map((cell, i) => cell.padEnd(widths[i]!))
      .join('  ')
      .trimEnd();
  return [table.title, ...(table.note ? [table.note] : []), line(table.head), ...table.rows.map(line), ''].join('\n');
}

/** For a page: Markdown. */
export function asMarkdown(table: Table): string {
  const line = (row: readonly string[]): string => `| ${row.join(' | ')} |`;
  return [
    `## ${table.title}`,
    '',
    ...(table.note ? [table.note, ''] : []),
    line(table.head),
    line(table.head.map(() => '---')),
    ...table.rows.map(line),
    '',
  ].join('\n');
}
