// Writes and reads Parquet and, in turn, the same arrays as they are: node parquet.mjs SAMPLES FILE CHANNELS RATE REPEATS
import { readFileSync, writeFileSync } from 'node:fs';
import { bytesOf, parquetFormat, writeText } from '@sthene/formats';
import { largestDifference, median, recordingFrom } from './many-channels.mjs';
import { say } from './say.mjs';

const [, , samples, file, channels, rate, repeats] = process.argv;
const recording = recordingFrom(samples, Number(channels), Number(rate));
const times = { writing: [], reading: [], plainWriting: [], plainReading: [] };
let size = 0;
let difference = 0;
for (let round = 0; round <= Number(repeats); round++) {
  const kept = (name, ms) => round > 0 && times[name].push(ms);
  const began = performance.now();
  const bytes = await parquetFormat.write(recording);
  writeFileSync(file, bytes);
  kept('writing', performance.now() - began);
  size = bytes.length;

  const opened = performance.now();
  const read = await parquetFormat.read(bytesOf(readFileSync(file), file));
  kept('reading', performance.now() - opened);
  if (!read.ok) throw new Error(read.error.message);
  difference = Math.max(difference, largestDifference(recording, read.recordings[0].recording));

  const plain = performance.now();
  const all = new Float64Array(recording.sampleCount * recording.channels.length);
  recording.channels.forEach(({ raw }, c) => {
    all.set(raw, c * recording.sampleCount);
  });
  writeFileSync(file, new Uint8Array(all.buffer));
  kept('plainWriting', performance.now() - plain);

  const again = performance.now();
  const back = readFileSync(file);
  const columns = recording.channels.map((_, c) =>
    new Float64Array(back.buffer, back.byteOffset + 8 * c * recording.sampleCount, recording.sampleCount).slice(),
  );
  kept('plainReading', performance.now() - again);
  if (columns.at(-1)[5] !== recording.channels.at(-1).raw[5]) throw new Error('The plain file came back changed.');
}
say({
  ...Object.fromEntries(Object.entries(times).map(([name, list]) => [name, median(list)])),
  size,
  textSize: writeText(recording).length,
  difference,
});
