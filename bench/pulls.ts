import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type PullSpec, simulatePull } from '@sthene/core';

/** Left and right plate, N. */
export interface Plates {
  readonly left: Float64Array;
  readonly right: Float64Array;
}

/**
 * A simulated good pull of exactly `seconds`, values to a tenth of a millinewton as a file with four decimals holds them. The
 * length of the pull itself gives way, so that nothing has to be added.
 */
export function pullOf(seed: number, rate: number, seconds: number, spec: PullSpec = {}): Plates {
  const drawn = simulatePull({ ...spec, sampleRate: rate }, seed);
  const missing = seconds - drawn.left.length / rate;
  const { hold } = drawn.truth.parameters;
  const pull = simulatePull({ ...spec, sampleRate: rate, hold: hold + missing + 2 / rate }, seed);
  const count = seconds * rate;
  if (pull.left.length < count) throw new Error(`Pull ${seed} has ${pull.left.length} samples, not ${count}.`);
  return { left: rounded(pull.left, count), right: rounded(pull.right, count) };
}

const rounded = (force: Float64Array, count: number): Float64Array =>
  force.subarray(0, count).map((value) => Math.round(value * 10_000) / 10_000);

/** A pull as text: time_s, left_n, right_n. */
export function textOf({ left, right }: Plates, rate: number): string {
  const lines = ['time_s,left_n,right_n'];
  for (let n = 0; n < left.length; n++) lines.push(`${n / rate},${left[n]},${right[n]}`);
  return `${lines.join('\n')}\n`;
}

/** Writes `count` pulls of 10 s at 1 kHz as text files and says how many bytes they have. */
export function writePulls(folder: string, count: number): number {
  mkdirSync(folder, { recursive: true });
  let bytes = 0;
  for (let i = 0; i < count; i++) {
    const text = textOf(pullOf(i + 1, 1000, 10), 1000);
    writeFileSync(join(folder, `pull-${String(i + 1).padStart(4, '0')}.csv`), text);
    bytes += text.length;
  }
  return bytes;
}
