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
  const session = await lab.store.sessions.get(id);
  const person = session && (await lab.store.people.get(session.person));
  if (session === undefined || person === undefined) throw problems.notFound('session');
  const recordings = [];
  const results = [];
  for (const trial of await lab.store.trials.ofSession(id)) {
    const name = `trial-${trial.position}`;
    if (trial.recording !== undefined)
      recordings.push({
        name,
        recording: await readRecording(lab, trial.recording, trial.recordingLabel ?? '', trial.reading ?? {}),
      });
    const result = await lab.store.results.current(trial.id);
    if (result !== undefined) results.push(...resultRowsOf(name, result.document));
  }
  const zip = await writeDataPackageZip({
    info: {
      name: 'sthene-session',
      title: `${session.protocol.id}, ${person.code}`,
      description: `Made by ${application}. Curves as received, results under the newest method of each trial.`,
    },
    recordings,
    results,
  });
  return Buffer.from(zip.buffer, zip.byteOffset, zip.byteLength);
}
