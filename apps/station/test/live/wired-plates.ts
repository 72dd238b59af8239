import { type Packet, type SourceDescription, type Transport, virtualPlates, virtualScripts } from '@sthene/capture';
import type { ToOperator } from '@sthene/contract';
import { systemClock } from '../../src/live/clock.ts';

/** Plates that send text lines: their own time in ms, left, right. */
export const lineDescription = (name: string, transport: Transport): SourceDescription => ({
  schema: 'sthene.source/1',
  name,
  transport,
  layout: {
    kind: 'lines',
    delimiter: ',',
    fields: [
      { role: 'time', unit: 'ms' },
      { role: 'channel', channel: 'left' },
      { role: 'channel', channel: 'right' },
    ],
  },
  channels: (['left', 'right'] as const).map((side) => ({
    name: side,
    plate: side,
    side,
    axis: 'z' as const,
    unit: 'N',
    scale: 1,
    offset: 0,
    rawRange: [-10_000, 10_000] as const,
  })),
  rate: 1000,
});

/** Counts of the empty bridges, four under each of two plates, and the certificate of each plate: Fz in N and My in N.m per mV/V. */
const restingCounts = [812, -340, 125, 40, -77, 9, 1500, -1210] as const;
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
const bridges = restingCounts.map((offset, i) => ({ name: `bridge ${i + 1}`, offset }));
const millivoltsPerCount = 0.0001;

/** The same plates, each on four bridges that send counts; the forces are made of them. */
export const bridgeDescription = (name: string, transport: Transport): SourceDescription => ({
  schema: 'sthene.source/1',
  name,
  transport,
  layout: {
    kind: 'lines',
    delimiter: ',',
    fields: [
      { role: 'time', unit: 'ms' },
      ...bridges.map((bridge) => ({ role: 'channel' as const, channel: bridge.name })),
    ],
  },
  channels: bridges.map(({ name: bridge, offset }, i) => ({
    name: bridge,
    plate: i < 4 ? 'left' : 'right',
    side: 'none' as const,
    axis: 'other' as const,
    unit: 'mV/V',
    scale: millivoltsPerCount,
    offset,
    rawRange: [-32_768, 32_767] as const,
  })),
  calibration: (['left', 'right'] as const).map((side, plate) => ({
    signals: bridges.slice(4 * plate, 4 * plate + 4).map((bridge) => bridge.name),
    matrix: certificates[side],
    channels: [
      { name: `Fz ${side}`, plate: side, side, axis: 'z' as const, unit: 'N' },
      { name: `My ${side}`, plate: side, side, axis: 'my' as const, unit: 'N.m' },
    ],
  })),
  rate: 1000,
});

/** What the bridges send under two forces: a quarter of its plate's force on each, in whole counts. */
export const bridgeCounts = (left: number, right: number): number[] =>
  restingCounts.map((offset, i) => {
    const [force, [vertical]] = i < 4 ? [left, certificates.left] : [right, certificates.right];
    return offset + Math.round(force / 4 / (vertical[i % 4] as number) / millivoltsPerCount);
  });

/** Two plates and three people at the far end of a wire; they see the screens of the station and follow them, one a turn. */
export function wiredPlates(
  write: (bytes: Buffer) => void,
  speed = 15,
  script = 'fernwater-three',
  cells: (left: number, right: number) => readonly number[] = (left, right) => [left, right],
) {
  const people = virtualScripts[script];
  if (people === undefined) throw new Error('no such script');
  const plates = virtualPlates({
    id: 'far-end',
    script: people,
    seed: 5,
    clock: systemClock,
    speed,
    schedule: (tick, every) => {
      const timer = setInterval(tick, every);
      return () => clearInterval(timer);
    },
  });
  const turns = new Map<string, number>();
  return {
    start: () =>
      plates.start((packet: Packet) => {
        if (packet.kind !== 'samples') return;
        let text = '';
        for (let i = 0; i < packet.count; i++)
          text += `${[packet.first + i, ...cells(packet.values[i] as number, packet.values[packet.count + i] as number)].join()}\n`;
        write(Buffer.from(text, 'latin1'));
      }),
    stop: () => plates.stop(),
    /** What the people read from a screen. */
    see(message: ToOperator): void {
      if (message.type === 'cue' && message.sound === 'go')
        plates.notice({ kind: 'mark', sample: 0, at: 0, label: 'cue' });
      if (message.type !== 'phase') return;
      const { phase, turn, target } = message.floor;
      const id = turn?.id ?? '';
      if (turn !== undefined && !turns.has(id)) turns.set(id, turns.size + 1);
      plates.notice({
        kind: 'phase',
        sample: 0,
        phase,
        turn: turns.get(id) ?? 0,
        trial: 1,
        ...(turn === undefined ? {} : { person: `guest-${((turns.get(id) ?? 1) - 1) % 3}` }),
        // Between two efforts they go off the plates.
        ...(phase === 'rest'
          ? {}
          : {
              effort: {
                kind: turn?.effort.kind === 'submaximal' ? 'submaximal' : 'maximal',
                ...(target === undefined
                  ? {}
                  : {
                      target: {
                        ...target,
                        aim: (target.low + target.high) / 2,
                        share: 0.5,
                        from: 'body-weight' as const,
                      },
                    }),
              },
            }),
        because: 'released',
      });
    },
  };
}
