import { Worker } from 'node:worker_threads';
import type { Judges } from './judges.ts';
import type { JudgingOrder, Made } from './order.ts';
import { gate, type ThreadData, type ThreadMessage } from './thread-messages.ts';

/** Orders given to a thread before it answers, so that it never waits while the station writes. */
const ahead = 4;

interface Task {
  readonly order: JudgingOrder;
  readonly done: (made: readonly Made[]) => void;
  readonly failed: (error: Error) => void;
  /** Threads that ended while they were at it. */
  ends: number;
}

interface Thread {
  readonly worker: Worker;
  /** Under way, in the order in which they are answered. */
  readonly tasks: Task[];
  ready: boolean;
}

/**
 * Judges in threads of their own. A thread that ends by itself (out of memory, a fault of the engine) is replaced; the trial it was at
 * is tried once more alone, and is named as a failure when that ends a thread too.
 */
export class JudgingThreads implements Judges {
  readonly room: number;
  readonly #script: URL;
  readonly #data: ThreadData;
  readonly #gate: Int32Array;
  readonly #threads = new Set<Thread>();
  readonly #waiting: Task[] = [];
  #broken: Error | undefined;
  #closed = false;

  constructor(script: URL, folder: string, count: number) {
    this.#script = script;
    const shared = new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT);
    this.#data = { folder, gate: shared };
    this.#gate = new Int32Array(shared);
    this.room = count * (ahead + 1);
    for (let i = 0; i < count; i++) this.#start();
  }

  judge(order: JudgingOrder): Promise<readonly Made[]> {
    if (this.#closed) return Promise.reject(new Error('closed'));
    if (this.#broken !== undefined) return Promise.reject(this.#broken);
    return new Promise((done, failed) => {
      this.#waiting.push({ order, done, failed, ends: 0 });
      this.#handOut();
    });
  }

  hold(on: boolean): void {
    Atomics.store(this.#gate, 0, on ? gate.held : gate.open);
    Atomics.notify(this.#gate, 0);
  }

  async close(): Promise<void> {
    this.#closed = true;
    this.hold(false);
    const tasks = [...this.#threads].flatMap((thread) => thread.tasks.splice(0)).concat(this.#waiting.splice(0));
    for (const { failed } of tasks) failed(new Error('closed'));
    await Promise.all([...this.#threads].map(({ worker }) => worker.terminate()));
  }

  #start(): void {
    // Flags of the parent's own start are not for a thread.
    const worker = new Worker(this.#script, { workerData: this.#data, execArgv: [] });
    const thread: Thread = { worker, tasks: [], ready: false };
    this.#threads.add(thread);
    worker.on('message', (message: ThreadMessage) => this.#take(thread, message));
    let words = '';
    worker.on('error', (error) => {
      words = error.message;
    });
    worker.once('exit', (code) => this.#ended(thread, words || `It ended with code ${code}.`));
  }

  #take(thread: Thread, message: ThreadMessage): void {
    if ('ready' in message) thread.ready = true;
    else {
      const first = thread.tasks.shift();
      if ('made' in message) first?.done(message.made);
      else first?.failed(new Error(message.fault.words));
    }
    this.#handOut();
  }

  #handOut(): void {
    for (let depth = 0; depth < ahead; depth++)
      for (const thread of this.#threads) {
        if (this.#waiting.length === 0) return;
        if (!thread.ready || thread.tasks.length > depth) continue;
        const task = this.#waiting.shift() as Task;
        thread.tasks.push(task);
        thread.worker.postMessage(task.order);
      }
  }

  #ended(thread: Thread, words: string): void {
    this.#threads.delete(thread);
    if (this.#closed) return;
    const [first, ...others] = thread.tasks;
    this.#waiting.unshift(...others);
    if (first !== undefined) this.#again(first, words);
    // One that cannot even begin would be started for ever.
    if (thread.ready) this.#start();
    else if (this.#threads.size === 0) this.#break(`No thread could be started to judge in: ${words}`);
    this.#handOut();
  }

  #break(words: string): void {
    this.#broken = new Error(words);
    for (const { failed } of this.#waiting.splice(0)) failed(this.#broken);
  }

  /** Tries what a thread ended at: its trials one by one, a single one once more, and then never again. */
  #again(task: Task, words: string): void {
    const { order, done, failed } = task;
    task.ends += 1;
    if (order.trials.length === 1) {
      if (task.ends < 2) this.#waiting.unshift(task);
      else done([{ code: 'judging-ended', words: `The thread that judged this trial ended. ${words}` }]);
      return;
    }
    const alone = order.trials.map((trial) => this.judge({ ...order, trials: [trial] }));
    Promise.all(alone).then((made) => done(made.flat()), failed);
  }
}
