import { byteSource, isVirtual, type LinkEvents, type Packet, type SourceDescription } from '@sthene/capture';
import type { MonotonicNanoseconds } from '@sthene/core';
import { systemClock } from '../../src/live/clock.ts';
import type { LivePorts } from '../../src/live/ports.ts';
import { lockstepPorts } from './lockstep.ts';
import { virtual } from './set-up.ts';

/** Counts of the empty bridges, four under each of two plates, and the certificate of each plate: Fz in N and My in N.m per mV/V. */
const resting = [812, -340, 125, 40, -77, 9, 1500, -1210] as const;
const certificates = {
  left: [
    [2503.1, 2498.4, 2511.7, 2490.2],
    [-500.9, -499.2, 503, 497.6],
  ],
  right: [
    [1996.5, 2010.8, 1988.3, 2004.4],
    [-401.2, -398.7, 399.5, 402.1],
  ],
} as const;
const names = resting.map((_, i) => `bridge ${i + 1}`);
const millivoltsPerCount = 0.0001;

/** Two plates on bridges of the club Fernwater, as a text line a sample; forces are made of the bridges. */
export const bridgeDescription: SourceDescription = {
  schema: 'sthene.source/1',
  name: 'Bridge plates',
  transport: { kind: 'tcp', mode: 'connect', host: '127.0.0.1', port: 4001 },
  layout: {
    kind: 'lines',
    delimiter: ',',
    fields: [{ role: 'counter' }, ...names.map((channel) => ({ role: 'channel' as const, channel }))],
  },
  channels: names.map((name, i) => ({
    name,
    plate: i < 4 ? 'left' : 'right',
    side: 'none',
    axis: 'other',
    unit: 'mV/V',
    scale: millivoltsPerCount,
    offset: resting[i] as number,
    rawRange: [-32_768, 32_767],
  })),
  calibration: (['left', 'right'] as const).map((side, plate) => ({
    signals: names.slice(4 * plate, 4 * plate + 4),
    matrix: certificates[side],
    channels: [
      { name: `Fz ${side}`, plate: side, side, axis: 'z', unit: 'N' },
      { name: `My ${side}`, plate: side, side, axis: 'my', unit: 'N.m' },
    ],
  })),
  rate: 1000,
};

/** A sample as it left the plates: what stood on them, N, and what their bridges sent. */
export interface SentSample {
  readonly forces: readonly [left: number, right: number];
  readonly counts: readonly number[];
}

/** A quarter of its plate's force on each bridge, in whole counts. */
const countsOf = (left: number, right: number): number[] =>
  resting.map((offset, i) => {
    const [force, [vertical]] = i < 4 ? [left, certificates.left] : [right, certificates.right];
    return offset + Math.round(force / 4 / (vertical[i % 4] as number) / millivoltsPerCount);
  });

/**
 * Ports whose plates are those of `lockstepPorts` at the far end of a wire: their forces become counts of eight bridges, the counts
 * lines of text, and the station reads these by the description as it reads any device.
 *
 * @param sent every sample is put down here
 */
export function bridgePorts(sent: SentSample[]): LivePorts {
  const ports = lockstepPorts();
  return {
    ...ports,
    createSource: (rig) => {
      const plates = ports.createSource(rig, [virtual(1)]);
      if (!isVirtual(plates)) throw new Error('the plates are not virtual');
      const start = plates.start.bind(plates);
      const stop = plates.stop.bind(plates);
      let wire: LinkEvents | undefined;
      // Time at the far end is what has been played, so that a busy machine is no silence.
      const clock = {
        monotonic: () => BigInt(sent.length * 1_000_000) as MonotonicNanoseconds,
        wall: systemClock.wall,
      };
      const link = {
        async start(events: LinkEvents) {
          wire = events;
          events.opened('FW-BRIDGES');
        },
        async stop() {},
      };
      const source = byteSource(bridgeDescription, { id: rig, clock }, { link, reorderWindow: 0, startsWhole: true });
      plates.start = async (emit) => {
        await source.start((packet) => emit({ ...packet, at: systemClock.monotonic() }));
        await start((packet: Packet) => {
          if (packet.kind !== 'samples') return;
          let text = '';
          for (let i = 0; i < packet.count; i++) {
            const forces = [packet.values[i] as number, packet.values[packet.count + i] as number] as const;
            const counts = countsOf(...forces);
            text += `${[sent.length, ...counts].join(',')}\n`;
            sent.push({ forces, counts });
          }
          wire?.bytes(Buffer.from(text, 'latin1'));
        });
      };
      plates.stop = async () => {
        await stop();
        await source.stop();
      };
      return plates;
    },
  };
}
