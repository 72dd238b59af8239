import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { runNode, runPython } from '../child.ts';
import { time, times } from '../numbers.ts';
import { alternate, median } from '../rounds.ts';

interface Standards {
  readonly value: number;
  readonly standard: number;
}
interface Work {
  /** ms a draw. */
  readonly work: number;
  readonly found: Readonly<Record<string, Standards>>;
}
interface OurWork extends Work {
  /** ms for the propagation without draws, of the same metrics. */
  readonly propagation: number;
  readonly propagated: Readonly<Record<string, number>>;
  /** Where the pull lies in the recording, for the other side. */
  readonly pull: Readonly<Record<string, number>>;
}

const rate = 1000;
/** Relative difference of two SD of n draws each that chance alone makes in one of about 15,000 comparisons: 4 sqrt(1 / n). */
const allowed = (draws: number): number => 4 / Math.sqrt(draws);

/** Uncertainty of a pull by drawing everything at once, against numpy; and the propagation that needs no draws. */
export const monteCarlo: Benchmark = {
  id: 'm',
  page: 'files',
  title: 'Uncertainty by draws',
  compared:
    'One simulated pull, both plates in memory, on one core. Each draw takes gain, gain of each plate, offset, bend, body weight, an offset of ' +
    'time and white noise of every sample, makes the forces anew and computes the same values from them; the onset is held. Our side is ' +
    '`drawMetrics`; the other a plain numpy script (`bench/reference/monte_carlo.py`) on the same curve with the same sources. Each side draws ' +
    'for a while before the clock starts. Time is that of one draw.',
  run,
};

async function run({ quick, folder, python }: Bench): Promise<Finding> {
  if ('missing' in python) return { ok: false, reason: python.missing };
  const draws = quick ? 1000 : 5000;
  mkdirSync(folder, { recursive: true });
  const about = join(folder, 'pull.json');
  const curve = join(folder, 'pull.f64');
  // What the pull is, once, for the other side: it shares sources and curve, not code.
  const first = await runNode<OurWork>('monte-carlo', [rate, 2, curve]);
  writeFileSync(about, JSON.stringify(first.said.pull));
  const runs = await alternate(3, {
    ours: () => runNode<OurWork>('monte-carlo', [rate, draws, curve]),
    numpy: () => runPython<Work>(python.path, 'monte_carlo', [curve, about, draws]),
  });
  const [ours] = runs.ours;
  const [theirs] = runs.numpy;
  if (!ours || !theirs) throw new Error('Nothing was run.');
  const largest = compare(ours.said, theirs.said, draws);
  const middle = (list: readonly { said: Work }[]) => median(list.map(({ said }) => said.work));
  const [a, b] = [middle(runs.ours), middle(runs.numpy)];
  const propagation = median(runs.ours.map(({ said }) => said.propagation));
  const { propagated } = ours.said;
  const names = Object.keys(theirs.said.found);
  const apart = Math.max(
    ...names.map((name) => Math.abs((ours.said.found[name]?.standard ?? 0) / (propagated[name] ?? Number.NaN) - 1)),
  );
  return {
    ok: true,
    report: {
      rows: [
        { what: `one draw of ${names.length} values`, ours: time(a), instead: time(b), ratio: times(b / a) },
        {
          what: `draws a second of ${names.length} values`,
          ours: (1000 / a).toFixed(0),
          instead: (1000 / b).toFixed(0),
          ratio: times(b / a),
        },
        {
          what: 'the propagation that needs no draws, with its parts',
          ours: time(propagation),
          instead: `${time(draws * b)} for ${draws} draws`,
          ratio: '',
        },
      ],
      notes: [
        `The same values without errors on both sides within 1e-9; the standard uncertainties of ${draws} draws each within ${(100 * largest).toFixed(1)} %, of which chance alone makes up to ${(100 * allowed(draws)).toFixed(1)} %: ${names.join(', ')}.`,
        `Draws here against the propagation: at most ${(100 * apart).toFixed(1)} % apart.`,
        'The generators differ: ours is Philox 4x32-10 with the polar method, the same numbers on every machine; numpy draws with its PCG64 and ziggurat.',
      ],
    },
  };
}

/** @returns the largest relative difference of the standard uncertainties */
function compare(ours: Work, theirs: Work, draws: number): number {
  let largest = 0;
  for (const [name, { value, standard }] of Object.entries(theirs.found)) {
    const own = ours.found[name];
    if (own === undefined) throw new Error(`${name} is missing here.`);
    if (!(Math.abs(own.value / value - 1) < 1e-9)) throw new Error(`${name} is ${own.value} here and ${value} there.`);
    const apart = Math.abs(own.standard / standard - 1);
    if (!(apart < allowed(draws))) throw new Error(`${name} has ${own.standard} here and ${standard} there.`);
    largest = Math.max(largest, apart);
  }
  return largest;
}
