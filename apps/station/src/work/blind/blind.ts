import type { BlindReadingDraft, BlindResults, BlindStudy, BlindStudyDraft, BlindTask } from '@sthene/contract';
import { seededRandom } from '@sthene/core';
import type { BlindReading, BlindStudy as StoredStudy } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError, problems } from '../../server/problem-error.ts';
import { agreementOf, type Reading } from './agreement.ts';

/** Double readings, newest first. */
export async function listBlindStudies(lab: OpenLab): Promise<BlindStudy[]> {
  return Promise.all((await lab.store.blindStudies.list()).map((study) => answer(lab, study)));
}

/** Draws maximal efforts of a test at random, all verdicts alike: a sample of good ones only would flatter everybody. */
export async function createBlindStudy(lab: OpenLab, draft: BlindStudyDraft): Promise<BlindStudy> {
  const squad = (await lab.store.squads.list()).find(({ id }) => id === draft.squad);
  if (draft.squad !== undefined && squad === undefined) throw problems.notFound('squad');
  if (new Set(draft.readers.map((name) => name.trim().toLowerCase())).size < draft.readers.length)
    throw problems.invalid('Each reader needs a name of their own.');
  const points = await lab.store.results.history({ of: 'everyone', metric: 'peak_force', protocol: draft.test });
  const pool = points
    .filter(({ effort, person }) => effort === 'maximal' && (squad === undefined || squad.members.includes(person)))
    .map(({ trial }) => trial)
    .sort();
  if (pool.length < draft.trials)
    throw new ProblemError(
      422,
      'sample-too-small',
      `There are only ${pool.length} maximal efforts of this test.`,
      'Nothing was kept. Ask for fewer, or choose another test or squad.',
    );
  const study = await lab.store.blindStudies.add(
    { title: draft.title, readers: draft.readers, trials: drawn(pool, draft.trials, draft.seed) },
    await lab.actor(draft.by),
  );
  return answer(lab, study);
}

/** So many of a list in random order (Fisher and Yates). */
function drawn(pool: readonly string[], count: number, seed: number): string[] {
  const random = seededRandom(seed, 0);
  const left = [...pool];
  return Array.from({ length: count }, () => {
    const [one] = left.splice(Math.floor(random.uniform() * left.length), 1);
    return one as string;
  });
}

/** The next trial a reader has not read, each reader in an order of their own. */
export async function blindTask(lab: OpenLab, id: string, reader: number): Promise<BlindTask> {
  const study = await find(lab, id);
  if (study.readers[reader] === undefined) throw problems.notFound('reader');
  const read = new Set(
    (await lab.store.blindStudies.readings(id)).filter((one) => one.reader === reader).map(({ trial }) => trial),
  );
  const order = reader % 2 === 0 ? study.trials : study.trials.toReversed();
  const next = study.closed ? undefined : order.find((trial) => !read.has(trial));
  return {
    study: await answer(lab, study),
    reader,
    ...(next === undefined ? {} : { trial: { id: next, number: read.size + 1, of: study.trials.length } }),
  };
}

export async function readBlind(
  lab: OpenLab,
  id: string,
  { by, onset, ...reading }: BlindReadingDraft & { readonly by: string },
): Promise<BlindTask> {
  const study = await find(lab, id);
  if (study.closed)
    throw new ProblemError(
      409,
      'study-closed',
      'This study is closed.',
      'Its readings stay. Begin a new study to read more.',
    );
  await lab.store.blindStudies.read(
    { study: id, ...reading, ...(onset === undefined ? {} : { onset }) },
    await lab.actor(by),
  );
  return blindTask(lab, id, reading.reader);
}

/** Ends the reading; from now on everybody sees what was said. */
export async function closeBlindStudy(lab: OpenLab, id: string, by: string): Promise<BlindResults> {
  await find(lab, id);
  await lab.store.blindStudies.change(id, { closed: true }, await lab.actor(by));
  return blindResults(lab, id);
}

/** Readers against each other and against the method. Refused while somebody still reads. */
export async function blindResults(lab: OpenLab, id: string): Promise<BlindResults> {
  const study = await find(lab, id);
  if (!study.closed)
    throw new ProblemError(
      409,
      'study-open',
      'This study is still being read.',
      'Close it when both have read enough; whoever sees the comparison does not read blind any more.',
    );
  const readings = await lab.store.blindStudies.readings(id);
  const trials = await Promise.all(
    study.trials.map(async (trial) => {
      const result = await lab.store.results.current(trial);
      if (result === undefined) throw problems.notFound('result of a trial');
      const { onset, verdict, sampleRate } = result.document;
      return {
        ...{ id: trial, sampleRate },
        method: { ...(onset.ok ? { onset: onset.value.index } : {}), verdict },
        readings: study.readers.map((_, reader) => readingOf(readings, trial, reader)),
      };
    }),
  );
  const people = [...study.readers, 'method'];
  const said = (person: number): (Reading | undefined)[] =>
    trials.map(({ sampleRate, method, readings: own }) => {
      const one = person === study.readers.length ? method : own[person];
      return one === null || one === undefined ? undefined : { ...one, sampleRate };
    });
  return {
    study: await answer(lab, study),
    pairs: people.flatMap((first, i) =>
      people.slice(i + 1).map((second, j) => ({ first, second, ...agreementOf(said(i), said(i + 1 + j)) })),
    ),
    trials,
  };
}

function readingOf(readings: readonly BlindReading[], trial: string, reader: number) {
  const one = readings.find((reading) => reading.trial === trial && reading.reader === reader);
  return one === undefined ? null : { ...(one.onset === undefined ? {} : { onset: one.onset }), verdict: one.verdict };
}

async function find(lab: OpenLab, id: string): Promise<StoredStudy> {
  const study = await lab.store.blindStudies.get(id);
  if (study === undefined) throw problems.notFound('study');
  return study;
}

async function answer(
  lab: OpenLab,
  { id, title, trials, readers, createdAt, closed }: StoredStudy,
): Promise<BlindStudy> {
  const readings = await lab.store.blindStudies.readings(id);
  return {
    ...{ id, title, createdAt, closed, trials: trials.length },
    readers: readers.map((name, i) => ({ name, read: readings.filter(({ reader }) => reader === i).length })),
  };
}
