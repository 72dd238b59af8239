import { cpus, loadavg, type as system, totalmem } from 'node:os';
import type { Python } from './python.ts';

/** What the run was made on, as pairs of name and value. */
export function machineFacts(python: Python): readonly (readonly [string, string])[] {
  const processors = cpus();
  return [
    ['processor', `${processors[0]?.model.trim() ?? 'unknown'}, ${processors.length} cores`],
    ['memory', `${(totalmem() / 1e9).toFixed(0)} GB`],
    ['system', `${system()} ${process.arch}`],
    ['Node', process.versions.node],
    // What the numbers alone do not tell: other work on the machine, priorities, a laptop on its battery.
    ...(process.env.BENCH_NOTE === undefined ? [] : ([['note', process.env.BENCH_NOTE]] as const)),
    [
      'load average at the end',
      loadavg()
        .map((load) => load.toFixed(1))
        .join(', '),
    ],
    ...('missing' in python ? ([['Python', python.missing]] as const) : Object.entries(python.versions)),
  ];
}
