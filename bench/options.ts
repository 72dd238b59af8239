import { parseArgs } from 'node:util';

export interface Options {
  readonly quick: boolean;
  readonly docs: boolean;
  readonly only: readonly string[];
  /** Bytes of the large text file. */
  readonly textBytes: number;
}

export const usage = `Speed and memory beside what a user would do instead, in one run.

  npm run bench -- [options]

  --quick       small sizes and few rounds: to see that it works, not to publish
  --only LIST   letters of the benchmarks, for example a,b
  --size MB     size of the large text file (default 1000; 64 with --quick)
  --docs        writes docs/reference/bench.md
  --help

Builds the packages, the station and the web app first; what is measured is the compiled code.
Ends with 0 when everything could be measured, whether goals are met or not; 1 when a benchmark failed; 2 for wrong options.
`;

/** Options of the command line, or the words for what is wrong with them. */
export function optionsFrom(args: readonly string[], known: readonly string[]): Options | { readonly problem: string } {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: {
        quick: { type: 'boolean', default: false },
        docs: { type: 'boolean', default: false },
        only: { type: 'string' },
        size: { type: 'string' },
      },
    });
    const only = values.only?.split(',').map((id) => id.trim()) ?? known;
    const unknown = only.filter((id) => !known.includes(id));
    if (unknown.length > 0)
      return { problem: `--only: no benchmark "${unknown.join(', ')}"; there are ${known.join(', ')}` };
    const megabytes = Number(values.size ?? (values.quick ? 64 : 1000));
    if (!(megabytes >= 1 && megabytes <= 100_000))
      return { problem: `--size: expected 1 to 100000 MB, got "${values.size}"` };
    return { quick: values.quick, docs: values.docs, only, textBytes: megabytes * 1e6 };
  } catch (error) {
    return { problem: (error as Error).message };
  }
}
