import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import type { Packet, StreamChannel } from '../../src/packets/packet.ts';
import { counterPositions, type Positions, positionsOf } from '../../src/sources/sequence/position.ts';
import { Sequencer } from '../../src/sources/sequence/sequencer.ts';
import { decodedValue, type TwinDevice, twinDevice } from '../../src/sources/twin/index.ts';

export const of = <K extends Packet['kind']>(packets: readonly Packet[], kind: K) =>
  packets.filter((packet) => packet.kind === kind) as Extract<Packet, { kind: K }>[];

export const plateChannels = (count: number): StreamChannel[] =>
  Array.from({ length: count }, (_, c) => ({
    name: `c${c}`,
    plate: `p${c}`,
    side: 'none',
    axis: 'z',
    unit: 'N',
    scale: 1,
    offset: 0,
  }));

export interface BenchOptions {
  readonly window?: number;
  /** Wall clock as a function of the seconds since the start, s. */
  readonly wall?: (seconds: number) => number;
  readonly positions?: Positions;
  readonly promisedRate?: number;
  /** Seconds during which nobody ticks, as when the process is frozen. */
  readonly frozen?: readonly [from: number, to: number];
}

/** Lets a scripted device run through a sequencer on a clock that stands where the stream stands, ticks ten times a second. */
export function bench(device: TwinDevice, options: BenchOptions = {}) {
  const { window = 0.2, wall = (s) => s, frozen } = options;
  let now = 0;
  const clock = {
    monotonic: () => BigInt(Math.round((100 + now) * 1e9)) as MonotonicNanoseconds,
    wall: () => new Date(Date.UTC(2026, 2, 28, 23, 59) + wall(now) * 1000).toISOString() as UtcInstant,
  };
  const packets: Packet[] = [];
  const { wrapsAt } = device;
  const none = positionsOf({ rate: options.promisedRate ?? device.line.rate });
  const sequence = new Sequencer({
    header: {
      source: 'twin',
      promisedRate: options.promisedRate ?? device.line.rate,
      channels: plateChannels(device.channels),
    },
    positions:
      options.positions ??
      (wrapsAt === 'none'
        ? none
        : counterPositions({ counter: wrapsAt === undefined ? {} : { wrapsAt }, samplesPerStep: 1 })),
    clock,
    reorderWindow: window,
    emit: (packet) => packets.push(packet),
  });
  sequence.begin('FW-0007');
  sequence.watch.linkUp(clock.monotonic());
  sequence.status('connected', 'The link stands.', clock.monotonic());
  let nextTick = 0.1;
  const until = (at: number): void => {
    for (; nextTick <= at; nextTick += 0.1) {
      if (frozen !== undefined && nextTick >= frozen[0] && nextTick < frozen[1]) continue;
      now = Math.max(now, nextTick);
      sequence.tick(clock.monotonic());
    }
    now = Math.max(now, at);
  };
  for (const act of twinDevice(device)) {
    until(act.at);
    const at = clock.monotonic();
    if (act.do === 'run') {
      sequence.take(act.run, at);
      sequence.flush(at);
    } else if (act.do === 'unplug') {
      sequence.watch.linkDown();
      sequence.status('lost', 'The cable is out.', at);
    } else {
      sequence.reconnected();
      sequence.watch.linkUp(at);
      sequence.status('returned', 'The link is back.', at);
    }
  }
  until(now + 0.5);
  sequence.end(clock.monotonic());
  return packets;
}

/**
 * Proves from the data alone that each sample stands once at its own index on its own channel, and that samples and gaps cover the
 * grid. Returns the length of the grid.
 */
export function provenGrid(packets: readonly Packet[]): number {
  let next = 0;
  for (const packet of packets) {
    if (packet.kind === 'gap') {
      if (packet.first !== next) throw new Error(`a gap begins at ${packet.first}, not at ${next}`);
      next += packet.count;
    } else if (packet.kind === 'samples') {
      if (packet.first !== next) throw new Error(`samples begin at ${packet.first}, not at ${next}`);
      const channels = packet.values.length / packet.count;
      for (let i = 0; i < packet.count; i++) {
        for (let c = 0; c < channels; c++) {
          const { index, channel } = decodedValue(packet.values[c * packet.count + i]!);
          if (index !== next + i || channel !== c)
            throw new Error(`sample ${next + i} of channel ${c} holds ${index} of ${channel}`);
        }
      }
      next += packet.count;
    }
  }
  return next;
}
