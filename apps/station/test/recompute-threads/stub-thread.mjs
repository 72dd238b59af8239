// A judging thread that judges nothing: it answers each order, or ends at a trial that is called so.
import { parentPort } from 'node:worker_threads';

parentPort.on('message', ({ trials }) => {
  if (trials.some(({ sha256 }) => sha256 === 'ends')) process.exit(7);
  if (trials.some(({ sha256 }) => sha256 === 'disk')) parentPort.postMessage({ fault: { words: 'The disk failed.' } });
  else parentPort.postMessage({ made: trials.map(({ sha256 }) => ({ code: 'stub', words: sha256 })) });
});
parentPort.postMessage({ ready: true });
