import type { Benchmark, Finding, Row } from './benchmark.ts';

/** A benchmark with what it found. */
export interface Result {
  readonly benchmark: Benchmark;
  readonly finding: Finding;
}

export const headings = ['', 'measured', 'Sthene', 'instead', 'compared', 'goal', 'outcome'] as const;

/** What became of a row's goal. */
export function outcomeOf({ goal }: Row): string {
  if (goal === undefined) return '';
  return goal.met ? 'met' : `missed by ${goal.missedBy}`;
}

/** Every row of every benchmark as cells; a benchmark that was skipped has one row with its reason. */
export function cellsOf(results: readonly Result[]): readonly (readonly string[])[] {
  return results.flatMap(({ benchmark, finding }) =>
    finding.ok
      ? finding.report.rows.map((row) => [
          benchmark.id,
          row.what,
          row.ours,
          row.instead,
          row.ratio,
          row.goal?.words ?? '',
          outcomeOf(row),
        ])
      : [[benchmark.id, benchmark.title, '', '', '', '', `skipped: ${finding.reason}`]],
  );
}

/** The table with aligned columns. */
export function asText(results: readonly Result[]): string {
  const lines = [headings, ...cellsOf(results)];
  const widths = headings.map((_, c) => Math.max(...lines.map((line) => (line[c] ?? '').length)));
  return lines
    .map((line) =>
      line
        .map((cell, c) => cell.padEnd(widths[c] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

/** The table in Markdown. */
export function asMarkdown(results: readonly Result[]): string {
  const line = (cells: readonly string[]) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [line(headings), line(headings.map(() => '---')), ...cellsOf(results).map(line)].join('\n');
}

/** One sentence for each goal that was missed: by how much, and why. */
export function misses(results: readonly Result[]): readonly string[] {
  return results.flatMap(({ benchmark, finding }) =>
    finding.ok
      ? finding.report.rows
          .filter((row) => row.goal?.met === false)
          .map((row) =>
            `${benchmark.title}, ${row.what}: ${outcomeOf(row)} (${row.goal?.words}). ${row.because ?? ''}`.trim(),
          )
      : [],
  );
}
