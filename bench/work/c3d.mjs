// Writes and reads C3D: node c3d.mjs SAMPLES FILE CHANNELS RATE REPEATS
import { readFileSync, writeFileSync } from 'node:fs';
import { bytesOf, c3dFormat, writeC3d } from '@sthene/formats';
import { largestDifference, median, recordingFrom } from './many-channels.mjs';
import { say } from './say.mjs';

const [, , samples, file, channels, rate, repeats] = process.argv;
const recording = recordingFrom(samples, Number(channels), Number(rate));
const writing = [];
const reading = [];
let size = 0;
let difference = 0;
for (let round = 0; round <= Number(repeats); round++) {
  const began = performance.now();
  const written = writeC3d(recording);
  if (!written.ok) throw new Error(written.error.message);
  writeFileSync(file, written.bytes);
  const between = performance.now();
  const read = await c3dFormat.read(bytesOf(readFileSync(file), file));
  const after = performance.now();
  if (!read.ok) throw new Error(read.error.message);
  size = written.bytes.length;
  difference = Math.max(difference, largestDifference(recording, read.recordings[0].recording));
  // The first round warms up, as on the other side.
  if (round > 0) {
    writing.push(between - began);
    reading.push(after - between);
  }
}
say({ writing: median(writing), reading: median(reading), size, difference });
