// Uncertainty of one jump by draws and by propagation: node jump-draws.mjs DRAWS CURVE; writes the curve for the other side.
import { writeFileSync } from 'node:fs';
import {
  defaultMethod,
  drawJumpMetrics,
  foundJumps,
  jumpMethodRegistry,
  jumpMetricRegistry,
  jumpUncertainties,
  protocolRegistry,
  seededRandom,
  simulateJump,
} from '@sthene/core';
import { say } from './say.mjs';

const [draws, curve] = [Number(process.argv[2]), process.argv[3]];
const rate = 1000;
const ids = [
  ...['jump_height', 'take_off_velocity', 'jump_momentum', 'countermovement_depth', 'jump_impulse_net'],
  ...['propulsion_peak_force', 'propulsion_peak_power', 'propulsion_mean_power'],
];
const { left, right } = simulateJump({ plateNoise: 0.5, sway: 0 }, 41);
const total = left.map((value, i) => value + right[i]);
const plates = [
  { name: 'left', side: 'left', force: left },
  { name: 'right', side: 'right', force: right },
];
const gaps = { filled: [], open: [] };
const { jumps } = foundJumps({
  forces: { sampleRate: rate, sampleCount: total.length, unit: 'N', total, left, right, plates, gaps },
  protocol: protocolRegistry.get('countermovement-jump'),
  method: defaultMethod,
  jumpMethod: jumpMethodRegistry.get('jumps-10').method,
  ...{ gravity: 9.80665, efforts: 'largest', cue: 2400 },
});
const [judged] = jumps.value;
const { jump } = judged;
const sources = {
  rig: { gain: 0.002, plateGain: 0.003, repeatability: 1.5, linearity: 2, largestForce: 1962, growth: 0 },
  weight: { standard: 1, seconds: 3, of: 'standing-before' },
  noise: { total: Math.hypot(0.8, 0.8), left: 0.8, right: 0.8 },
  synchronisation: 0.0005,
};
writeFileSync(curve, new Uint8Array(Float64Array.of(...left, ...right).buffer));
const metrics = ids.map((id) => jumpMetricRegistry.get(id));
drawJumpMetrics(judged, metrics, sources, Math.min(100, draws), seededRandom(1, 0));
const began = performance.now();
const drawn = drawJumpMetrics(judged, metrics, sources, draws, seededRandom(2, 0));
const work = (performance.now() - began) / draws;
const passes = 5;
const since = performance.now();
let propagated;
for (let pass = 0; pass < passes; pass++) propagated = jumpUncertainties(judged, metrics, sources);
const propagation = (performance.now() - since) / passes;
say({
  ...{ work, propagation },
  found: Object.fromEntries(
    metrics.map(({ id, compute }) => [id, { value: compute(jump).value, standard: drawn[id].standard }]),
  ),
  propagated: Object.fromEntries(ids.map((id) => [id, propagated[id].value.standard])),
  about: {
    rate,
    onset: jump.onset.value.index,
    take_off: jump.events.takeOff,
    touchdown: jump.events.touchdown,
    start: jump.events.weighing.value.start,
    end: jump.events.weighing.value.end,
    gravity: 9.80665,
    threshold: 10,
    gain: 0.002,
    plate_gain: 0.003,
    repeatability: 1.5,
    linearity: 2,
    largest: 1962,
    spread_of_weight: 1,
    noise: 0.8,
    late: 0.0005,
  },
});
