import { simulatePull } from '@sthene/core';

/** A file for an upload field. */
export interface NamedFile {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

const text = (name: string, lines: readonly string[]): NamedFile => ({
  name,
  mimeType: 'text/csv',
  buffer: Buffer.from(`${lines.join('\n')}\n`),
});

/** A simulated pull as a CSV with the header that needs no question, and the peak that was simulated, N. */
export function ownHeaderFile(name: string, seed: number): { file: NamedFile; peak: number } {
  const { left, right, sampleRate, truth } = simulatePull({ sampleRate: 1000, bodyMass: 71, netForce: 1700 }, seed);
  const rows = Array.from(
    left,
    (force, i) => `${i / sampleRate},${force.toFixed(2)},${(right[i] as number).toFixed(2)}`,
  );
  return { file: text(name, ['time_s,left_n,right_n', ...rows]), peak: truth.peak.force };
}

/** The same kind of pull as an amplifier might give it: volts, decimal commas, no time, the right plate upside down. */
export function voltsFile(name: string, seed: number): { file: NamedFile; peak: number } {
  const { left, right, truth } = simulatePull({ sampleRate: 1000, bodyMass: 71, netForce: 1700 }, seed);
  const comma = (value: number) => value.toFixed(5).replace('.', ',');
  const rows = Array.from(left, (force, i) => `${comma(force / 1000 + 0.02)};${comma(-(right[i] as number) / 1000)}`);
  return { file: text(name, ['Plate A [V];Plate B [V]', ...rows]), peak: truth.peak.force };
}

/** Words without numbers: no format knows it. */
export const wordsFile: NamedFile = {
  name: 'notes.txt',
  mimeType: 'text/plain',
  buffer: Buffer.from('Dear diary,\nthere are no numbers here.\n'),
};
