import { afterEach, describe, expect, it } from 'vitest';
import { freePort } from '../../../../tests/streaming/free-port.ts';
import { type SenderFacts, StreamSender } from '../../../../tests/streaming/sender.ts';
import { createSource } from '../../src/sources/create-source.ts';
import type { Source } from '../../src/sources/source.ts';
import { isStreamSource } from '../../src/sources/transports/streaming/index.ts';
import { collector, machineClock, pause } from '../sources/collect.ts';
import { of, provenGrid } from '../sources/twin-bench.ts';
import { encodedSamples, onlyPort, Player, streamDescription } from './bench.ts';

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

async function sending(facts: Partial<SenderFacts> = {}, port?: number): Promise<StreamSender> {
  const sender = new StreamSender({ queryPort: port ?? (await freePort()), ...facts });
  await sender.start();
  ends.push(() => sender.stop());
  return sender;
}

/** A source that reads what is offered at the sender's port. */
async function reading(port: number, description = streamDescription()) {
  const got = collector();
  const source: Source = createSource(description, { id: 'rig', clock: machineClock, streamNetwork: onlyPort(port) });
  let stopped = false;
  const stop = async () => {
    if (!stopped) await source.stop();
    stopped = true;
  };
  ends.push(stop);
  await source.start(got.emit);
  const trouble = () => (isStreamSource(source) ? source.trouble() : undefined);
  return { got, stop, trouble };
}

const gaps = (got: ReturnType<typeof collector>) =>
  of(got.packets, 'gap').map(({ first, count, cause }) => [first, count, cause]);
const faults = (got: ReturnType<typeof collector>) =>
  of(got.packets, 'fault').map(({ fault, count }) => [fault, count]);

