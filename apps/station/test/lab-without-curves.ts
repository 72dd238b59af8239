import { application } from '@sthene/contract';
import { defaultMethod, have, lack, methodReference, type TrialResult, type UtcInstant } from '@sthene/core';
import { Labs } from '../src/labs/labs.ts';

const sha256 = methodReference(defaultMethod).sha256;

/** A result with a given peak force (N); its numbers beside matter to no test. */
const resultOf = (peak: number, fails?: string): TrialResult => ({
  test: 'imtp',
  testVersion: 1,
  method: methodReference(defaultMethod),
  sampleRate: 1000,
  span: { start: 0, end: 5000 },
  onset: lack('no-effort'),
  bodyWeight: have({ value: 612.5, unit: 'N', from: 'weighing' }),
  gravity: 9.80665,
  metrics: {
    peak_force: { value: peak, unit: 'N', evidence: {} },
    peak_force_relative: { value: peak / 62.46, unit: 'N/kg', evidence: {} },
  },
  checks: fails === undefined ? {} : { [fails]: { status: 'fail', value: 62, limit: 50, unit: 'N' } },
  spread: {},
  onsets: {},
  verdict: fails === undefined ? 'counts' : 'repeat',
});

/**
 * A lab of the invented club Fernwater without curves, written in a second: three athletes (an adult, one of 16, one without birth
 * date), four sessions each of three maximal efforts, one of them rejected and overruled by Wren. Gives the folder back.
 */
export async function labWithoutCurves(data: string): Promise<string> {
  const labs = new Labs({ data, application });
  const lab = await labs.create('lab', 'Fernwater Rowing Club');
  const { store } = lab;
  const by = await lab.actor('Wren');
  await store.methods.add(sha256, defaultMethod, by);
  const people = await Promise.all(
    [
      { code: 'FW01', givenName: 'Imre', familyName: 'Oakes', birthDate: '1999-03-02' },
      { code: 'FW02', givenName: 'Tamsin', familyName: 'Ålund', birthDate: '2010-01-20' },
      { code: 'FW03', givenName: '=Pál', familyName: 'Szőke' },
    ].map((one) => store.people.add(one, by)),
  );
  await store.squads.add({ name: 'Juniors', members: people.slice(1).map(({ id }) => id) }, by);
  for (const [p, person] of people.entries())
    for (let s = 0; s < 4; s++) {
      const session = await store.sessions.add(
        {
          person: person.id,
          protocol: { id: 'imtp', version: 1 },
          startedAt: `2026-0${s + 2}-1${p}T22:30:00.000Z` as UtcInstant,
          gravity: 9.80665,
          bodyWeight: { value: 612.5, from: 'weighing' },
          setup: { bar_height: 70 + s, grip: 'mixed', cue_words: 'Go.' },
        },
        by,
      );
      for (let t = 0; t < 3; t++) {
        const trial = await store.trials.add({ session: session.id, effort: 'maximal' }, by);
        const rejected = t === 2 && s === 3;
        const peak = 2000 + 400 * p + 25 * s + 12 * ((7 * (t + s + p)) % 5);
        await store.results.add(
          {
            trial: trial.id,
            versions: { metrics: { peak_force: 1 }, checks: {} },
            document: resultOf(peak, rejected ? 'pretension' : undefined),
          },
          by,
        );
        if (rejected)
          await store.decisions.add(
            { trial: trial.id, kind: 'overrule-counts', payload: {}, reason: 'Slack was taken out on purpose.' },
            by,
          );
      }
    }
  await labs.close();
  return data;
}
