// A thread that reads files and judges trials; the station's own thread only writes what came of it.
import { setPriority } from 'node:os';
import { parentPort, workerData } from 'node:worker_threads';
import { keptFileReader } from '@sthene/store';
import { orderJudge } from './judge-order.ts';
import type { JudgingOrder } from './order.ts';
import { gate, type ThreadData, type ThreadMessage } from './thread-messages.ts';

const port = parentPort;
if (port === null) throw new Error('This is a thread of the station, not a program of its own.');
const data = workerData as ThreadData;
const state = new Int32Array(data.gate);
const judge = orderJudge(keptFileReader(data.folder));

// The station answers first. Only Linux gives a thread a priority of its own; elsewhere it would be that of the whole station.
if (process.platform === 'linux') setPriority(10);

/** Between two trials: stands still while the gate is held. */
const breath = (): undefined => {
  while (Atomics.load(state, 0) === gate.held) Atomics.wait(state, 0, gate.held);
};

const say = (message: ThreadMessage): void => port.postMessage(message);

const answer = async (order: JudgingOrder): Promise<void> => {
  try {
    say({ made: await judge.judge(order, breath) });
  } catch (error) {
    say({ fault: { words: error instanceof Error ? error.message : String(error) } });
  }
};

let last = Promise.resolve();
port.on('message', (order: JudgingOrder) => {
  last = last.then(() => answer(order));
});
say({ ready: true });
