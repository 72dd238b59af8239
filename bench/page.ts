import type { PageId } from './benchmark.ts';
import { asMarkdown, misses, type Result } from './table.ts';

/** What the page says of the run itself. */
export interface Run {
  readonly command: string;
  readonly date: string;
  readonly quick: boolean;
  readonly facts: readonly (readonly [string, string])[];
}

/** File and first words of each page. */
export const pages: Readonly<
  Record<PageId, { readonly file: string; readonly title: string; readonly intro: string }>
> = {
  files: {
    file: 'bench.md',
    title: 'Speed and memory',
    intro:
      'Measured beside what a user would do instead, on one machine in one run, the sides in turn; each figure is the median of its\n' +
      'rounds. The live path is on a [page of its own](bench-live.md).',
  },
  live: {
    file: 'bench-live.md',
    title: 'Speed of the live path',
    intro:
      'From the plates to the screen, from the end of an effort to its verdict, and what a station costs through a day; where there is something a\n' +
      'user would do instead, beside it, in one run and in turn. Files and analysis are on a [page of their own](bench.md).',
  },
  reports: {
    file: 'bench-reports.md',
    title: 'Speed of reports',
    intro: 'How long a page takes that is handed out, beside a browser that prints the same page.',
  },
  soak: {
    file: 'bench-soak.md',
    title: 'A long day',
    intro: 'A station under a day that is played faster than real time: is anything lost, does anything grow?',
  },
  archive: {
    file: 'bench-archive.md',
    title: 'An archive judged again',
    intro:
      'Every trial of a lab under another method, as a run that survives a kill, beside a script that analyses the files again.',
  },
  jumps: {
    file: 'bench-jumps.md',
    title: 'Speed of jumps',
    intro:
      'Jumps judged, and how sure their values are, beside scripts with numpy and scipy that do the same work in the same run.',
  },
};

/** A page of the documentation. */
export function benchPage(page: PageId, results: readonly Result[], { command, date, quick, facts }: Run): string {
  const missed = misses(results);
  const hasGoal = results.some(
    ({ finding }) => finding.ok && finding.report.rows.some(({ goal }) => goal !== undefined),
  );
  const { title, intro } = pages[page];
  return [
    `# ${title}`,
    '',
    intro,
    '',
    `This page is written by \`${command}\`; do not edit it. Run it on your own machine: the ratios matter, not the times.`,
    ...(quick ? ['', 'A quick run with small sizes: it shows that the measuring works and is not to be quoted.'] : []),
    '',
    asMarkdown(results),
    '',
    '## Where a goal is missed',
    '',
    ...(missed.length === 0
      ? [hasGoal ? 'Nowhere in this run.' : 'No goal is set for what this page measures.']
      : missed.map((sentence) => `- ${sentence}`)),
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
