import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Bench, Finding } from './benchmark.ts';
import { runNode, runPython } from './child.ts';
import { time, times } from './numbers.ts';
import { alternate, median } from './rounds.ts';

/** What one side says of its draws. */
interface Drawn {
  /** ms a draw. */
  readonly work: number;
  readonly found: Readonly<Record<string, { readonly value: number; readonly standard: number }>>;
}
interface OurDrawn extends Drawn {
  /** ms for the propagation without draws, of the same values. */
  readonly propagation: number;
  readonly propagated: Readonly<Record<string, number>>;
  /** What the other side must know of the effort: it shares sources and curve, not code. */
  readonly about: Readonly<Record<string, number>>;
}

/** The scripts of both sides, without their endings. */
interface Sides {
  /** In `bench/work`; takes these words, a number of draws and where the curve is to lie. */
  readonly ours: string;
  readonly words: readonly number[];
  /** In `bench/reference`; takes the curve, what is known of it and a number of draws. */
  readonly numpy: string;
  readonly note: string;
}

/** Relative difference of two SD of n draws each that chance alone makes in one of about 15,000 comparisons: 4 sqrt(1 / n). */
const allowed = (draws: number): number => 4 / Math.sqrt(draws);

/** Draws everything at once on both sides in turn, holds the values and their spread against each other, and times a draw. */
export async function drawOnBothSides({ quick, folder, python }: Bench, sides: Sides): Promise<Finding> {
  if ('missing' in python) return { ok: false, reason: python.missing };
  const draws = quick ? 1000 : 5000;
  mkdirSync(folder, { recursive: true });
  const about = join(folder, 'effort.json');
  const curve = join(folder, 'effort.f64');
  const first = await runNode<OurDrawn>(sides.ours, [...sides.words, 2, curve]);
  writeFileSync(about, JSON.stringify(first.said.about));
  const runs = await alternate(3, {
    ours: () => runNode<OurDrawn>(sides.ours, [...sides.words, draws, curve]),
    numpy: () => runPython<Drawn>(python.path, sides.numpy, [curve, about, draws]),
  });
  const [ours] = runs.ours;
  const [theirs] = runs.numpy;
  if (!ours || !theirs) throw new Error('Nothing was run.');
  const largest = largestApart(ours.said, theirs.said, draws);
  const middle = (list: readonly { said: Drawn }[]) => median(list.map(({ said }) => said.work));
  const [a, b] = [middle(runs.ours), middle(runs.numpy)];
  const propagation = median(runs.ours.map(({ said }) => said.propagation));
  const names = Object.keys(theirs.said.found);
  const { found, propagated } = ours.said;
  const off = Math.max(
    ...names.map((name) => Math.abs((found[name]?.standard ?? 0) / (propagated[name] ?? Number.NaN) - 1)),
  );
  const second = (each: number) => (1000 / each).toFixed(0);
  return {
    ok: true,
    report: {
      rows: [
        { what: `one draw of ${names.length} values`, ours: time(a), instead: time(b), ratio: times(b / a) },
        {
          what: `draws a second of ${names.length} values`,
          ours: second(a),
          instead: second(b),
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
        `Draws here against the propagation: at most ${(100 * off).toFixed(1)} % apart.`,
        sides.note,
      ],
    },
  };
}

/** @returns the largest relative difference of the standard uncertainties */
function largestApart(ours: Drawn, theirs: Drawn, draws: number): number {
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
