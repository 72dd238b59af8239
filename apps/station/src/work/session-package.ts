import { application } from '@sthene/contract';
import { resultRowsOf, writeDataPackageZip } from '@sthene/formats';
import type { OpenLab } from '../labs/open-lab.ts';
import { problems } from '../server/problem-error.ts';
import { readRecording } from './read-recording.ts';

/**
 * Curves and results of a session as one Data Package. People are named by their code alone, and what recordings say in
 * free text stays behind; the time of the session is not told either.
 */
export async function sessionPackage(lab: OpenLab, id: string): Promise<Buffer> {
  return sessionsPackage(lab, [id]);
}

/** As `sessionPackage`, of several sessions; their curves are named `session-1-trial-1` and on. */
export async function sessionsPackage(lab: OpenLab, ids: readonly string[]): Promise<Buffer> {
  const recordings = [];
  const results = [];
  const titles = [];
  for (const [i, id] of ids.entries()) {
    const session = await lab.store.sessions.get(id);
    const person = session && (await lab.store.people.get(session.person));
    if (session === undefined || person === undefined) throw problems.notFound('session');
    titles.push(`${session.protocol.id}, ${person.code}`);
    for (const trial of await lab.store.trials.ofSession(id)) {
      const name = ids.length === 1 ? `trial-${trial.position}` : `session-${i + 1}-trial-${trial.position}`;
      if (trial.recording !== undefined)
        recordings.push({
          name,
          recording: await readRecording(lab, trial.recording, trial.recordingLabel ?? '', trial.reading ?? {}),
        });
      const result = await lab.store.results.current(trial.id);
      if (result !== undefined) results.push(...resultRowsOf(name, result.document));
    }
  }
  const [only] = titles;
  const zip = await writeDataPackageZip({
    info: {
      name: ids.length === 1 ? 'sthene-session' : 'sthene-sessions',
      title: titles.length === 1 && only !== undefined ? only : `${titles.length} sessions`,
      description: `Made by ${application}. Curves as received, results under the newest method of each trial.`,
    },
    recordings,
    results,
  });
  return Buffer.from(zip.buffer, zip.byteOffset, zip.byteLength);
}
