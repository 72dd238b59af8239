import {
  defaultMethod,
  type FernwaterJumpSession,
  type FernwaterPerson,
  type FernwaterSession,
  type ForceSelection,
  fernwater,
  fernwaterJumpRecording,
  fernwaterRecording,
  forcesOf,
  methodReference,
  protocolRegistry,
  type Recording,
  type TrialResult,
} from '@sthene/core';
import { formatOf } from '@sthene/formats';
import type { Actor } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { stationActor } from '../labs/open-lab.ts';
import { analyseTrial, versionsOf } from '../work/analyse-trial.ts';
import { addExampleChecks } from './example-checks.ts';

/** Sessions made so far, and how many there will be. */
export interface BuildProgress {
  readonly done: number;
  readonly total: number;
}

/**
 * Fills the example lab with Fernwater: people, squads and every session of pulls and jumps, each recording written and analysed as an imported
 * one would be. A session that is there already is left alone, so a start that was cut off is finished by the next one.
 */
export async function buildExample(lab: OpenLab, report: (progress: BuildProgress) => void): Promise<void> {
  const example = fernwater();
  const { sha256 } = methodReference(defaultMethod);
  await lab.store.methods.add(sha256, defaultMethod, stationActor);
  await addExampleChecks(lab);
  const people = await addPeople(lab, example);
  const made = await sessionsMade(lab);
  let done = 0;
  const total = example.sessions.length + example.jumps.length;
  for (const session of [...example.sessions.map(ofPulls), ...example.jumps.map(ofJumps)]) {
    report({ done, total });
    done += 1;
    const person = people.get(session.person) as string;
    if (made.has(keyOf(person, session.startedAt, session.protocol))) continue;
    await addSession(lab, session, person);
  }
}

const keyOf = (person: string, startedAt: string, protocol: string) => `${person} ${startedAt} ${protocol}`;

/** Sessions of an earlier start that was cut off. */
async function sessionsMade(lab: OpenLab): Promise<Set<string>> {
  const made = new Set<string>();
  let after: string | undefined;
  do {
    const page = await lab.store.sessions.list({ limit: 500, ...(after === undefined ? {} : { after }) });
    for (const { session } of page.items) made.add(keyOf(session.person, session.startedAt, session.protocol.id));
    after = page.next;
  } while (after !== undefined);
  return made;
}

async function addPeople(lab: OpenLab, example: ReturnType<typeof fernwater>): Promise<Map<string, string>> {
  const ids = new Map<string, string>();
  for (const [i, person] of example.people.entries()) {
    const code = `FW${String(i + 1).padStart(2, '0')}`;
    const kept =
      (await lab.store.people.byCode(code)) ??
      (await lab.store.people.add(
        {
          code,
          givenName: person.givenName,
          familyName: person.familyName,
          birthDate: `${person.birthYear}-01-01`,
          sex: person.sex,
          notes: 'Invented for the example; the day of birth is not meant.',
        },
        stationActor,
      ));
    ids.set(person.id, kept.id);
    await addPapers(lab, kept.id, person.injury !== undefined);
    await addNotes(lab, kept.id, person, i);
  }
  const squads = new Set((await lab.store.squads.list()).map((squad) => squad.name));
  for (const squad of example.squads) {
    if (squads.has(squad.name)) continue;
    const members = example.people
      .filter((person) => person.squad === squad.id)
      .map((person) => ids.get(person.id) as string);
    await lab.store.squads.add({ name: squad.name, members }, stationActor);
  }
  return ids;
}

/** Health screening on record for everybody; whoever was hurt is cleared for submaximal efforts only, until somebody lifts it. */
async function addPapers(lab: OpenLab, person: string, hurt: boolean): Promise<void> {
  if ((await lab.store.gates.ofPerson(person)).length > 0) return;
  const paper = { person, granted: true, limb: 'both', from: '2024-09-01' } as const;
  await lab.store.gates.add({ ...paper, kind: 'screening', note: 'Invented for the example.' }, stationActor);
  if (hurt)
    await lab.store.gates.add(
      { ...paper, kind: 'submaximal-only', note: 'Invented: left knee, until the doctor agrees.' },
      stationActor,
    );
}