// promises in real time: a busy machine may need another try, never a longer one
describe('a stream as a source', { retry: 2 }, () => {
  it('is found by its source id and read whole: every sample at its index, stamps as they were sent', async () => {
    const sender = await sending();
    const { got, stop } = await reading(sender.facts.queryPort);
    await got.until('a receiver', () => sender.receivers === 1);
    expect(got.packets[0]).toMatchObject({ kind: 'header', source: 'rig', device: 'FW-0007', promisedRate: 1000 });
    for (let n = 0; n < 2000; n += 100) {
      sender.send(encodedSamples(n, n + 100, 70));
      await pause(2);
    }
    await got.until('2000 samples', () => got.samples() === 2000);
    await stop();
    expect(provenGrid(got.packets)).toBe(2000);
    expect(got.states()).toEqual(['connected', 'ended']);
    expect([...gaps(got), ...faults(got)]).toEqual([]);
    for (const { first, deviceTime } of of(got.packets, 'samples'))
      expect(deviceTime).toBeCloseTo(70 + first / 1000, 6);
    expect(got.packets.at(-1)).toMatchObject({ kind: 'end', samples: 2000, gaps: 0, missing: 0 });
    expect(sender.requests[0]).toContain(`LSL:streamfeed/110 ${sender.uid}\r\nNative-Byte-Order: 1234\r\n`);
  });

  it.each([
    ['double64', 'big'],
    ['int32', 'little'],
    ['int16', 'big'],
    ['int64', 'big'],
  ] as const)('reads %s with the %s end first', async (format, order) => {
    const sender = await sending({ format, order });
    const { got, stop } = await reading(sender.facts.queryPort, streamDescription({ type: 'Force' }));
    await got.until('a receiver', () => sender.receivers === 1);
    // An index of 16 bits: 2000 x 16 fits.
    sender.send(encodedSamples(0, 2000, 70));
    await got.until('2000 samples', () => got.samples() === 2000);
    await stop();
    expect(provenGrid(got.packets)).toBe(2000);
  });

  it('names a stall, what was lost, doubled and late, each by its cause', async () => {
    const sender = await sending();
    const { got, stop } = await reading(sender.facts.queryPort);
    await got.until('a receiver', () => sender.receivers === 1);
    // How even the stamps are is known after some seconds.
    sender.send(encodedSamples(0, 3000, 70));
    const send = (from: number, to: number) => sender.send(encodedSamples(from, to, 70));
    send(3020, 3100); // 20 lost
    await pause(300);
    send(3100, 3120);
    send(3100, 3120); // doubled
    send(3140, 3160);
    send(3120, 3140); // late, but in time to be put in order
    await pause(50);
    send(3180, 3200);
    await pause(300);
    send(3160, 3180); // too late
    await pause(900);
    send(4100, 4200); // stalled
    await got.until('the last samples', () => got.samples() >= 3000 + 80 + 20 + 40 + 20 + 100);
    await stop();
    expect(provenGrid(got.packets)).toBe(4200);
    expect(gaps(got)).toEqual([
      [3000, 20, 'lost'],
      [3160, 20, 'lost'],
      [3200, 900, 'stall'],
    ]);
    expect(faults(got)).toEqual([
      ['doubled', 1],
      ['swapped', 1],
      ['late', 1],
    ]);
    expect(got.states()).toEqual(['connected', 'quiet', 'returned', 'ended']);
  });

  it('waits for a stalled sender that kept its samples, and loses none of them', async () => {
    const sender = await sending();
    const { got, stop } = await reading(sender.facts.queryPort);
    await got.until('a receiver', () => sender.receivers === 1);
    const player = new Player(sender).start();
    ends.push(() => player.stop());
    await pause(800);
    player.stalled = 'kept';
    await got.until('silence', () => got.states().includes('quiet'));
    player.stalled = undefined;
    await got.until('the return', () => got.states().includes('returned'));
    await pause(200);
    player.stop();
    await got.until('all of it', () => got.samples() === player.next);
    await stop();
    expect(provenGrid(got.packets)).toBe(player.next);
    expect(gaps(got)).toEqual([]);
  });

  it('finds a sender again that began anew, by its source id, with another session and another clock', async () => {
    const sender = await sending({ clockStart: 90_000 });
    const { got, stop } = await reading(sender.facts.queryPort);
    await got.until('a receiver', () => sender.receivers === 1);
    const first = sender.uid;
    sender.send(encodedSamples(0, 1000, sender.clock));
    await got.until('1000 samples', () => got.samples() === 1000);
    const cut = performance.now();
    await sender.stop();
    await got.until('the loss', () => got.states().includes('lost'), 500);
    expect(performance.now() - cut).toBeLessThan(500);
    await pause(600);
    await sender.start(3);
    expect(sender.uid).not.toBe(first);
    await got.until('the return', () => got.states().includes('returned'), 2000);
    const passed = performance.now() - cut;
    sender.send(encodedSamples(0, 1000, sender.clock));
    await got.until('2000 samples', () => got.samples() === 2000);
    await stop();
    const [gap] = of(got.packets, 'gap');
    expect(of(got.packets, 'gap')).toHaveLength(1);
    expect(gap).toMatchObject({ first: 1000, cause: 'disconnected' });
    // As long as it was away by the station's clock; the last chunk had been on its way meanwhile.
    expect(Math.abs((gap?.count ?? 0) - passed)).toBeLessThan(150);
    expect(of(got.packets, 'header')).toHaveLength(1);
    expect(got.packets.at(-1)).toMatchObject({ kind: 'end', samples: 2000, gaps: 1 });
  });

  it('takes the exact length of an interruption from the stamps where the clock went on', async () => {
    const sender = await sending();
    const { got, stop } = await reading(sender.facts.queryPort);
    await got.until('a receiver', () => sender.receivers === 1);
    const player = new Player(sender).start();
    ends.push(() => player.stop());
    await pause(500);
    sender.hangUp();
    await got.until('the return', () => got.states().includes('returned'), 4000);
    const some = got.samples();
    await got.until('more', () => got.samples() > some + 200);
    player.stop();
    await pause(100);
    await stop();
    expect(provenGrid(got.packets)).toBe(player.next);
    expect(of(got.packets, 'gap').map(({ cause }) => cause)).toEqual(['disconnected']);
  });

  it('knows the clock of the sender by probes, and says so where they are not answered', async () => {
    const sender = await sending({ clockStart: 5000 });
    const { got } = await reading(sender.facts.queryPort);
    await got.until('a receiver', () => sender.receivers === 1);
    const player = new Player(sender).start();
    ends.push(() => player.stop());
    const known = () => of(got.packets, 'clock').flatMap(({ deviceClock }) => deviceClock ?? []);
    await got.until('a clock', () => known().length > 0, 8000);
    const [{ offset, roundTrip } = { offset: 0, roundTrip: 0 }] = known();
    expect(roundTrip).toBeGreaterThan(0);
    expect(roundTrip).toBeLessThan(0.128);
    // Both clocks are of this machine: the truth is their difference now.
    const truth = Number(machineClock.monotonic()) / 1e9 - sender.clock;
    expect(Math.abs(offset - truth)).toBeLessThan(roundTrip / 2 + 0.0005);

    const silent = await sending({ probes: false });
    const other = await reading(silent.facts.queryPort);
    await other.got.until('a receiver', () => silent.receivers === 1);
    const played = new Player(silent).start();
    ends.push(() => played.stop());
    const words = () => of(other.got.packets, 'status').map((one) => one.words);
    await other.got.until('the word', () => words().some((one) => one.includes('does not answer time probes')), 9000);
    expect(of(other.got.packets, 'clock').every(({ deviceClock }) => deviceClock === undefined)).toBe(true);
  });

  it('names its channels itself where the description names none', async () => {
    const sender = await sending({ labels: ['Left Fz', 'Right Fz'] });
    const { got, stop } = await reading(sender.facts.queryPort, { ...streamDescription(), channels: [] });
    await got.until('a receiver', () => sender.receivers === 1);
    sender.send(encodedSamples(0, 100, 70));
    await got.until('100 samples', () => got.samples() === 100);
    await stop();
    expect(of(got.packets, 'header')).toMatchObject([
      {
        channels: [
          { name: 'Left Fz', side: 'left', axis: 'z', unit: 'N' },
          { name: 'Right Fz', side: 'right', axis: 'z', unit: 'N' },
        ],
      },
    ]);
  });
});

