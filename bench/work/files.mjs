// Reads and analyses every text file of a folder: node files.mjs FOLDER THREADS
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { readAndAnalyse, recognisingTime } from './read-and-analyse.mjs';
import { say } from './say.mjs';

const [folder, threads] = [process.argv[2], Number(process.argv[3])];
const began = performance.now();
const paths = readdirSync(folder)
  .filter((name) => name.endsWith('.csv'))
  .sort()
  .map((name) => join(folder, name));

if (threads === 1) {
  const done = await readAndAnalyse(paths);
  const work = performance.now() - began;
  say({ work, ...done, recognising: await recognisingTime(paths.slice(-100)) });
} else {
  const share = Math.ceil(paths.length / threads);
  const parts = await Promise.all(
    Array.from({ length: threads }, (_, i) => inThread(paths.slice(i * share, (i + 1) * share))),
  );
  say({
    work: performance.now() - began,
    reading: Math.max(...parts.map((part) => part.reading)),
    analysing: Math.max(...parts.map((part) => part.analysing)),
    amount: parts[0].amount,
    results: parts.flatMap((part) => part.results),
  });
}

function inThread(workerData) {
  return new Promise((done, failed) => {
    const worker = new Worker(new URL('./files-thread.mjs', import.meta.url), { workerData });
    worker.once('message', done);
    worker.once('error', failed);
  });
}
