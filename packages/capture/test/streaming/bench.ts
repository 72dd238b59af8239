import type { Sent, StreamSender } from '../../../../tests/streaming/sender.ts';
import type { SourceDescription } from '../../src/sources/description.ts';
import { encodedRun } from '../../src/sources/twin/index.ts';

/** Where streams are sought in tests: one port of this machine, so that nobody else is asked or answers. */
export const onlyPort = (queryPort: number) => ({ queryPort, servicePort: queryPort, servicePorts: 0, groups: [] });

export const streamDescription = (
  transport: Partial<Extract<SourceDescription['transport'], { kind: 'stream' }>> = { sourceId: 'FW-0007' },
): SourceDescription => ({
  schema: 'sthene.source/1',
  name: 'Stream',
  transport: { kind: 'stream', ...transport },
  channels: (['left', 'right'] as const).map((side) => ({
    ...{ name: side, plate: side, side, axis: 'z', unit: 'N', scale: 1, offset: 0 },
  })),
  rate: 1000,
});

/** Encoded samples [from, to): chunks of twenty with the stamp of their first sample, the others deduced. */
export function encodedSamples(from: number, to: number, clockAtZero: number, chunk = 20): Sent[] {
  const channels = 2;
  const { values } = encodedRun(from, to - from, channels);
  return Array.from({ length: to - from }, (_, i) => ({
    ...(i % chunk === 0 ? { time: clockAtZero + (from + i) / 1000 } : {}),
    values: [values[i * channels] as number, values[i * channels + 1] as number],
  }));
}

/** Plays encoded samples in real time until told to stop: twenty each 20 ms, as a device does. */
export class Player {
  readonly #sender: StreamSender;
  readonly #clockAtZero: number;
  readonly #began = performance.now();
  #timer: NodeJS.Timeout | undefined;
  next = 0;
  /** Chunks that leave out, hold back or repeat, by the number of their first sample. */
  readonly faults = new Map<number, 'lost' | 'doubled' | 'late'>();
  #late: Sent[] = [];
  /** Nothing is sent; `kept`: it is sent afterwards. */
  stalled: 'lost' | 'kept' | undefined;
  #kept: Sent[] = [];

  constructor(sender: StreamSender, clockAtZero = sender.clock) {
    this.#sender = sender;
    this.#clockAtZero = clockAtZero;
  }

  start(): this {
    this.#timer = setInterval(() => this.#play(), 20);
    return this;
  }

  stop(): void {
    clearInterval(this.#timer);
  }

  #play(): void {
    const due = Math.floor((performance.now() - this.#began) / 20) * 20;
    for (; this.next < due; this.next += 20) {
      const chunk = encodedSamples(this.next, this.next + 20, this.#clockAtZero);
      if (this.stalled !== undefined) {
        if (this.stalled === 'kept') this.#kept.push(...chunk);
        continue;
      }
      const fault = this.faults.get(this.next);
      if (fault === 'lost') continue;
      if (fault === 'late') {
        this.#late = chunk;
        continue;
      }
      this.#sender.send([
        ...this.#kept.splice(0),
        ...chunk,
        ...(fault === 'doubled' ? chunk : []),
        ...this.#late.splice(0),
      ]);
    }
  }
}
