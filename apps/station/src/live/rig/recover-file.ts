import { resolve } from 'node:path';
import type { Packet, SourceDescription } from '@sthene/capture';
import type { Capture } from '@sthene/store';
import { stationActor } from '../../labs/open-lab.ts';
import { useMethod } from '../../work/methods.ts';
import type { LoadedEntry } from '../day/loaded.ts';
import { chooseNext } from '../day/order.ts';
import { recipesOf } from '../day/plan.ts';
import { candidatesOf } from '../day/view.ts';
import type { LiveLab } from '../live-lab.ts';
import type { RecoveredCapture } from '../ports.ts';
import { fileTrial } from './file-trial.ts';
import { fileTurnLabel } from './inputs.ts';
import { keepTrial } from './keep-trial.ts';
import { historyOf } from './turn-plan.ts';

/**
 * A file of a watched folder that a kill cut off on its way: it is kept for whose turn it was, from the journal where that holds it
 * to its end, else from the file itself, which still lies in its folder.
 *
 * @returns what became of it, in words; undefined when the capture is of no file
 */
export async function recoverFile(
  live: LiveLab,
  capture: Capture,
  journal: RecoveredCapture | undefined,
): Promise<string | undefined> {
  const { store } = live.lab;
  const rig = await store.rigs.get(capture.rig);
  const source = rig && (await store.sources.get(rig.sources[0] ?? ''));
  const description = source?.description as SourceDescription | undefined;
  if (description?.transport.kind !== 'folder') return undefined;
  if (journal === undefined) return 'The station stopped before a file was begun.';
  const journalled: Packet[] = [];
  for await (const packet of journal.packets()) journalled.push(packet);
  const header = journalled.find((one) => one.kind === 'header');
  const name = (header?.kind === 'header' && header.device) || 'a file';
  if ((await store.origins.ofCapture(capture.id)).length > 0) return `"${name}" had been kept.`;
  const whole = journalled.some(({ kind }) => kind === 'end');
  const packets = whole ? journalled : await readAgain(live, description, resolve(description.transport.path, name));
  if (packets === undefined) return `"${name}" was cut off and cannot be read again. Import it, if you still have it.`;
  await live.refresh();
  const entry = entryOf(live, capture, journalled);
  if (entry === undefined) return `"${name}" was cut off, and nobody is left on the running order. Import it.`;
  const recipes = recipesOf((await useMethod(live.lab)).method, entry.plan);
  const about = { ...recipes, number: entry.done.length + 1, gravity: live.lab.gravity, clock: live.ports.clock };
  const history = await historyOf(live.lab, entry.person.id, entry.entry.test);
  const trial = fileTrial(packets, { entry, kind: entry.remaining[0]?.kind ?? 'maximal', history }, about);
  await keepTrial(live.lab, { ...trial, capture: capture.id, rig: capture.rig, entry: entry.entry }, stationActor);
  return `"${name}" was cut off by the stop. It was kept now, ${whole ? 'from the journal' : 'from its folder'}.`;
}

/** Whose turn it was, as the journal says; else whoever is next. */
function entryOf(live: LiveLab, capture: Capture, journalled: readonly Packet[]): LoadedEntry | undefined {
  const { loaded } = live;
  if (loaded === undefined || loaded.day.id !== capture.day) return undefined;
  const mark = journalled.find((one) => one.kind === 'mark' && one.label === fileTurnLabel);
  const told = mark?.kind === 'mark' ? (mark.data as { readonly person?: string; readonly test?: string }) : undefined;
  const own = loaded.entries.find(
    ({ entry }) => told !== undefined && entry.person === told.person && entry.test === told.test,
  );
  if (own !== undefined) return own;
  const [choice] = chooseNext(
    [capture.rig],
    candidatesOf(loaded, live.views.moment()),
    live.now,
    loaded.settings.battery,
  );
  return loaded.entries.find(({ entry }) => entry.id === choice?.entry);
}

async function readAgain(
  live: LiveLab,
  description: SourceDescription,
  file: string,
): Promise<readonly Packet[] | undefined> {
  const packets: Packet[] = [];
  const replayed = { ...description, transport: { kind: 'replay' as const, file, speed: 0 } };
  const source = live.ports.createSource('recovery', [replayed]) as ReturnType<typeof live.ports.createSource> & {
    readonly done?: Promise<void>;
  };
  try {
    const ended = new Promise<void>((done) => {
      void source.start((packet) => {
        packets.push(packet);
        if (packet.kind === 'end' || (packet.kind === 'status' && packet.state === 'lost')) done();
      });
    });
    await ended;
    await source.stop();
  } catch {
    return undefined;
  }
  return packets.some(({ kind }) => kind === 'end') && packets.some(({ kind }) => kind === 'samples')
    ? packets
    : undefined;
}
