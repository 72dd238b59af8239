import type { Benchmark } from '../benchmark.ts';
import { drawOnBothSides } from '../draws.ts';

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
  run: (bench) =>
    drawOnBothSides(bench, {
      ours: 'monte-carlo',
      words: [1000],
      numpy: 'monte_carlo',
      note: 'The generators differ: ours is Philox 4x32-10 with the polar method, the same numbers on every machine; numpy draws with its PCG64 and ziggurat.',
    }),
};
