import { asMarkdown, misses, type Result } from './table.ts';

/** What the page says of the run itself. */
export interface Run {
  readonly command: string;
  readonly date: string;
  readonly quick: boolean;
  readonly facts: readonly (readonly [string, string])[];
}

/** The page of the documentation. */
export function benchPage(results: readonly Result[], { command, date, quick, facts }: Run): string {
  const missed = misses(results);
  return [
    '# Speed and memory',
    '',
    'Measured beside what a user would do instead, on one machine in one run, the sides in turn; each figure is the median of its',
    `rounds. This page is written by \`${command}\`; do not edit it. Run it on your own machine: the ratios matter, not the times.`,
    ...(quick ? ['', 'A quick run with small sizes: it shows that the measuring works and is not to be quoted.'] : []),
    '',
    asMarkdown(results),
    '',
    '## Where a goal is missed',
    '',
    ...(missed.length === 0 ? ['Nowhere in this run.'] : missed.map((sentence) => `- ${sentence}`)),
    '',
    '## What was compared',
    ...results.flatMap(({ benchmark, finding }) => [
      '',
      `### ${benchmark.id}. ${benchmark.title}`,
      '',
      benchmark.compared,
      '',
      ...(finding.ok ? finding.report.notes.map((note) => `- ${note}`) : [`Skipped: ${finding.reason}.`]),
    ]),
    '',
    '## The machine',
    '',
    `${date}; \`${command}\``,
    '',
    '| part | value |',
    '| --- | --- |',
    ...facts.map(([name, value]) => `| ${name} | ${value} |`),
    '',
  ].join('\n');
}
