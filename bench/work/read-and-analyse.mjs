import { readFileSync } from 'node:fs';
import { bytesOf, describeText, detectFormats, formats } from '@sthene/formats';
import { amountOf, analyseRecording, numbersOf } from './analysis.mjs';

/** Recognises, reads and analyses files one after the other; ms of reading and analysing, and the numbers of each pull. */
export async function readAndAnalyse(paths) {
  let reading = 0;
  let analysing = 0;
  let amount;
  const results = [];
  for (const path of paths) {
    const before = performance.now();
    const recording = await readRecording(path);
    const between = performance.now();
    const trial = analyseRecording(recording);
    results.push(numbersOf(trial));
    const after = performance.now();
    reading += between - before;
    analysing += after - between;
    amount ??= amountOf(trial);
  }
  return { reading, analysing, amount, results };
}

/** The trial of one file. */
export const trialOf = async (path) => analyseRecording(await readRecording(path));

async function readRecording(path) {
  const source = bytesOf(readFileSync(path), path);
  const [best] = await detectFormats(source, formats);
  const read = await best.format.read(source);
  if (!read.ok) throw new Error(`${path}: ${read.error.message}`);
  return read.recordings[0].recording;
}

/** ms a file takes to be recognised alone, once; reading does it too, and finding the format does it before. */
export async function recognisingTime(paths) {
  const files = paths.map((path) => bytesOf(readFileSync(path), path));
  const began = performance.now();
  for (const file of files) await describeText(file, {});
  return (performance.now() - began) / files.length;
}
