import { join } from 'node:path';
import type { SourceDescription } from '@sthene/capture';
import { calibrationFact, recordingOfSpan } from '@sthene/capture';
import type {
  keepRecent as keepRecentSchema,
  keptRecent,
  RigView,
  rigDraft,
  StoredSourceView,
  sourceDescription,
} from '@sthene/contract';
import type { UtcInstant } from '@sthene/core';
import { formatOf } from '@sthene/formats';
import { type Rig, type StoredSource, StoreError } from '@sthene/store';
import type { z } from 'zod';
import { stationActor } from '../../labs/open-lab.ts';
import { ProblemError, problems } from '../../server/problem-error.ts';
import { stillCurrent, useMethod } from '../../work/methods.ts';
import { planFor, type RunPlan, recipesOf, runPlan, testOf } from '../day/plan.ts';
import type { LiveLab } from '../live-lab.ts';
import { scriptsOf } from '../practice/virtual-athletes.ts';
import { correctionInForce } from '../rig-check/standing.ts';
import { checkSource } from './check-source.ts';
import type { RigJournal } from './journal.ts';
import type { JournalWord } from './open-journal.ts';
import { RigRuntime } from './rig-runtime.ts';
import { rigView } from './rig-view.ts';
import { warmUp } from './warm-up.ts';

/** Where journals of a lab lie, inside its folder. */
export const journalFolder = 'journal';

const shown = (source: StoredSource): StoredSourceView => ({
  id: source.id,
  revision: source.revision,
  name: source.name,
  description: source.description as StoredSourceView['description'],
});

export async function listSources({ lab }: LiveLab): Promise<StoredSourceView[]> {
  return (await lab.store.sources.list()).filter(({ active }) => active).map(shown);
}

export async function createSource(
  { lab }: LiveLab,
  description: z.infer<typeof sourceDescription>,
  by: string,
): Promise<StoredSourceView> {
  refuseFaulty(description);
  return shown(await orTaken(lab.store.sources.add({ name: description.name, description }, await lab.actor(by))));
}

export async function changeSource(
  live: LiveLab,
  id: string,
  description: z.infer<typeof sourceDescription>,
  by: string,
): Promise<StoredSourceView> {
  const { lab } = live;
  refuseFaulty(description);
  if ((await lab.store.sources.get(id)) === undefined) throw problems.notFound('source');
  const used = [...live.rigs.values()].find(({ sources }) => sources.some((one) => one.id === id));
  if (used !== undefined) throw rigIsOpen(used.record.name);
  const changed = lab.store.sources.change(id, { name: description.name, description }, await lab.actor(by));
  return shown(await orTaken(changed));
}

/** Names and matrices must fit together before a description is kept: what is kept can be opened. */
function refuseFaulty(description: unknown): void {
  const { faults } = checkSource(description);
  const [first] = faults;
  if (first === undefined) return;
  throw new ProblemError(
    422,
    first.code,
    faults.map(({ path, words }) => `${path || 'file'}: ${words}`).join(' '),
    first.next,
  );
}

async function orTaken<T>(writing: Promise<T>): Promise<T> {
  try {
    return await writing;
  } catch (error) {
    if (error instanceof StoreError && error.code === 'already-there')
      throw new ProblemError(409, 'name-taken', 'Something else has this name.', 'Choose another name.');
    throw error;
  }
}

export async function listRigs(live: LiveLab): Promise<RigView[]> {
  const rigs = (await live.lab.store.rigs.list()).filter(({ active }) => active);
  return Promise.all(rigs.map((rig) => viewOf(live, rig)));
}

export async function showRig(live: LiveLab, id: string): Promise<RigView> {
  return viewOf(live, await rigOf(live, id));
}

async function rigOf({ lab }: LiveLab, id: string): Promise<Rig> {
  const rig = await lab.store.rigs.get(id);
  if (rig === undefined) throw problems.notFound('rig');
  return rig;
}

async function sourcesOf({ lab }: LiveLab, rig: Pick<Rig, 'sources'>): Promise<StoredSource[]> {
  const found = await Promise.all(rig.sources.map((id) => lab.store.sources.get(id)));
  return found.map((source) => {
    if (source === undefined) throw problems.notFound('source');
    return source;
  });
}