/** What the club wrote down of its people: places in the boat, an injury as it was told, a target. */
async function addNotes(lab: OpenLab, person: string, { injury }: FernwaterPerson, i: number): Promise<void> {
  if ((await lab.store.notes.list({ person })).length > 0) return;
  const side = i % 2 === 0 ? 'Stroke side' : 'Bow side';
  await lab.store.notes.add({ person, kind: 'position', from: '2023-09-01', text: side }, stationActor);
  if (i === 0)
    await lab.store.notes.add(
      {
        ...{
          person,
          kind: 'target',
          from: '2025-09-01',
          until: '2026-09-01',
          text: 'Invented: for the autumn head races.',
        },
        ...{ test: 'imtp', target: { metric: 'peak_force', value: 3900, unit: 'N' } },
      },
      stationActor,
    );
  if (injury !== undefined)
    await lab.store.notes.add(
      { person, kind: 'injury', from: '2025-03-03', limb: 'left', text: 'Invented: left knee, told by the athlete.' },
      stationActor,
    );
}

/** A session of either kind, as it is kept. */
interface ExampleSession extends Pick<FernwaterSession, 'id' | 'person' | 'protocol' | 'startedAt' | 'setup'> {
  /** N; each jump weighs its own quiet second. */
  readonly bodyWeight?: number;
  readonly trials: readonly {
    readonly order: number;
    readonly effort: 'maximal' | 'submaximal';
    readonly recording: () => Recording;
  }[];
}

const ofPulls = (session: FernwaterSession): ExampleSession => ({
  ...session,
  trials: session.trials.map((trial) => ({ ...trial, recording: () => fernwaterRecording(trial) })),
});

const ofJumps = (session: FernwaterJumpSession): ExampleSession => ({
  ...session,
  trials: session.trials.map((trial) => ({ ...trial, recording: () => fernwaterJumpRecording(trial) })),
});

async function addSession(lab: OpenLab, session: ExampleSession, person: string): Promise<void> {
  const native = formatOf('parquet');
  if (native?.write === undefined) throw new Error('the native format is not listed');
  const protocol = protocolRegistry.get(session.protocol);
  if (protocol === undefined) throw new Error(`the example uses a test that does not exist: ${session.protocol}`);
  const actor: Actor = { ...stationActor, by: 'station' };
  const weight =
    session.bodyWeight === undefined ? {} : { bodyWeight: { value: session.bodyWeight, from: 'weighing' as const } };
  // files and computation first: writers wait while a transaction is open
  const prepared: { trial: ExampleSession['trials'][number]; recording: string; document: TrialResult }[] = [];
  for (const trial of session.trials) {
    const recording = trial.recording();
    const bytes = await native.write(recording);
    const forces = forcesOf(recording, twoPlates);
    if (!forces.ok) throw new Error(`the example made a recording without forces: ${forces.reason}`);
    const kept = await lab.store.recordings.add(
      {
        bytes,
        fileName: `${session.id}-${trial.order}.parquet`,
        mediaType: native.mediaType,
        format: native.id,
        sampleRate: recording.sampleRate,
        sampleCount: recording.sampleCount,
      },
      actor,
    );
    const document = await analyseTrial(
      lab,
      forces.value,
      {},
      {
        protocol: { id: protocol.id, version: protocol.version },
        ...weight,
        gravity: lab.gravity,
        setup: session.setup,
      },
      defaultMethod,
    );
    prepared.push({ trial, recording: kept.recording.sha256, document });
  }
  await lab.store.transaction(async (inside) => {
    const { id } = await inside.sessions.add(
      {
        person,
        protocol: { id: protocol.id, version: protocol.version },
        startedAt: session.startedAt,
        ...weight,
        gravity: lab.gravity,
        setup: session.setup,
        rig: 'fernwater-a',
      },
      actor,
    );
    for (const one of prepared) {
      const trial = await inside.trials.add(
        { session: id, effort: one.trial.effort, recording: one.recording, forceSelection: twoPlates },
        actor,
      );
      await inside.results.add({ trial: trial.id, document: one.document, versions: versionsOf(one.document) }, actor);
    }
  });
}

const twoPlates: ForceSelection = {
  inputs: [
    { from: { kind: 'channel', index: 0 }, part: 'left' },
    { from: { kind: 'channel', index: 1 }, part: 'right' },
  ],
};
