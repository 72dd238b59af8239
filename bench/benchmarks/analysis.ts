import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { runNode, runPython } from '../child.ts';
import { mustAgree, type Numbers } from '../compare.ts';
import { atLeast } from '../goal.ts';
import { time, times } from '../numbers.ts';
import { pullOf } from '../pulls.ts';
import { alternate, median } from '../rounds.ts';

interface Work {
  readonly work: number;
  readonly results: readonly Numbers[];
}
interface OurWork extends Work {
  readonly amount: { metrics: number; checks: number; onsetRules: number };
}

const rate = 1000;

/** The analysis without any reading, on one core, against numpy. */
export const analysis: Benchmark = {
  id: 'b',
  title: 'Analysis alone',
  compared:
    'The same pulls, already in memory as float64 arrays, on one core; each side goes over all of them once before the clock ' +
    'starts. Our side begins at the recording: select the forces, scale, sum, analyse. The other is `analyse` of the same script: ' +
    'numpy, windows from cumulative sums. Time is that of one pull.',
  run,
};

async function run({ quick, folder, python }: Bench): Promise<Finding> {
  if ('missing' in python) return { ok: false, reason: python.missing };
  const count = quick ? 40 : 100;
  const passes = quick ? 3 : 8;
  mkdirSync(folder, { recursive: true });
  for (let i = 0; i < count; i++) {
    const { left, right } = pullOf(i + 1, rate, 10);
    const both = new Float64Array(left.length * 2);
    both.set(left);
    both.set(right, left.length);
    writeFileSync(join(folder, `pull-${String(i + 1).padStart(4, '0')}.f64`), new Uint8Array(both.buffer));
  }
  const runs = await alternate(quick ? 3 : 5, {
    short: () => runNode<OurWork>('memory', [folder, rate, passes, 'short']),
    numpy: () => runPython<Work>(python.path, 'memory', [folder, rate, passes]),
    full: () => runNode<OurWork>('memory', [folder, rate, passes, 'full']),
  });
  const [short] = runs.short;
  const [numpy] = runs.numpy;
  const [full] = runs.full;
  if (!short || !numpy || !full) throw new Error('Nothing was run.');
  const same = mustAgree(short.said.results, numpy.said.results);
  mustAgree(full.said.results, numpy.said.results);

  const middle = (list: readonly { said: Work }[]) => median(list.map(({ said }) => said.work));
  const theirs = middle(runs.numpy);
  const row = (what: string, list: readonly { said: Work }[], because: string) => {
    const ratio = theirs / middle(list);
    const goal = atLeast(4, ratio, 'at least 4 times');
    return { what, ours: time(middle(list)), instead: time(theirs), ratio: times(ratio), goal, because };
  };
  const { amount } = full.said;
  return {
    ok: true,
    report: {
      rows: [
        row(
          `the same ${same.names.length} numbers`,
          runs.short,
          `Even so our side finds the onset by ${short.said.amount.onsetRules} rules and keeps the evidence of each number.`,
        ),
        row(
          `everything: ${amount.metrics} metrics, ${amount.checks} checks, ${amount.onsetRules} onset rules`,
          runs.full,
          `The script still gives ${same.names.length} numbers. The rest costs us ${time(middle(runs.full) - middle(runs.short))} a pull.`,
        ),
      ],
      notes: [
        `Same numbers on ${count} pulls, largest relative difference ${same.largest.toExponential(1)}.`,
        `Onset by ${short.said.amount.onsetRules} rules is part of our first row too, because every result carries it.`,
      ],
    },
  };
}
