import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { simulateJump } from '@sthene/core';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { runNode, runPython } from '../child.ts';
import type { Numbers } from '../compare.ts';
import { time, times } from '../numbers.ts';
import { alternate, median } from '../rounds.ts';

interface Work {
  readonly work: number;
  readonly results: readonly Numbers[];
}
interface OurWork extends Work {
  readonly amount: {
    readonly metrics: number;
    readonly checks: number;
    readonly rules: number;
    readonly thresholds: number;
  };
}

const rate = 1000;

/** Jumps judged in memory, on one core, against numpy and scipy. */
export const jumps: Benchmark = {
  id: 'n',
  page: 'jumps',
  title: 'Jumps judged',
  compared:
    'Simulated countermovement jumps of many heights and people on two plates at 1 kHz, already in memory as float64 arrays, on one core; each side ' +
    'goes over all of them once before the clock starts, then again and again. Our side begins at the two plates; the other is a plain script with ' +
    'numpy and scipy (`bench/reference/jumps.py`) that finds the same events by the same definitions. Time is that of one jump.',
  run,
};

async function run({ quick, folder, python }: Bench): Promise<Finding> {
  if ('missing' in python) return { ok: false, reason: python.missing };
  const [different, passes] = quick ? [100, 4] : [500, 20];
  mkdirSync(folder, { recursive: true });
  for (let i = 0; i < different; i++) {
    const spec = {
      height: 0.15 + 0.35 * ((i * 0.618) % 1),
      mass: 50 + 60 * ((i * 0.414) % 1),
      plateNoise: 0.5,
      sway: 0,
    };
    const { left, right } = simulateJump(spec, i + 1);
    const both = Float64Array.of(...left, ...right);
    writeFileSync(join(folder, `jump-${String(i + 1).padStart(4, '0')}.f64`), new Uint8Array(both.buffer));
  }
  const runs = await alternate(3, {
    short: () => runNode<OurWork>('jumps', [folder, rate, passes, 'short']),
    script: () => runPython<Work>(python.path, 'jumps', [folder, rate, passes]),
    full: () => runNode<OurWork>('jumps', [folder, rate, passes, 'full']),
  });
  const [short] = runs.short;
  const [script] = runs.script;
  const [full] = runs.full;
  if (!short || !script || !full) throw new Error('Nothing was run.');
  const { largest, names } = apart(short.said.results, script.said.results);
  const middle = (list: readonly { said: Work }[]) => median(list.map(({ said }) => said.work));
  const [a, b, c] = [middle(runs.short), middle(runs.script), middle(runs.full)];
  const count = different * passes;
  const { metrics, checks, rules, thresholds } = full.said.amount;
  const row = (what: string, ours: number, scale: (ms: number) => string) => ({
    ...{ what, ours: scale(ours), instead: scale(b), ratio: times(b / ours) },
  });
  return {
    ok: true,
    report: {
      rows: [
        row(`one jump, the ${names} numbers of both sides`, a, time),
        row(`${count} jumps, the ${names} numbers of both sides`, a, (ms) => time(count * ms)),
        row('one jump, everything against the numbers of the script', c, time),
        row(`${count} jumps, everything against the numbers of the script`, c, (ms) => time(count * ms)),
      ],
      notes: [
        `The ${names} numbers of ${different} different jumps are the same on both sides within ${largest.toExponential(1)} of their size; each was judged ${passes} times on the clock, ${count} in all.`,
        `Even for these numbers our side finds the jump by ${rules} onset rules and ${thresholds} thresholds, because every result carries how far they move it; the script by one of each.`,
        `Everything is ${metrics} metrics with evidence, ${checks} checks, ${rules} onset rules, ${thresholds} thresholds and a verdict.`,
      ],
    },
  };
}

/** The largest relative difference. Throws above 1e-9. */
function apart(ours: readonly Numbers[], theirs: readonly Numbers[]): { largest: number; names: number } {
  if (ours.length !== theirs.length || ours.length === 0)
    throw new Error(`${ours.length} jumps stand against ${theirs.length}.`);
  let largest = 0;
  theirs.forEach((numbers, i) => {
    for (const [name, value] of Object.entries(numbers)) {
      const own = ours[i]?.[name];
      const difference = Math.abs((own ?? Number.NaN) - value) / Math.max(1e-3, Math.abs(value));
      if (!(difference < 1e-9)) throw new Error(`${name} of jump ${i + 1} is ${own} here and ${value} there.`);
      largest = Math.max(largest, difference);
    }
  });
  return { largest, names: Object.keys(theirs[0] ?? {}).length };
}
