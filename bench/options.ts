import { parseArgs } from 'node:util';
import type { PageId } from './benchmark.ts';

export interface Options {
  readonly quick: boolean;
  readonly docs: boolean;
  readonly only: readonly string[];
  /** Bytes of the large text file. */
  readonly textBytes: number;
  /** Hours of the day that is played faster than real time. */
  readonly hours: number;
  /** Longest real time of that day. */
  readonly minutes: number;
  /** Minutes of the test day at true speed. */
  readonly day: number;
  /** Trials of the archive that is judged again. */
  readonly trials: number;
}

interface Known {
  readonly id: string;
  readonly page: PageId;
}

export const usage = `Speed and memory beside what a user would do instead, in one run.

  npm run bench -- [options]

  --quick       small sizes and few rounds: to see that it works, not to publish
  --only LIST   letters of the benchmarks, for example a,b
  --files       those of docs/reference/bench.md alone: reading, analysis, files, the Trial screen
  --live        those of docs/reference/bench-live.md alone: plates to screen, verdicts, cost of a day
  --day N       minutes of the test day at true speed (default 8; 1.5 with --quick)
  --reports     that of docs/reference/bench-reports.md alone: pages to hand out
  --soak        that of docs/reference/bench-soak.md alone, left out otherwise: a long day, faster than real time
  --hours N     hours of that day (default 24; a quarter with --quick)
  --minutes N   it ends after so many minutes of real time at the latest (default 60)
  --archive     that of docs/reference/bench-archive.md alone, left out otherwise: an archive judged again
  --jumps       those of docs/reference/bench-jumps.md alone, left out otherwise: jumps judged and drawn
  --trials N    trials of that archive (default 100000, which takes about an hour; 400 with --quick)
  --size MB     size of the large text file (default 1000; 64 with --quick)
  --docs        writes the pages of which every benchmark was run
  --help

BENCH_NOTE in the environment says on the page what the numbers do not tell; CHROMIUM names another browser.
Builds the packages, the station and the web app first; what is measured is the compiled code.
Ends with 0 when everything could be measured, whether goals are met or not; 1 when a benchmark failed; 2 for wrong options.
`;

/** Options of the command line, or the words for what is wrong with them. */
export function optionsFrom(
  args: readonly string[],
  benchmarks: readonly Known[],
): Options | { readonly problem: string } {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: {
        quick: { type: 'boolean', default: false },
        docs: { type: 'boolean', default: false },
        only: { type: 'string' },
        size: { type: 'string' },
        files: { type: 'boolean', default: false },
        live: { type: 'boolean', default: false },
        reports: { type: 'boolean', default: false },
        soak: { type: 'boolean', default: false },
        archive: { type: 'boolean', default: false },
        jumps: { type: 'boolean', default: false },
        trials: { type: 'string' },
        hours: { type: 'string' },
        day: { type: 'string' },
        minutes: { type: 'string', default: '60' },
      },
    });
    const known = benchmarks.map(({ id }) => id);
    const chosen = (['files', 'live', 'reports', 'soak', 'archive', 'jumps'] as const).filter((page) => values[page]);
    const ofPages = chosen.length > 0 ? chosen : (['files', 'live', 'reports'] as const);
    const usual = benchmarks.filter(({ page }) => ofPages.some((one) => one === page)).map(({ id }) => id);
    const only = values.only?.split(',').map((id) => id.trim()) ?? usual;
    const unknown = only.filter((id) => !known.includes(id));
    if (unknown.length > 0)
      return { problem: `--only: no benchmark "${unknown.join(', ')}"; there are ${known.join(', ')}` };
    const megabytes = Number(values.size ?? (values.quick ? 64 : 1000));
    if (!(megabytes >= 1 && megabytes <= 100_000))
      return { problem: `--size: expected 1 to 100000 MB, got "${values.size}"` };
    const hours = Number(values.hours ?? (values.quick ? 0.25 : 24));
    if (!(hours > 0 && hours <= 1000)) return { problem: `--hours: expected up to 1000, got "${values.hours}"` };
    const trials = Number(values.trials ?? (values.quick ? 400 : 100_000));
    if (!(Number.isInteger(trials) && trials >= 1 && trials <= 1_000_000))
      return { problem: `--trials: expected 1 to 1000000, got "${values.trials}"` };
    const minutes = Number(values.minutes);
    if (!(minutes > 0)) return { problem: `--minutes: expected more than 0, got "${values.minutes}"` };
    const day = Number(values.day ?? (values.quick ? 1.5 : 8));
    if (!(day >= 1 && day <= 600)) return { problem: `--day: expected 1 to 600 minutes, got "${values.day}"` };
    return { quick: values.quick, docs: values.docs, only, textBytes: megabytes * 1e6, hours, minutes, day, trials };
  } catch (error) {
    return { problem: (error as Error).message };
  }
}
