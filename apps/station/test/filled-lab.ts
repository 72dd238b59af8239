import { application } from '@sthene/contract';
import {
  defaultMethod,
  type ForceSelection,
  firstVersion,
  forcesOf,
  methodReference,
  protocolReference,
  recordingOf,
  simulatePull,
  type UtcInstant,
  usualProtocol,
} from '@sthene/core';
import { formatOf } from '@sthene/formats';
import { Labs } from '../src/labs/labs.ts';
import { type OpenLab, stationActor } from '../src/labs/open-lab.ts';
import { analyseTrial, versionsOf } from '../src/work/analyse-trial.ts';
import { decide } from '../src/work/decide.ts';

const twoPlates: ForceSelection = {
  inputs: [
    { from: { kind: 'channel', index: 0 }, part: 'left' },
    { from: { kind: 'channel', index: 1 }, part: 'right' },
  ],
};

/** Opens the lab of a data folder, does something with it, and closes it. */
export async function withLab<T>(folder: string, act: (lab: OpenLab) => Promise<T>): Promise<T> {
  const labs = new Labs({ data: folder, application });
  try {
    return await act(await labs.create('lab', 'Boathouse'));
  } finally {
    await labs.close();
  }
}

/**
 * A lab of a few simulated pulls, as an import would have made them: sessions of three, every other one run by a protocol of the lab
 * that leaves a check out; the first onset was placed by hand, the second trial was excluded, one pull had a dip.
 */
export async function fillSmallLab(lab: OpenLab, sessions: number): Promise<string[]> {
  const { store } = lab;
  const native = formatOf('parquet');
  if (native?.write === undefined) throw new Error('the native format is not listed');
  await store.methods.add(methodReference(defaultMethod).sha256, defaultMethod, stationActor);
  const own = firstVersion({ ...usualProtocol('imtp'), name: 'Boathouse', checks: { spike: { use: false } } });
  const { sha256 } = protocolReference(own);
  await store.protocols.create(sha256, own, stationActor);
  const trials: string[] = [];
  for (let n = 0; n < sessions; n++) {
    const code = `FW0${1 + (n % 3)}`;
    const person =
      (await store.people.byCode(code)) ??
      (await store.people.add(
        { code, givenName: ['Wren', 'Heron', 'Otter'][n % 3] as string, familyName: 'Alder' },
        stationActor,
      ));
    const session = await store.sessions.add(
      {
        person: person.id,
        protocol: { id: 'imtp', version: 1, ...(n % 2 === 1 ? { sha256 } : {}) },
        startedAt: `2026-0${1 + Math.floor(n / 9)}-1${n % 9}T09:00:00.000Z` as UtcInstant,
        gravity: lab.gravity,
      },
      stationActor,
    );
    for (let i = 0; i < 3; i++) {
      const seed = 100 * n + i;
      const pull = simulatePull(seed === 2 ? { fault: 'dip' } : {}, seed);
      const recording = recordingOf(pull);
      const { sampleRate, sampleCount } = recording;
      const file = { fileName: `${code}-${n}-${i}.parquet`, mediaType: native.mediaType, format: native.id };
      const bytes = await native.write(recording);
      const kept = await store.recordings.add({ ...file, bytes, sampleRate, sampleCount }, stationActor);
      const trial = await store.trials.add(
        { session: session.id, effort: 'maximal', recording: kept.recording.sha256, forceSelection: twoPlates },
        stationActor,
      );
      const forces = forcesOf(recording, twoPlates);
      if (!forces.ok) throw new Error(forces.reason);
      const document = await analyseTrial(lab, forces.value, trial, session, defaultMethod);
      await store.results.add({ trial: trial.id, document, versions: versionsOf(document) }, stationActor);
      trials.push(trial.id);
    }
  }
  const [first = '', second = ''] = trials;
  const onset = (await store.results.current(first))?.document.onset;
  const index = onset?.ok ? onset.value.index + 40 : 0;
  await decide(lab, first, { kind: 'onset-by-hand', index, reason: 'Late by eye.', by: 'Rowan' });
  await decide(lab, second, { kind: 'exclude', category: 'other', reason: 'Slipped.', by: 'Rowan' });
  return trials;
}