describe('a stream that is not what was described', { retry: 2 }, () => {
  const refused: [string, Partial<SenderFacts>, Parameters<typeof streamDescription>[0], string | undefined, string][] =
    [
      ['another name', {}, { name: 'Other' }, 'source-stream-missing', 'connecting'],
      ['texts', { format: 'string' }, undefined, 'source-stream-differs', 'connecting'],
      ['no rate', { rate: 0 }, undefined, 'source-stream-differs', 'connecting'],
      ['another rate', { rate: 500 }, undefined, 'source-stream-differs', 'connecting'],
      ['more channels', { labels: ['a', 'b', 'c'] }, undefined, 'source-stream-differs', 'connecting'],
      [
        'channels changed about',
        { labels: ['right', 'left'] },
        { sourceId: 'FW-0007', labels: ['left', 'right'] },
        'source-stream-differs',
        'connecting',
      ],
      [
        'channels without names',
        { full: false },
        { sourceId: 'FW-0007', labels: ['left', 'right'] },
        'source-stream-differs',
        'connecting',
      ],
      [
        'another version',
        { answer: () => 'LSL/110 505 Version not supported\r\n\r\n' },
        undefined,
        'source-stream-refused',
        'connecting',
      ],
      [
        'no stream any more',
        { answer: () => 'LSL/110 404 Not found\r\n\r\n' },
        undefined,
        'source-stream-missing',
        'connecting',
      ],
      [
        'another protocol',
        { answer: () => 'HTTP/1.1 200 OK\r\n\r\n' },
        undefined,
        'source-stream-broken',
        'connecting',
      ],
      ['wrong patterns', { patternTime: 1 }, undefined, 'source-stream-broken', 'connecting'],
    ];
  it.each(refused)('%s: refused by a code, and tried again', async (_, facts, transport, code, state) => {
    const sender = await sending(facts);
    const { got, trouble } = await reading(sender.facts.queryPort, streamDescription(transport));
    await got.until('the refusal', () => trouble() === code, 4000);
    expect(got.states()).toContain(state);
    expect(got.samples()).toBe(0);
  });

  it('as described is read, with its labels', async () => {
    const sender = await sending();
    const { got, trouble } = await reading(
      sender.facts.queryPort,
      streamDescription({ sourceId: 'FW-0007', labels: ['left', 'right'] }),
    );
    await got.until('a receiver', () => sender.receivers === 1);
    expect([got.states(), trouble()]).toEqual([['connected'], undefined]);
  });

  it('is not guessed where two senders fit', async () => {
    const sender = await sending({ sourceId: 'FW-0007' });
    const port = await freePort();
    await sending({ sourceId: 'FW-0008', queryPort: port });
    // Both hear: the second one through the port of its own, asked as one of the ports for time.
    const got = collector();
    const source = createSource(streamDescription({ type: 'Force' }), {
      id: 'rig',
      clock: machineClock,
      streamNetwork: { queryPort: sender.facts.queryPort, servicePort: port, servicePorts: 1, groups: [] },
    });
    ends.push(() => source.stop());
    await source.start(got.emit);
    expect(isStreamSource(source) && source.trouble()).toBe('source-stream-several');
    expect(of(got.packets, 'status')[0]?.words).toContain('FW-0008');
  });

  it('is another sender after the first was read: told, and nothing of it is recorded', async () => {
    const port = await freePort();
    const sender = await sending({ queryPort: port });
    const { got, trouble } = await reading(port, streamDescription({ type: 'Force' }));
    await got.until('a receiver', () => sender.receivers === 1);
    sender.send(encodedSamples(0, 100, 70));
    await got.until('100 samples', () => got.samples() === 100);
    await sender.stop();
    const other = await sending({ queryPort: port, sourceId: 'FW-0009' });
    await got.until('the word', () => got.states().includes('wrong-device'), 4000);
    expect([trouble(), other.receivers, got.samples()]).toEqual(['source-wrong-device', 0, 100]);
  });

  it('breaks off at bytes that are no samples, keeps what was whole, and goes on with the next connection', async () => {
    const sender = await sending();
    const { got, stop } = await reading(sender.facts.queryPort);
    await got.until('a receiver', () => sender.receivers === 1);
    sender.send(encodedSamples(0, 1000, 70));
    sender.sendRaw(Buffer.from([77, 1, 2, 3]));
    await got.until('the loss', () => got.states().includes('lost'), 2000);
    expect(got.samples()).toBe(1000);
    await got.until('the return', () => got.states().includes('returned'), 4000);
    sender.send(encodedSamples(1200, 1300, 70));
    await got.until('100 more', () => got.samples() === 1100);
    await stop();
    expect(provenGrid(got.packets)).toBe(1300);
    expect(gaps(got)).toEqual([[1000, 200, 'disconnected']]);
  });
});
