import { type Packet, type SourceDescription, type Transport, virtualPlates, virtualScripts } from '@sthene/capture';
import type { ToOperator } from '@sthene/contract';
import { systemClock } from '../../src/live/clock.ts';

/** Vertical force of a left and a right plate, N, under the names they have. */
export const twoPlates = (names: Readonly<Record<'left' | 'right', string>> = { left: 'left', right: 'right' }) =>
  (['left', 'right'] as const).map((side) => ({
    name: names[side],
    plate: side,
    side,
    axis: 'z' as const,
    unit: 'N',
    scale: 1,
    offset: 0,
  }));

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
  channels: twoPlates().map((channel) => ({ ...channel, rawRange: [-10_000, 10_000] as const })),
  rate: 1000,
});

/** Two plates and three people at the far end of a wire; they see the screens of the station and follow them, one a turn. */
export function wiredPlates(write: (bytes: Buffer) => void, speed = 15, script = 'fernwater-three') {
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
  /** Turns by their number, and who came: whom the station names, else one after the other. */
  const turns = new Map<string, { readonly number: number; readonly who: string }>();
  const arrivals: string[] = [];
  const turnOf = (id: string, code: string) => {
    const known = turns.get(id);
    if (known !== undefined) return known;
    const made = { number: turns.size + 1, who: code === '' ? `guest-${turns.size % people.people.length}` : code };
    turns.set(id, made);
    if (!arrivals.includes(made.who)) arrivals.push(made.who);
    return made;
  };
  /** Where the screens count forces from the standing athlete, only that athlete knows the whole. */
  const standingOf = (forces: string, who: string): number =>
    forces === 'above' ? (people.people[arrivals.indexOf(who) % people.people.length]?.weight ?? 0) : 0;
  return {
    start: () =>
      plates.start((packet: Packet) => {
        if (packet.kind !== 'samples') return;
        let text = '';
        for (let i = 0; i < packet.count; i++)
          text += `${packet.first + i},${packet.values[i]},${packet.values[packet.count + i]}\n`;
        write(Buffer.from(text, 'latin1'));
      }),
    stop: () => plates.stop(),
    /** What the people read from a screen. */
    see(message: ToOperator): void {
      if (message.type === 'cue' && message.sound === 'go')
        plates.notice({ kind: 'mark', sample: 0, at: 0, label: 'cue' });
      if (message.type !== 'phase') return;
      const { phase, turn, target } = message.floor;
      const mine = turn === undefined ? undefined : turnOf(turn.id, turn.person.code);
      plates.notice({
        kind: 'phase',
        sample: 0,
        phase,
        turn: mine?.number ?? 0,
        trial: 1,
        ...(mine === undefined ? {} : { person: mine.who }),
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
                        aim: standingOf(message.floor.forces, mine?.who ?? '') + (target.low + target.high) / 2,
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