async function viewOf(live: LiveLab, rig: Rig): Promise<RigView> {
  const open = live.rigs.get(rig.id);
  if (open !== undefined) return live.views.rigView(open);
  return rigView(rig, undefined, await sourcesOf(live, rig), live.ports.clock, await live.loadCheck(rig.id));
}

type Draft = z.infer<typeof rigDraft> & { readonly by: string };

export async function createRig(live: LiveLab, { by, ...draft }: Draft): Promise<RigView> {
  await sourcesOf(live, draft);
  await refuseTakenLetter(live, draft.letter);
  return viewOf(live, await orTaken(live.lab.store.rigs.add(draft, await live.lab.actor(by))));
}

export async function changeRig(live: LiveLab, id: string, { by, ...draft }: Draft): Promise<RigView> {
  const rig = await rigOf(live, id);
  if (live.rigs.has(id)) throw rigIsOpen(rig.name);
  await sourcesOf(live, draft);
  await refuseTakenLetter(live, draft.letter, id);
  return viewOf(live, await orTaken(live.lab.store.rigs.change(id, draft, await live.lab.actor(by))));
}

async function refuseTakenLetter({ lab }: LiveLab, letter: string, except?: string): Promise<void> {
  const taken = (await lab.store.rigs.list()).some((rig) => rig.active && rig.letter === letter && rig.id !== except);
  if (taken)
    throw new ProblemError(409, 'letter-taken', `Another rig has the letter ${letter}.`, 'Choose another letter.');
}

const rigIsOpen = (name: string) =>
  new ProblemError(409, 'rig-is-open', `The rig "${name}" is open.`, 'Close it, then change it.');

/** Starts the sources of a rig and its journal; a rig that is open stays as it is. */
export async function openRig(live: LiveLab, id: string): Promise<RigView> {
  const there = live.rigs.get(id);
  if (there !== undefined) return live.views.rigView(there);
  const record = await rigOf(live, id);
  const sources = await sourcesOf(live, record);
  const { lab, ports } = live;
  const day = live.loaded;
  const { method, sha256 } = await useMethod(lab);
  const plans: readonly RunPlan[] = day?.plans ?? [await runPlan(lab, await planFor(lab, 'imtp'))];
  const descriptions = sources.map(({ description }) => description as SourceDescription);
  const virtual = descriptions.some(({ transport }) => transport.kind === 'virtual');
  const scripts = virtual ? await scriptsOf(live) : undefined;
  const newJournal = (): RigJournal => {
    const journal = ports.openJournal(join(lab.folder, journalFolder), {
      opened: (name) =>
        void live.enqueue('The start of a capture', async () => {
          await lab.store.captures.change(journal.capture, { journals: [`${journalFolder}/${name}`] }, stationActor);
        }),
      tell: (status) => tellOf(live, id, status),
    });
    void live.enqueue('The start of a capture', async () => {
      await lab.store.captures.add(
        {
          id: journal.capture,
          rig: id,
          ...(day === undefined ? {} : { day: day.day.id }),
          startedAt: ports.clock.wall(),
          journals: [],
        },
        stationActor,
      );
    });
    return journal;
  };
  await live.loadCheck(id);
  const correction = await correctionInForce(lab, id);
  const runtime = new RigRuntime({
    id,
    ...(correction === undefined ? {} : { correction }),
    source: ports.createSource(id, descriptions, scripts),
    newJournal,
    files: descriptions.some(({ transport }) => transport.kind === 'folder'),
    clock: ports.clock,
    gravity: lab.gravity,
    mode: day?.settings.handsFree === true ? 'hands-free' : 'guided',
    tests: plans.map((plan) => ({ plan, ...recipesOf(method, plan) })),
    listener: live,
  });
  const open = { record, sources, runtime };
  live.rigs.set(id, open);
  live.start();
  const [first] = plans;
  if (first !== undefined) void warmUp(testOf(first), recipesOf(method, first));
  try {
    // From here on no method can be adopted; one that was adopted a moment ago is found.
    await live.enqueue('The start of a capture', async () => {});
    await stillCurrent(lab.store, sha256);
    await runtime.start();
  } catch (error) {
    live.rigs.delete(id);
    await runtime.journal.close();
    await live.enqueue('The end of a capture', () => ended(live, runtime));
    if (error instanceof ProblemError) throw error;
    throw new ProblemError(
      422,
      'source-not-opened',
      `The source of the rig "${record.name}" could not be opened: ${error instanceof Error ? error.message : String(error)}`,
      'Check cable, address and description, then open the rig again.',
    );
  }
  await live.outlets.opened(runtime);
  live.changed(runtime);
  live.tellFloor(id);
  return live.views.rigView(open);
}

