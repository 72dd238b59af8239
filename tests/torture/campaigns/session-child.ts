// A child of the session campaign: several station cores in one process, each with a day of its own on virtual plates, that tell on
// stdout what they have confirmed. Killed by the parent with all of them at once.
import { type Packet, virtualDescription } from '@sthene/capture';
import { changeEntry } from '../../../apps/station/src/live/day/day-work.ts';
import { lockstepPorts } from '../../../apps/station/test/live/lockstep.ts';
import { stationCore } from '../../../apps/station/test/live/station-core.ts';

const [seed = '1', people = '', ...folders] = process.argv.slice(2);
const tell = (n: number, what: string, more: unknown = '') =>
  process.stdout.write(`${n} ${what} ${JSON.stringify(more)}\n`);

/** Beside the forces of the plates a channel that counts the samples, so that any loss or swap shows. */
function counted(packet: Packet): Packet {
  if (packet.kind === 'header') {
    const channel = {
      name: 'count',
      plate: 'count',
      side: 'none',
      axis: 'other',
      unit: 'N',
      scale: 1,
      offset: 0,
    } as const;
    return { ...packet, channels: [...packet.channels, channel] };
  }
  if (packet.kind !== 'samples') return packet;
  const { first, count } = packet;
  const values = new Float64Array(packet.values.length + count);
  values.set(packet.values);
  for (let i = 0; i < count; i++) values[packet.values.length + i] = first + i;
  return { ...packet, values };
}

const efforts = [
  { kind: 'submaximal' as const, share: 0.5 },
  { kind: 'maximal' as const },
  { kind: 'maximal' as const },
];

await Promise.all(
  folders.map(async (folder, n) => {
    const core = await stationCore(
      folder,
      {
        sources: [virtualDescription('Virtual plates', 'fernwater-three', 31 * Number(seed) + n)],
        handsFree: true,
        people,
        plan: { efforts, rest: { minimum: 8, maximum: 600 } },
      },
      lockstepPorts({}, counted),
      () => {},
      (message) => {
        if (message.type === 'verdict') tell(n, 'trial', message.verdict.trial);
      },
    );
    const { live } = core;
    const entries = live.loaded?.entries ?? [];
    tell(n, 'ready', {
      trials: entries.flatMap(({ done }) => done.map(({ row }) => row.id)),
      notes: entries.map(({ entry }) => entry.notes),
      unfinished: (await live.lab.store.captures.list({ state: 'running' })).length,
    });
    let safe = 0;
    setInterval(() => {
      const { runtime } = [...live.rigs.values()][0] ?? {};
      const samples = runtime?.journal.confirmed().samples ?? 0;
      if (runtime !== undefined && samples > safe) {
        safe = samples;
        tell(n, 'safe', [runtime.journal.capture, safe]);
      }
      if (live.loaded?.entries.every(({ remaining }) => remaining.length === 0)) tell(n, 'done');
    }, 4);
    // Somebody writes into the running order meanwhile.
    const first = entries[0]?.entry;
    for (let note = Number(first?.notes || 0) + 1; first !== undefined; note++) {
      await new Promise((done) => setTimeout(done, 150));
      await changeEntry(live, first.id, { notes: String(note), by: 'Rowan' });
      tell(n, 'note', note);
    }
  }),
);
