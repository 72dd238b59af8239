import type { Benchmark } from '../benchmark.ts';
import { drawOnBothSides } from '../draws.ts';

/** Uncertainty of a jump by drawing everything at once, against numpy; and the propagation that needs no draws. */
export const jumpDraws: Benchmark = {
  id: 'o',
  page: 'jumps',
  title: 'Uncertainty of a jump by draws',
  compared:
    'One simulated countermovement jump, both plates in memory, on one core. Each draw takes gain, gain of each plate, an offset of each loading, bend, ' +
    'body weight, an offset of time and white noise of every sample, makes the forces anew, finds take-off and lowest position in them and computes the ' +
    'same values; the onset is held. Our side is `drawJumpMetrics`, the other `bench/reference/jump_draws.py` with the same sources. Time is that of one draw.',
  run: (bench) =>
    drawOnBothSides(bench, {
      ours: 'jump-draws',
      words: [],
      numpy: 'jump_draws',
      note: 'Ours also finds the threshold, the touchdown and the end of the landing anew in every draw and makes the phases, which the script leaves out.',
    }),
};
