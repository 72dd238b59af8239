import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { runNode, runPython } from '../child.ts';
import { time, times } from '../numbers.ts';
import { alternate, median } from '../rounds.ts';

interface Work {
  /** ms a draw. */
  readonly work: number;
  readonly found: Readonly<Record<string, { readonly value: number; readonly standard: number }>>;
}
interface OurWork extends Work {
  readonly propagation: number;
  readonly propagated: Readonly<Record<string, number>>;
  readonly jump: Readonly<Record<string, number>>;
}

/** Relative difference of two SD of n draws each that chance alone makes in one of about 15,000 comparisons. */
const allowed = (draws: number): number => 4 / Math.sqrt(draws);

/** Uncertainty of a jump by drawing everything at once, against numpy; and the propagation that needs no draws. */
export const jumpDraws: Benchmark = {
  id: 'o',
  page: 'jumps',
  title: 'Uncertainty of a jump by draws',
  compared:
    'One simulated countermovement jump, both plates in memory, on one core. Each draw takes gain, gain of each plate, an offset of each loading, bend, ' +
    'body weight, an offset of time and white noise of every sample, makes the forces anew, finds take-off and lowest position in them and computes the ' +
    'same values; the onset is held. Our side is `drawJumpMetrics`, the other `bench/reference/jump_draws.py` with the same sources. Time is that of one draw.',
  run,
};

async function run({ quick, folder, python }: Bench): Promise<Finding> {
  if ('missing' in python) return { ok: false, reason: python.missing };
  const draws = quick ? 1000 : 5000;
  mkdirSync(folder, { recursive: true });
  const about = join(folder, 'jump.json');
  const curve = join(folder, 'jump.f64');
  const first = await runNode<OurWork>('jump-draws', [2, curve]);
  writeFileSync(about, JSON.stringify(first.said.jump));
  const runs = await alternate(3, {
    ours: () => runNode<OurWork>('jump-draws', [draws, curve]),
    numpy: () => runPython<Work>(python.path, 'jump_draws', [curve, about, draws]),
  });
  const [ours] = runs.ours;
  const [theirs] = runs.numpy;
  if (!ours || !theirs) throw new Error('Nothing was run.');
  const largest = compare(ours.said, theirs.said, draws);
  const middle = (list: readonly { said: Work }[]) => median(list.map(({ said }) => said.work));
  const [a, b] = [middle(runs.ours), middle(runs.numpy)];
  const propagation = median(runs.ours.map(({ said }) => said.propagation));
  const names = Object.keys(theirs.said.found);
  const { found, propagated } = ours.said;
  const off = Math.max(
    ...names.map((name) => Math.abs((found[name]?.standard ?? 0) / (propagated[name] ?? Number.NaN) - 1)),
  );
  return {
    ok: true,
    report: {
      rows: [
        { what: `one draw of ${names.length} values`, ours: time(a), instead: time(b), ratio: times(b / a) },
        {
          what: 'the propagation that needs no draws, with its parts',
          ours: time(propagation),
          instead: `${time(draws * b)} for ${draws} draws`,
          ratio: '',
        },
      ],
      notes: [
        `The same values without errors on both sides within 1e-9; the standard uncertainties of ${draws} draws each within ${(100 * largest).toFixed(1)} %, of which chance alone makes up to ${(100 * allowed(draws)).toFixed(1)} %: ${names.join(', ')}.`,
        `Draws here against the propagation: at most ${(100 * off).toFixed(1)} % apart.`,
        'Ours also finds the threshold, the touchdown and the end of the landing anew in every draw and makes the phases, which the script leaves out.',
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
