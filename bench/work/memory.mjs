// Analyses recordings that already lie in memory: node memory.mjs FOLDER RATE PASSES full|short
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { amountOf, analyseRecording, everyNumberOf, fullMethod, numbersOf, shortMethod } from './analysis.mjs';
import { say } from './say.mjs';

const [, , folder, rate, passes, amount] = process.argv;
const method = amount === 'short' ? shortMethod() : fullMethod;
const recordings = readdirSync(folder)
  .filter((name) => name.endsWith('.f64'))
  .sort()
  .map((name) => recordingOf(readFileSync(join(folder, name))));

// Once before the clock starts, as on the other side.
const trials = recordings.map((recording) => analyseRecording(recording, method));
const began = performance.now();
for (let pass = 0; pass < Number(passes); pass++)
  for (const recording of recordings) analyseRecording(recording, method);
const work = (performance.now() - began) / (Number(passes) * recordings.length);
say({ work, amount: amountOf(trials[0]), results: trials.map(amount === 'short' ? numbersOf : everyNumberOf) });

/** Left plate, then right plate, float64, as the parent wrote them. */
function recordingOf(file) {
  const values = new Float64Array(new Uint8Array(file).buffer);
  const sampleCount = values.length / 2;
  const channel = (name, raw) => ({ name, unit: 'N', raw, scale: 1, offset: 0 });
  return {
    sampleRate: Number(rate),
    rateOrigin: 'declared',
    sampleCount,
    channels: [channel('left_n', values.subarray(0, sampleCount)), channel('right_n', values.subarray(sampleCount))],
    platforms: [],
    gaps: [],
    events: [],
    facts: {},
    notices: [],
  };
}
