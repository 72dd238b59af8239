import type { Ask, CurveAnswer, Look, Reply, Request, SuggestAnswer } from './messages.ts';

/** Talks to the worker that reads files. One worker serves the whole import. */
export class Preview {
  readonly #worker = new Worker(new URL('./preview-worker.ts', import.meta.url), { type: 'module' });
  readonly #waiting = new Map<number, { done: (value: never) => void; failed: (error: Error) => void }>();
  #last = 0;

  constructor() {
    this.#worker.onmessage = ({ data }: MessageEvent<Reply>) => {
      const waiting = this.#waiting.get(data.id);
      this.#waiting.delete(data.id);
      if (data.ok) waiting?.done(data.value as never);
      else waiting?.failed(new Error(data.message));
    };
    this.#worker.onerror = () => this.#fail('The reader of files stopped.');
  }

  look(ask: Omit<Ask & { ask: 'look' }, 'ask'>): Promise<Look> {
    return this.#send({ ask: 'look', ...ask });
  }

  curve(ask: Omit<Ask & { ask: 'curve' }, 'ask'>): Promise<CurveAnswer> {
    return this.#send({ ask: 'curve', ...ask });
  }

  suggest(ask: Omit<Ask & { ask: 'suggest' }, 'ask'>): Promise<SuggestAnswer> {
    return this.#send({ ask: 'suggest', ...ask });
  }

  close(): void {
    this.#worker.terminate();
    this.#fail('closed');
  }

  #send<T>(ask: Ask): Promise<T> {
    this.#last += 1;
    const id = this.#last;
    return new Promise<T>((done, failed) => {
      this.#waiting.set(id, { done, failed });
      this.#worker.postMessage({ ...ask, id } satisfies Request);
    });
  }

  #fail(message: string): void {
    for (const { failed } of this.#waiting.values()) failed(new Error(message));
    this.#waiting.clear();
  }
}
