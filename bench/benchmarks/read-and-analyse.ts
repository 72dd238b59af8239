import { availableParallelism } from 'node:os';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { runNode, runPython } from '../child.ts';
import { mustAgree, type Numbers } from '../compare.ts';
import { atLeast } from '../goal.ts';
import { megabytes, time, times } from '../numbers.ts';
import { writePulls } from '../pulls.ts';
import { alternate, median } from '../rounds.ts';

interface Work {
  readonly work: number;
  readonly reading: number;
  readonly analysing: number;
  readonly results: readonly Numbers[];
}
interface OurWork extends Work {
  /** ms a file, in the single process only. */
  readonly recognising?: number;
  readonly amount: { metrics: number; checks: number; onsetRules: number; spread: number };
}

/** A folder of text recordings from bytes to numbers, against a script with pandas, numpy and scipy. */
export const readAndAnalyse: Benchmark = {
  id: 'a',
  page: 'files',
  title: 'Read and analyse text recordings',
  compared:
    'Simulated good pulls of 10 s at 1 kHz on two plates, one text file each. Our side recognises, reads, selects the forces and ' +
    'analyses with the onset at five standard deviations. The other is the script a user would write (`bench/reference/analyse.py`): ' +
    '`pandas.read_csv`, then numpy and scipy. Timed inside each process, after its libraries are loaded.',
  run,
};

async function run({ quick, folder, python }: Bench): Promise<Finding> {
  if ('missing' in python) return { ok: false, reason: python.missing };
  const count = quick ? 60 : 500;
  const bytes = writePulls(folder, count);
  const threads = Math.max(2, availableParallelism());
  const runs = await alternate(quick ? 2 : 3, {
    one: () => runNode<OurWork>('files', [folder, 1]),
    script: () => runPython<Work>(python.path, 'files', [folder, 'main']),
    straight: () => runPython<Work>(python.path, 'files', [folder, 'straight']),
    grown: () => runPython<Work>(python.path, 'files', [folder, 'everything']),
    many: () => runNode<OurWork>('files', [folder, threads]),
  });
  const [first] = runs.one;
  const [script] = runs.script;
  const [straight] = runs.straight;
  const [many] = runs.many;
  if (!first || !script || !straight || !many) throw new Error('Nothing was run.');
  const same = mustAgree(first.said.results, script.said.results);
  mustAgree(first.said.results, straight.said.results);
  mustAgree(many.said.results, script.said.results);

  const middle = (list: readonly { said: Work; wall: number }[], of: 'work' | 'reading' | 'analysing' | 'wall') =>
    median(list.map((one) => (of === 'wall' ? one.wall : one.said[of])));
  const ratio = middle(runs.script, 'work') / middle(runs.one, 'work');
  const ratioOfMany = middle(runs.script, 'work') / middle(runs.many, 'work');
  const parts = (list: readonly { said: Work; wall: number }[]) =>
    `${time(middle(list, 'reading') / count)} to read and ${time(middle(list, 'analysing') / count)} to analyse`;
  const recognising = median(runs.one.map(({ said }) => said.recognising ?? 0));
  const because =
    `A file takes us ${parts(runs.one)}; it takes the script ${parts(runs.script)}. ` +
    `Recognising an unknown file takes ${time(recognising)} and is done twice, to find the format and to read it; pandas assumes ` +
    `commas and one header row, and reads in compiled code. Reading alone is ${times(middle(runs.script, 'reading') / middle(runs.one, 'reading'))} as fast ` +
    `here; the analysis, which gives far more, ${times(middle(runs.script, 'analysing') / middle(runs.one, 'analysing'))}.`;
  const { amount } = first.said;
  return {
    ok: true,
    report: {
      rows: [
        {
          what: `${count} files, ${megabytes(bytes)}, one process`,
          ours: time(middle(runs.one, 'work')),
          instead: time(middle(runs.script, 'work')),
          ratio: times(ratio),
          goal: atLeast(10, ratio, 'at least 10 times'),
          because,
        },
        {
          what: `the same with ${threads} worker threads`,
          ours: time(middle(runs.many, 'work')),
          instead: time(middle(runs.script, 'work')),
          ratio: times(ratioOfMany),
        },
        {
          what: 'one process, against the script with plain windows',
          ours: time(middle(runs.one, 'work')),
          instead: time(middle(runs.straight, 'work')),
          ratio: times(middle(runs.straight, 'work') / middle(runs.one, 'work')),
        },
        {
          what: 'one process, against the script grown to all metrics',
          ours: time(middle(runs.one, 'work')),
          instead: time(middle(runs.grown, 'work')),
          ratio: times(middle(runs.grown, 'work') / middle(runs.one, 'work')),
        },
      ],
      notes: [
        `Both sides gave the same ${same.names.length} numbers for all ${count} pulls; the largest relative difference is ${same.largest.toExponential(1)}: ${same.names.join(', ')}.`,
        `Our side gives in the same time ${amount.metrics} metrics with their evidence, ${amount.checks} checks, the onset by ${amount.onsetRules} rules, the spread of ${amount.spread} metrics over these, and a verdict; the script gives none of that.`,
        `A file takes us ${parts(runs.one)}; it takes the script ${parts(runs.script)}; with the windows as the definition reads (numpy's sliding views instead of cumulative sums) ${parts(runs.straight)}; grown to all metrics under ten onset rules (\`bench/reference/everything.py\`, compared in b) ${parts(runs.grown)}.`,
        `With the start of the process, as a user waits: ${time(middle(runs.one, 'wall'))} against ${time(middle(runs.script, 'wall'))}, ${times(middle(runs.script, 'wall') / middle(runs.one, 'wall'))}; with threads ${time(middle(runs.many, 'wall'))}. The script uses one process throughout.`,
      ],
    },
  };
}
