import { beforeEach, describe, expect, it } from 'vitest';
import { bestReading, readingOf, withReading } from './clock.ts';
import { Link, type LinkSocket } from './link.ts';
import { appended, endOf, highestSince, keptSeconds } from './trace.ts';

class FakeSocket implements LinkSocket {
  readyState = 0;
  onopen: (() => void) | null = null;
  onmessage: ((event: { data: unknown }) => void) | null = null;
  onclose: ((event: { code: number }) => void) | null = null;
  readonly sent: { type: string; [key: string]: unknown }[] = [];
  send(data: string) {
    this.sent.push(JSON.parse(data));
  }
  close() {
    this.readyState = 3;
  }
  opened() {
    this.readyState = 1;
    this.onopen?.();
  }
  says(message: object) {
    this.onmessage?.({ data: JSON.stringify(message) });
  }
}

let sockets: FakeSocket[];
let now: number;
let timers: { at: number; act: () => void; id: number }[];
let lost: number;
let other: number;
let got: string[];

function link() {
  let ids = 0;
  return new Link<{ type: string; sequence: number }>('ws://here/api/live', {
    socket: () => {
      const socket = new FakeSocket();
      sockets.push(socket);
      return socket;
    },
    now: () => now,
    later: (act, ms) => {
      timers.push({ at: now + ms, act, id: ++ids });
      return ids;
    },
    forget: (id) => {
      timers = timers.filter((timer) => timer.id !== id);
    },
    parse: (text) => {
      const message = JSON.parse(String(text));
      return typeof message.sequence === 'number' ? message : undefined;
    },
    hello: () => ({ lab: 'lab', role: 'operator', device: { id: 'd', name: 'Floor' } }),
    onMessage: ({ type }) => got.push(type),
    onLost: () => {
      lost++;
    },
    onOtherVersion: () => {
      other++;
    },
  });
}

function pass(ms: number) {
  const until = now + ms;
  for (;;) {
    const next = timers.filter(({ at }) => at <= until).sort((a, b) => a.at - b.at)[0];
    if (next === undefined) break;
    timers = timers.filter((timer) => timer !== next);
    now = next.at;
    next.act();
  }
  now = until;
}

const last = () => sockets.at(-1) as FakeSocket;

beforeEach(() => {
  sockets = [];
  timers = [];
  got = [];
  now = 1000;
  lost = 0;
  other = 0;
});

describe('Link', () => {
  it('says hello first and is open with the first whole state', () => {
    const one = link();
    one.start();
    last().opened();
    expect(last().sent[0]).toMatchObject({ type: 'hello', protocol: 1, role: 'operator' });
    expect(one.open).toBe(false);
    expect(one.send({ type: 'take-controls' })).toBe(false);
    last().says({ type: 'snapshot', sequence: 1 });
    expect(one.open).toBe(true);
    expect(one.send({ type: 'take-controls' })).toBe(true);
  });
  it('never sends later what was wanted while the link was down', () => {
    const one = link();
    one.start();
    last().opened();
    last().says({ type: 'snapshot', sequence: 1 });
    last().onclose?.({ code: 1006 });
    expect(lost).toBe(1);
    expect(one.send({ type: 'take-controls' })).toBe(false);
    pass(300);
    expect(sockets).toHaveLength(2);
    last().opened();
    last().says({ type: 'snapshot', sequence: 1 });
    pass(1000);
    expect(last().sent.filter(({ type }) => type === 'take-controls')).toEqual([]);
  });
  it('connects again when a number is missing, but not when the station says it skipped', () => {
    const one = link();
    one.start();
    last().opened();
    last().says({ type: 'snapshot', sequence: 1 });
    last().says({ type: 'behind', sequence: 9 });
    last().says({ type: 'snapshot', sequence: 10 });
    last().says({ type: 'live', sequence: 11 });
    expect(lost).toBe(0);
    last().says({ type: 'phase', sequence: 13 });
    expect(lost).toBe(1);
    expect(got).not.toContain('phase');
  });
  it('waits longer after each failure, up to 4 s', () => {
    const one = link();
    one.start();
    const begun: number[] = [];
    for (let i = 0; i < 7; i++) {
      const at = now;
      last().onclose?.({ code: 1006 });
      const before = sockets.length;
      while (sockets.length === before) pass(50);
      begun.push(now - at);
    }
    expect(begun).toEqual([250, 500, 1000, 2000, 4000, 4000, 4000]);
  });
  it('measures the clock and leaves a station that is silent for three seconds', () => {
    const one = link();
    one.start();
    last().opened();
    last().says({ type: 'snapshot', sequence: 1 });
    expect(one.stationNow).toBeUndefined();
    pass(5);
    const probe = last().sent.find(({ type }) => type === 'probe') as unknown as { id: string; t0: number };
    now = probe.t0 + 10;
    last().says({ type: 'probe', sequence: 2, id: probe.id, t0: probe.t0, t1: 90_005, t2: 90_005 });
    expect(one.stationNow).toBeCloseTo(90_010, 6);
    pass(2900);
    expect(lost).toBe(0);
    pass(1200);
    expect(lost).toBe(1);
  });
  it('stops for good at a message it does not know', () => {
    const one = link();
    one.start();
    last().opened();
    last().says({ type: 'from a later version' });
    expect(other).toBe(1);
    pass(60_000);
    expect(sockets).toHaveLength(1);
  });
});

describe('clock', () => {
  it('finds the offset of a symmetric link exactly (RFC 5905, section 8)', () => {
    // Station 500 ahead, 20 ms each way, 3 ms of work there.
    expect(readingOf(100, 620, 623, 143)).toEqual({ offset: 500, roundTrip: 40 });
  });
  it('trusts the shortest round trip among the newest eight', () => {
    let all = withReading([], { offset: 1, roundTrip: 1 });
    for (let i = 0; i < 8; i++) all = withReading(all, { offset: 10 + i, roundTrip: 50 - i });
    expect(all).toHaveLength(8);
    expect(bestReading(all)).toEqual({ offset: 17, roundTrip: 43 });
    expect(bestReading([])).toBeUndefined();
  });
});

describe('trace', () => {
  const piece = (first: number, values: (number | null)[]) => ({ first, bucket: 5, rate: 1000, values });
  it('appends, fills holes with nothing and leaves out what it has', () => {
    let trace = appended(undefined, piece(100, [1, 2, 3, 4]));
    trace = appended(trace, piece(120, [9, 10]));
    expect(trace.low).toEqual([1, 3, null, null, 9]);
    expect(trace.high).toEqual([2, 4, null, null, 10]);
    trace = appended(trace, piece(120, [0, 0, 7, 8]));
    expect(trace.low).toEqual([1, 3, null, null, 9, 7]);
    expect(endOf(trace)).toBe(130);
    expect(highestSince(trace, 100)).toBe(10);
    expect(highestSince(trace, 125)).toBe(8);
    expect(highestSince(trace, 130)).toBeUndefined();
  });
  it('keeps the last seconds only, and begins anew on another grid or when samples start over', () => {
    let trace = appended(undefined, piece(0, [0, 0]));
    for (let i = 1; i < 5000; i++) trace = appended(trace, piece(i * 5, [i, i]));
    expect(trace.low).toHaveLength((keptSeconds * 1000) / 5);
    expect(endOf(trace)).toBe(25_000);
    expect(appended(trace, { first: 25_000, bucket: 10, rate: 1000, values: [1, 1] }).low).toEqual([1]);
    expect(appended(trace, piece(0, [1, 1])).low).toEqual([1]);
    expect(appended(trace, piece(25_000 + 25_000, [1, 1])).low).toEqual([1]);
  });
});
