// Uncertainty of one pull by draws and by propagation: node monte-carlo.mjs RATE DRAWS CURVE; writes the curve for the other side.
import { writeFileSync } from 'node:fs';
import {
  contextsOf,
  defaultMethod,
  drawMetrics,
  metricRegistry,
  protocolRegistry,
  seededRandom,
  simulatePull,
  uncertainties,
} from '@sthene/core';
import { say } from './say.mjs';

const [rate, draws, curve] = [Number(process.argv[2]), Number(process.argv[3]), process.argv[4]];
const ids = [
  'peak_force',
  'peak_force_net',
  'peak_force_relative',
  ...[50, 100, 200].flatMap((t) => [`force_at_${t}`, `force_net_at_${t}`, `rfd_0_${t}`, `impulse_net_0_${t}`]),
  'asymmetry_at_peak',
  'asymmetry_impulse_0_200',
];
const pull = simulatePull({ sampleRate: rate, plateNoise: 0.8 }, 41);
const { left, right } = pull;
const total = left.map((value, i) => value + right[i]);
const plates = [
  { name: 'left', side: 'left', force: left },
  { name: 'right', side: 'right', force: right },
];
const { contexts } = contextsOf({
  forces: {
    sampleRate: rate,
    sampleCount: total.length,
    unit: 'N',
    total,
    left,
    right,
    plates,
    gaps: { filled: [], open: [] },
  },
  protocol: protocolRegistry.get('imtp'),
  method: defaultMethod,
  gravity: 9.80665,
  efforts: 'largest',
  bodyWeight: { value: pull.truth.weighed, from: 'weighing' },
});
const [trial] = contexts.value;
const { baseline, halfRise, end } = trial.events;
const sources = {
  rig: { gain: 0.002, plateGain: 0.003, repeatability: 1.5, linearity: 2, largestForce: 1962, growth: 0 },
  weight: { standard: 2.5, seconds: 3, of: 'weighing' },
  noise: { total: Math.hypot(0.8, 0.8), left: 0.8, right: 0.8 },
  synchronisation: 0.0005,
};
writeFileSync(curve, new Uint8Array(Float64Array.of(...left, ...right).buffer));

const metrics = ids.map((id) => metricRegistry.get(id));
drawMetrics(trial, metrics, sources, Math.min(500, draws), seededRandom(1, 0));
const began = performance.now();
const drawn = drawMetrics(trial, metrics, sources, draws, seededRandom(2, 0));
const work = (performance.now() - began) / draws;
for (let pass = 0; pass < 20; pass++) uncertainties(trial, metrics, sources);
const passes = 50;
const since = performance.now();
for (let pass = 0; pass < passes; pass++) uncertainties(trial, metrics, sources);
const propagation = (performance.now() - since) / passes;
const propagated = uncertainties(trial, metrics, sources);
say({
  work,
  propagation,
  found: Object.fromEntries(
    metrics.map(({ id, compute }) => [id, { value: compute(trial).value, standard: drawn[id].standard }]),
  ),
  propagated: Object.fromEntries(ids.map((id) => [id, propagated[id].value.standard])),
  about: {
    rate,
    onset: trial.onset.value.index,
    half_rise: halfRise,
    end,
    start: baseline.value.start,
    width: baseline.value.end - baseline.value.start,
    weight: pull.truth.weighed,
    gravity: 9.80665,
    gain: 0.002,
    plate_gain: 0.003,
    repeatability: 1.5,
    linearity: 2,
    largest: 1962,
    spread_of_weight: 2.5,
    noise: 0.8,
    late: 0.0005,
  },
});
