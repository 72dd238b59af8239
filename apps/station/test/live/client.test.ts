import { describe, expect, it } from 'vitest';
import { Client, type Message, type Socket } from '../../src/live/hub/client.ts';

/** A socket whose reader has fallen asleep: what was sent stays in it until it drains. */
class SlowSocket implements Socket {
  bufferedAmount = 0;
  readonly frames: string[] = [];
  closed: number | undefined;
  #waiting: { readonly data: string; readonly sent: (error?: Error) => void }[] = [];
  send(data: string, _soon: boolean, sent: (error?: Error) => void): void {
    this.bufferedAmount += data.length;
    this.#waiting.push({ data, sent });
  }
  /** Reads everything, as somebody who woke up. */
  drain(): void {
    while (this.#waiting.length > 0) {
      const [first] = this.#waiting.splice(0, 1);
      if (first === undefined) return;
      this.bufferedAmount -= first.data.length;
      this.frames.push(first.data);
      first.sent();
    }
  }
  close(code: number): void {
    this.closed = code;
  }
  terminate(): void {
    this.closed = 0;
  }
}

const device = { id: 'tablet-1', name: 'tablet', role: 'viewer', by: 'Rowan' } as const;
const limits = { bytes: 10_000, kept: 50 };

function client() {
  const socket = new SlowSocket();
  let snapshots = 0;
  const one = new Client(device, socket, () => ({ type: 'snapshot', number: ++snapshots }) as Message, limits);
  one.sendSnapshot();
  const offer = (type: string, weight: 'state' | 'moment' | 'kept', more = '') =>
    one.offer(JSON.stringify({ type, more }), weight);
  const read = () => {
    socket.drain();
    return socket.frames.splice(0).map((text) => JSON.parse(text) as { type: string; sequence: number; more: string });
  };
  return { one, socket, offer, read };
}

describe('a slow viewer', () => {
  it('never has more waiting than its limit, the frame about to be sent included', () => {
    const { socket, offer } = client();
    for (let i = 0; i < 2000; i++) {
      offer('envelope', 'moment', 'x'.repeat(400));
      expect(socket.bufferedAmount).toBeLessThanOrEqual(limits.bytes);
    }
  });

  it('skips, is told so, gets a fresh snapshot, and then every result and mark in order', () => {
    const { one, offer, read } = client();
    for (let i = 0; i < 300; i++) {
      offer('envelope', 'moment', 'x'.repeat(400));
      if (i % 20 === 0) offer('verdict', 'kept', String(i));
      if (i % 50 === 0) offer('phase', 'state', String(i));
    }
    expect(one.behind).toBe(true);
    const read1 = read();
    expect(one.behind).toBe(false);
    const verdicts = read1.filter(({ type }) => type === 'verdict').map(({ more }) => Number(more));
    expect(verdicts).toEqual(Array.from({ length: 15 }, (_, i) => 20 * i));
    const behind = read1.findIndex(({ type }) => type === 'behind');
    expect(read1[behind + 1]?.type).toBe('snapshot');
    // What comes after it is not older than what the snapshot shows, but for what is never dropped.
    expect(read1.slice(behind + 2).every(({ type }) => type === 'verdict')).toBe(true);
    // The numbers tell how many were left out.
    const numbers = read1.map(({ sequence }) => sequence);
    expect(numbers).toEqual([...numbers].sort((a, b) => a - b));
    expect(new Set(numbers).size).toBe(numbers.length);
    expect((numbers.at(-1) ?? 0) - numbers.length).toBeGreaterThan(200);
    offer('envelope', 'moment', 'now');
    expect(read()).toMatchObject([{ type: 'envelope', more: 'now' }]);
  });

  it('is never sent a cue late', () => {
    const { offer, read } = client();
    for (let i = 0; i < 100; i++) offer('envelope', 'moment', 'x'.repeat(400));
    offer('cue', 'moment', 'go');
    expect(read().some(({ type }) => type === 'cue')).toBe(false);
  });

  it('that does not come back is let go', () => {
    const { socket, offer } = client();
    for (let i = 0; i < 100; i++) offer('envelope', 'moment', 'x'.repeat(400));
    for (let i = 0; i < 52; i++) offer('verdict', 'kept');
    expect(socket.closed).toBe(1013);
  });
});
