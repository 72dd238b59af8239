import { parentPort, workerData } from 'node:worker_threads';
import { readAndAnalyse } from './read-and-analyse.mjs';

parentPort.postMessage(await readAndAnalyse(workerData));
