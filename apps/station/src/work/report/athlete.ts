import type { ReportQuery } from '@sthene/contract';
import type { AthleteInput } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { athleteView } from '../athlete/athlete.ts';
import { labHistory } from '../athlete/history.ts';
import { metricNamed } from '../athlete/metrics.ts';
import { isRatioMetric } from '../battery/ratio-metrics.ts';
import { nameOf } from '../people.ts';
import { ranBy } from '../sessions.ts';
import { sessionUncertainty } from '../uncertainty/of-session.ts';
import { type Said, saysOf } from './handed-out.ts';
import { methodFacts } from './method-facts.ts';
import { missing, nothingToSay } from './refusals.ts';
import { checksOfSessions } from './rig-check.ts';

/** What the page of an athlete is made of: what the athlete's screen shows, how the newest value came about; and what it says. */
export async function athleteInput(lab: OpenLab, asked: ReportQuery): Promise<Said<AthleteInput>> {
  if (!asked.person) throw missing('athlete', '"person", an id or a code');
  const id = (await lab.store.people.byCode(asked.person))?.id ?? asked.person;
  const { person, test, metric, sessions, scale, noise, best, changes, reason } = await athleteView(lab, id, asked);
  if (test === undefined) throw nothingToSay('This athlete has no session yet.');
  const newest = sessions.findLast(({ value, unit }) => value !== undefined && unit === metric.unit);
  const against = asked.against ?? 'last';
  const change = changes.find(({ reference }) => reference === against);
  return {
    input: {
      person: { name: nameOf(person), code: person.code, birthDate: person.birthDate },
      ...{ test, metric, sessions, scale, noise, best, changes, reason, against },
      made: await madeOf(lab, newest === undefined ? [] : await sessionsBehind(lab, test, metric.id, newest.id)),
      uncertainty:
        newest?.value === undefined
          ? undefined
          : await sessionUncertainty(lab, newest.id, metric.id, { value: newest.value, n: newest.n }),
    },
    says:
      newest?.value === undefined
        ? []
        : [
            saysOf('athlete', {
              ...{ person: person.id, session: newest.id, value: newest.value },
              ...{ test, metric, reference: against, change },
            }),
          ],
  };
}

/** The sessions a session's value is made of: itself, or of a ratio those of all its tests. */
async function sessionsBehind(lab: OpenLab, test: string, metric: string, id: string): Promise<readonly string[]> {
  if (!isRatioMetric(metric)) return [id];
  const { everyone } = await labHistory(lab, test, metricNamed(metric, test));
  return everyone.find(({ session }) => session === id)?.sessions ?? [id];
}

/** Methods, rates, protocols and checks of the rigs of the efforts behind a value. */
async function madeOf(lab: OpenLab, ids: readonly string[]): Promise<AthleteInput['made']> {
  const sessions = await lab.store.sessions.getMany(ids);
  const trials = (await Promise.all(sessions.map(({ id }) => lab.store.trials.ofSession(id))))
    .flat()
    .filter(({ effort }) => effort === 'maximal');
  const results = (await Promise.all(trials.map((one) => lab.store.results.current(one.id)))).flatMap(
    (one) => one?.document ?? [],
  );
  const hashes = [...new Set(results.map(({ method }) => method.sha256))];
  const protocols = await Promise.all(sessions.map((session) => ranBy(lab, session)));
  return {
    methods: await Promise.all(hashes.map((sha256) => methodFacts(lab, sha256))),
    sampleRates: [...new Set(results.map(({ sampleRate }) => sampleRate))],
    protocols: protocols.flatMap((one) => one.ranBy ?? []),
    rigChecks: await checksOfSessions(lab, sessions),
  };
}
