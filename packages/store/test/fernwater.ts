import { have, lack, type Method, type TrialResult, type UtcInstant, type Verdict } from '@sthene/core';
import type {
  Actor,
  NewPerson,
  Person,
  Repositories,
  Session,
  StoredMethod,
  StoredRecording,
  Trial,
} from '../src/index.ts';
import { coach } from './engines.ts';

/** Invented people of the invented rowing club Fernwater. */
export const imre: NewPerson = { code: 'FW-01', givenName: 'Imre', familyName: 'Oakes', sex: 'male' };
export const tamsin: NewPerson = { code: 'FW-02', givenName: 'Tamsin', familyName: 'Ålund', birthDate: '2004-02-29' };

/** A method document; its numbers matter to no test here. */
export const method: Method = {
  schema: 'sthene.method/1',
  name: 'fernwater',
  version: 1,
  summary: 'How the club analyses its pulls.',
  onset: { rule: 'five-sd', version: 1 },
  window: { baseline: 1, anchor: 0.5, search: 3, clearance: 0.1 },
  metrics: { peak_force: 1 },
  checks: {},
  set: { summary: 'mean-all', agreement: 250, closesAfter: 5 },
  allometricExponent: 0.67,
};

/** Hashes of methods as a caller gives them; the store only checks their form. */
export const methodHash = 'a1'.repeat(32);
export const otherMethodHash = 'b2'.repeat(32);

/** A result with a given peak force (N), or without one. */
export function resultOf(peakForce: number | undefined, verdict: Verdict = 'counts', sha256 = methodHash): TrialResult {
  return {
    test: 'imtp',
    testVersion: 1,
    method: { name: method.name, version: method.version, sha256 },
    sampleRate: 1000,
    span: { start: 0, end: 5000 },
    onset: lack('no-effort'),
    bodyWeight: have({ value: 784.532, unit: 'N', from: 'weighing' }),
    gravity: 9.80665,
    metrics: {
      peak_force: peakForce === undefined ? { reason: 'no-effort' } : { value: peakForce, unit: 'N', evidence: {} },
    },
    checks: {},
    spread: {},
    onsets: {},
    verdict,
  };
}

export const versions = { metrics: { peak_force: 1 }, checks: {} };

/** A file of a few bytes that stands for a recording. */
export const fileOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** One person with one session of one maximal trial, all kept. */
export async function oneTrial(
  store: Repositories,
  actor: Actor = coach,
): Promise<{ person: Person; session: Session; trial: Trial; recording: StoredRecording; method: StoredMethod }> {
  const person = await store.people.add(imre, actor);
  const session = await store.sessions.add(sessionOf(person.id), actor);
  const { recording } = await store.recordings.add(recordingOf('time,force\n0,1\n'), actor);
  const trial = await store.trials.add(
    { session: session.id, effort: 'maximal', recording: recording.sha256, span: { start: 0, end: 5000 } },
    actor,
  );
  return { person, session, trial, recording, method: await store.methods.add(methodHash, method, actor) };
}

export function sessionOf(person: string, startedAt = '2026-03-02T07:30:00.000Z') {
  return {
    person,
    protocol: { id: 'imtp', version: 1 },
    startedAt: startedAt as UtcInstant,
    gravity: 9.80665,
  };
}

export function recordingOf(text: string, fileName = 'pull.csv') {
  return {
    bytes: fileOf(text),
    fileName,
    mediaType: 'text/csv',
    format: 'text',
    sampleRate: 1000,
    sampleCount: 5000,
  };
}
