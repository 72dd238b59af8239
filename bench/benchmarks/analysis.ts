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
/** Onset rules of bench/reference/everything.py: those that are a height above the baseline. */
const scriptRules = 10;

/** The analysis without any reading, on one core, against numpy. */
export const analysis: Benchmark = {
  id: 'b',
  page: 'files',
  title: 'Analysis alone',
  compared:
    'The same pulls, already in memory as float64 arrays, on one core; each side goes over all of them once before the clock ' +
    'starts. Our side begins at the recording: select the forces, scale, sum, analyse. The other is numpy and scipy, windows from ' +
    'cumulative sums: the same script, and the script grown until it gives nearly all we give. Time is that of one pull.',
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
  const script = (amount: 'main' | 'straight' | 'everything') => () =>
    // Plain windows take fifty times as long; one pass tells enough.
    runPython<Work>(python.path, 'memory', [folder, rate, amount === 'straight' ? 1 : passes, amount]);
  const runs = await alternate(3, {
    short: () => runNode<OurWork>('memory', [folder, rate, passes, 'short']),
    main: script('main'),
    straight: script('straight'),
    full: () => runNode<OurWork>('memory', [folder, rate, passes, 'full']),
    everything: script('everything'),
  });
  const [short] = runs.short;
  const [main] = runs.main;
  const [full] = runs.full;
  const [everything] = runs.everything;
  const [straight] = runs.straight;
  if (!short || !main || !straight || !full || !everything) throw new Error('Nothing was run.');
  const few = mustAgree(short.said.results, main.said.results);
  mustAgree(short.said.results, straight.said.results);
  const all = mustAgree(full.said.results, everything.said.results);

  const middle = (list: readonly { said: Work }[]) => median(list.map(({ said }) => said.work));
  const shortMs = middle(runs.short);
  const mainMs = middle(runs.main);
  const straightMs = middle(runs.straight);
  const fullMs = middle(runs.full);
  const everythingMs = middle(runs.everything);
  const { amount } = full.said;
  const side = (what: string, ours: number, theirs: number) => ({
    what,
    ours: time(ours),
    instead: time(theirs),
    ratio: times(theirs / ours),
  });
  return {
    ok: true,
    report: {
      rows: [
        {
          ...side(`the main ${few.names.length} numbers on both sides`, shortMs, mainMs),
          goal: atLeast(4, mainMs / shortMs, 'at least 4 times'),
          because:
            `A pull has only ${rate * 10} samples, and numpy goes over them in compiled code; what is left is a few passes over the ` +
            `samples, for us ${time(shortMs)}. Ours finds the onset by ${short.said.amount.onsetRules} rules and keeps evidence even here.`,
        },
        {
          ...side(`all metrics and onset rules on both sides`, fullMs, everythingMs),
          goal: atLeast(4, everythingMs / fullMs, 'at least 4 times'),
          because: `Ours includes ${amount.checks} checks and ${amount.onsetRules - scriptRules} onset rules that the script leaves out.`,
        },
        side('main numbers against the script with plain windows', shortMs, straightMs),
        side('everything against the main numbers', fullMs, mainMs),
      ],
      notes: [
        `Same numbers on ${count} pulls: ${few.names.length} main ones within ${few.largest.toExponential(1)}, ${all.names.length} when every metric is taken under every rule the script has, within ${all.largest.toExponential(1)} (relative).`,
        `Everything is, on our side, ${amount.metrics} metrics with evidence, ${amount.checks} checks, ${amount.onsetRules} onset rules and a verdict; on the other (\`bench/reference/everything.py\`) the same metrics and ${scriptRules} onset rules, without checks, evidence or verdict.`,
        "Plain windows are as the definition reads, numpy's sliding views with mean and SD along them, instead of cumulative sums.",
        `The main numbers by our side are those of the same method with its other metrics and its checks left out; the onset by all ${short.said.amount.onsetRules} rules stays, because every result carries it.`,
      ],
    },
  };
}
