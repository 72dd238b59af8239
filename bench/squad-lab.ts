import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { defaultMethod, lack, methodReference, seededRandom, type TrialResult, type UtcInstant } from '@sthene/core';
import { type Actor, folderFileStore, openStore } from '@sthene/store';

const actor: Actor = { by: 'bench', station: 'bench' };
/** Sessions of a season and trials of a session. */
const ofSeason = 3;
const trialsOfSession = 2;

/** How large the lab is. */
export interface LabSize {
  readonly athletes: number;
  readonly seasons: number;
}

/**
 * Fills the lab of a data folder with athletes of known levels, trends and errors: sessions and results as the station keeps them, without
 * curves, which no screen over many athletes reads. Results hold one metric each.
 *
 * @returns sessions and trials that were kept, and the one trial with a file, about which something may be decided
 */
export async function fillSquadLab(data: string, { athletes, seasons }: LabSize) {
  const folder = join(data, 'lab');
  mkdirSync(join(folder, 'recordings'), { recursive: true });
  let id = 0;
  const ids = { next: () => `bench-${++id}` };
  const store = await openStore({
    engine: { kind: 'sqlite', file: join(folder, 'sthene.sqlite') },
    files: folderFileStore({ folder, ids }),
    clock: { now: () => '2026-01-01T00:00:00.000Z' as UtcInstant },
    ids,
    application: 'bench',
  });
  const { sha256 } = methodReference(defaultMethod);
  await store.methods.add(sha256, defaultMethod, actor);
  await store.settings.set('lab.name', 'Bench', actor);
  const bytes = new TextEncoder().encode('time,force\n0,700\n');
  const file = { bytes, fileName: 'one.csv', mediaType: 'text/csv', format: 'text', sampleRate: 1000, sampleCount: 1 };
  const { recording } = await store.recordings.add(file, actor);
  const random = seededRandom(500, 0);
  const squads: string[][] = Array.from({ length: 20 }, () => []);
  let [sessions, trials, trial] = [0, 0, ''];
  for (let i = 0; i < athletes; i++) {
    const [level, trend] = [800 + 12 * random.gaussian(), 2 * random.gaussian()];
    await store.transaction(async (inside) => {
      const sex = i % 2 === 0 ? 'female' : 'male';
      const person = await inside.people.add(
        { code: `B${i}`, givenName: 'Athlete', familyName: `Number ${String(i).padStart(4, '0')}`, sex },
        actor,
      );
      squads[i % squads.length]?.push(person.id);
      for (let j = 0; j < seasons * ofSeason; j++) {
        const at = new Date(Date.UTC(2016, 0, 1 + 120 * j + (i % 60), 8)).toISOString() as UtcInstant;
        const session = await inside.sessions.add(
          {
            ...{ person: person.id, protocol: { id: 'imtp', version: 1 }, startedAt: at, gravity: 9.80665 },
            setup: { bar_height: 78, knee_angle: 138 },
          },
          actor,
        );
        const form = level + (trend * j) / ofSeason + 3 * random.gaussian();
        for (let k = 0; k < trialsOfSession; k++) {
          const ofFile = sessions === 0 && k === 0 ? { recording: recording.sha256 } : {};
          const added = await inside.trials.add({ session: session.id, effort: 'maximal', ...ofFile }, actor);
          const value = Math.exp((form + 2 * random.gaussian()) / 100);
          const versions = { metrics: { peak_force: 1 }, checks: {} };
          await inside.results.add({ trial: added.id, document: resultOf(value), versions }, actor);
          trials += 1;
          trial ||= added.id;
        }
        sessions += 1;
      }
    });
  }
  for (const [i, members] of squads.entries()) await store.squads.add({ name: `Squad ${i + 1}`, members }, actor);
  await store.close();
  return { sessions, trials, trial };
}

function resultOf(value: number): TrialResult {
  return {
    ...{ test: 'imtp', testVersion: 1, method: methodReference(defaultMethod), sampleRate: 1000 },
    span: { start: 0, end: 5000 },
    onset: lack('no-effort'),
    bodyWeight: lack('no-effort'),
    gravity: 9.80665,
    metrics: { peak_force: { value, unit: 'N', evidence: {} } },
    ...{ checks: {}, spread: {}, onsets: {}, verdict: 'counts' },
  };
}
