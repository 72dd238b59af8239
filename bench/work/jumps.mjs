// Jumps judged in memory: node jumps.mjs FOLDER RATE PASSES short|full; the files hold left and right as float64.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { analyse, defaultMethod, flightRules, jumpMethodRegistry, protocolRegistry } from '@sthene/core';
import { say } from './say.mjs';

const [folder, rate, passes, amount] = [
  process.argv[2],
  Number(process.argv[3]),
  Number(process.argv[4]),
  process.argv[5],
];
const names = [
  ...['jump_height', 'jump_height_flight_time', 'time_to_take_off', 'flight_time', 'rsi_modified'],
  ...['unweighting_time', 'braking_time', 'propulsion_time', 'take_off_velocity', 'jump_momentum', 'peak_velocity'],
  ...['peak_negative_velocity', 'countermovement_depth', 'unweighting_impulse_net', 'braking_impulse_net'],
  ...['propulsion_impulse_net', 'braking_mean_force', 'propulsion_peak_force', 'propulsion_mean_force', 'braking_rfd'],
  ...['propulsion_peak_power', 'propulsion_mean_power', 'landing_peak_force', 'asymmetry_propulsion_impulse'],
  'system_weight',
];
const { method: whole } = jumpMethodRegistry.get('jumps-10');
const short = {
  ...whole,
  metrics: Object.fromEntries(names.map((id) => [id, whole.metrics[id]])),
  checks: {},
};
const protocol = protocolRegistry.get('countermovement-jump');
const plates = readdirSync(folder)
  .filter((name) => name.endsWith('.f64'))
  .sort()
  .map((name) => {
    const { buffer, byteOffset, byteLength } = readFileSync(join(folder, name));
    const both = new Float64Array(buffer.slice(byteOffset, byteOffset + byteLength));
    return [both.subarray(0, both.length / 2), both.subarray(both.length / 2)];
  });

function judge([left, right]) {
  const total = new Float64Array(left.length);
  for (let i = 0; i < total.length; i++) total[i] = left[i] + right[i];
  const sides = [
    { name: 'left', side: 'left', force: left },
    { name: 'right', side: 'right', force: right },
  ];
  const gaps = { filled: [], open: [] };
  const forces = { sampleRate: rate, sampleCount: total.length, unit: 'N', total, left, right, plates: sides, gaps };
  return analyse({
    ...{ forces, protocol, method: defaultMethod, jumpMethod: amount === 'full' ? whole : short },
    ...{ gravity: 9.80665, efforts: 'largest', cue: 2400 },
  }).trials[0];
}

const results = plates.map((one) => {
  const { metrics } = judge(one);
  return Object.fromEntries(names.map((id) => [id, metrics[id].value]));
});
const began = performance.now();
for (let pass = 0; pass < passes; pass++) for (const one of plates) judge(one);
const work = (performance.now() - began) / (passes * plates.length);
const { metrics, checks, onsets } = judge(plates[0]);
const count = (of) => Object.keys(of).length;
const amounts = {
  metrics: count(metrics),
  checks: count(checks),
  rules: count(onsets),
  thresholds: count(flightRules),
};
say({ work, results, amount: amounts });