/** Stops a rig; refused while an effort is under way. */
export async function closeRig(live: LiveLab, id: string): Promise<RigView> {
  const open = live.rigs.get(id);
  if (open === undefined) return showRig(live, id);
  if (live.effortUnderWay(id))
    throw new ProblemError(
      409,
      'effort-under-way',
      'An effort is under way on this rig.',
      'Wait for its end, or stop it.',
    );
  if (live.turns.has(id)) live.order(open.runtime, { order: 'end-turn' });
  await open.runtime.stop();
  await live.outlets.closed(id);
  // Screens that show it must not take what they saw last for what is.
  live.changed(open.runtime);
  await live.enqueue('The end of a capture', () => ended(live, open.runtime));
  live.rigs.delete(id);
  live.forgetRig(id);
  return showRig(live, id);
}

async function ended({ lab, ports, efforts }: LiveLab, runtime: RigRuntime): Promise<void> {
  // On record as still running, the next start runs its journal again and keeps what could not be kept.
  if (efforts.hasUnkept(runtime.journal.capture)) return;
  // Each file of a watched folder has ended its own capture.
  if (runtime.files && (await lab.store.captures.get(runtime.journal.capture))?.state !== 'running') return;
  const { samples, missing } = runtime.stream.counts;
  await lab.store.captures.change(
    runtime.journal.capture,
    { state: 'closed', endedAt: ports.clock.wall(), samples, missing },
    stationActor,
  );
}

/** Keeps the last seconds of a rig as a recording of its own. */
export async function keepRecent(
  live: LiveLab,
  id: string,
  wanted: z.infer<typeof keepRecentSchema>,
): Promise<z.infer<typeof keptRecent>> {
  const runtime = live.rigs.get(id)?.runtime;
  const recent = runtime?.stream.recent;
  if (runtime === undefined || recent === undefined || recent.next === recent.oldest)
    throw new ProblemError(409, 'nothing-recent', 'This rig has sent nothing yet.', 'Open it and wait for samples.');
  const native = formatOf('parquet');
  if (native?.write === undefined) throw new Error('the native format is not listed');
  const end = recent.next;
  const { header } = recent;
  const { rate } = runtime.stream;
  const start = Math.max(recent.oldest, end - Math.round(wanted.seconds * rate));
  const wall = Date.parse(live.ports.clock.wall());
  const recording = {
    ...recordingOfSpan({
      sampleRate: rate,
      channels: header.channels,
      raw: header.channels.map((_, c) => recent.copy(c, start, end)),
    }),
    recordedAt: new Date(wall - (1000 * (end - start)) / rate).toISOString() as UtcInstant,
    facts: {
      capture: runtime.journal.capture,
      rig: id,
      firstSample: String(start),
      ...calibrationFact(header.channels),
    },
  };
  const fileName = `${runtime.journal.capture}-${start}.parquet`;
  const { recording: kept } = await live.lab.store.recordings.add(
    {
      bytes: await native.write(recording),
      fileName,
      mediaType: native.mediaType,
      format: native.id,
      sampleRate: rate,
      sampleCount: end - start,
    },
    await live.lab.actor(wanted.by),
  );
  return { sha256: kept.sha256, fileName, samples: end - start, seconds: (end - start) / rate };
}

/** A station that stood still for less, s, has mostly lost nothing: the mark in the journal is enough. */
const worthSaying = 1;

/** What the journal says of itself. */
function tellOf(live: LiveLab, rig: string, status: JournalWord): void {
  const stood = status.code === 'station-stood-still';
  if (stood && Number(status.details?.seconds) < worthSaying) return;
  const next = stood ? 'Close what else runs on this computer.' : 'Look at the rig and at the disk.';
  const { severity, code, words } = status;
  live.raise({ severity, code, words, next, rig });
}
