import { setImmediate as turn } from 'node:timers/promises';
import { application } from '@sthene/contract';
import { metricFacts } from '@sthene/core';
import { type ExchangeRow, exchangeHeader, exchangeRecord } from '@sthene/formats/results-table';
import type { Session, TrialStanding } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { documentOf } from '../protocols.ts';
import { labIdentity } from './lab-identity.ts';

/** What of an exchange file is asked for. */
export interface ExchangeAsked {
  /** Names and dates of birth too; people are named by their code alone otherwise. */
  readonly names?: boolean;
}

/**
 * Every value of a lab as one long CSV: each metric of the newest result of each trial, and every received value, newest session first.
 * Given piece by piece, a session at a time, so that a large lab needs no more memory than a small one.
 */
export async function* exchangeLines(lab: OpenLab, { names = false }: ExchangeAsked = {}): AsyncGenerator<string> {
  const id = await labIdentity(lab);
  const people = new Map((await lab.store.people.list()).map((one) => [one.id, one]));
  yield exchangeHeader();
  let after: string | undefined;
  do {
    const page = await lab.store.sessions.list({ limit: 100, ...(after === undefined ? {} : { after }) });
    for (const { session } of page.items) {
      const person = people.get(session.person) ?? (await lab.store.people.get(session.person));
      if (person === undefined) continue;
      const about = {
        lab_id: id,
        person_id: person.id,
        code: person.code,
        ...(names
          ? {
              ...(person.givenName === '' ? {} : { given_name: person.givenName }),
              ...(person.familyName === '' ? {} : { family_name: person.familyName }),
              ...(person.birthDate === undefined ? {} : { birth_date: person.birthDate }),
            }
          : {}),
        session_id: session.id,
        started_at: session.startedAt,
        test: session.protocol.id,
        test_version: session.protocol.version,
        ...(await protocolOf(lab, session)),
      };
      const rows = session.resultsOnly ? receivedRows(lab, session, about) : measuredRows(lab, session, about);
      let text = '';
      for await (const row of rows) text += exchangeRecord(row);
      if (text !== '') yield text;
      await turn();
    }
    after = page.next;
  } while (after !== undefined);
}

type About = Pick<
  ExchangeRow,
  'lab_id' | 'person_id' | 'code' | 'session_id' | 'started_at' | 'test' | 'test_version'
> &
  Partial<ExchangeRow>;

async function protocolOf(lab: OpenLab, { protocol: { sha256 } }: Session): Promise<Partial<ExchangeRow>> {
  if (sha256 === undefined) return {};
  const { name, version } = await documentOf(lab, sha256);
  return { protocol: name, protocol_version: version, protocol_sha256: sha256 };
}

async function* measuredRows(lab: OpenLab, session: Session, about: About): AsyncGenerator<ExchangeRow> {
  for (const { trial, standing } of await lab.store.trials.standingIn(session)) {
    const result = await lab.store.results.current(trial.id);
    if (result === undefined) continue;
    const { method, metrics } = result.document;
    for (const [metric, measured] of Object.entries(metrics)) {
      const has = 'value' in measured;
      yield {
        ...about,
        row_id: `${result.id}.${metric}`,
        time_known: true,
        trial_id: trial.id,
        trial: trial.position,
        effort: trial.effort,
        of: 'trial',
        metric,
        unit: has ? measured.unit : (metricFacts.get(metric)?.unit ?? '1'),
        ...(has ? { value: measured.value } : { reason: measured.reason }),
        verdict: result.document.verdict,
        ...standingOf(standing),
        result_id: result.id,
        computed_at: result.computedAt,
        method_name: method.name,
        method_version: method.version,
        method_sha256: method.sha256,
        ...(trial.recording === undefined ? {} : { recording_sha256: trial.recording }),
        application: result.application,
      };
    }
  }
}

const standingOf = ({ standing, effective }: TrialStanding): Partial<ExchangeRow> => ({
  standing,
  ...(effective.overruled === undefined ? {} : { overruled: true }),
});

async function* receivedRows(lab: OpenLab, session: Session, about: About): AsyncGenerator<ExchangeRow> {
  const received = await lab.store.received.session(session.id);
  const from = received && (await lab.store.received.get(received.import));
  if (received === undefined || from === undefined) return;
  for (const value of await lab.store.received.ofSession(session.id)) {
    const { effort, verdict, standing, overruled, computed_at, recording_sha256 } = value.facts;
    yield {
      ...about,
      row_id: value.id,
      ...(value.origin === undefined ? {} : { origin: value.origin }),
      time_known: received.timeKnown,
      ...(value.position === undefined ? {} : { trial: value.position }),
      ...texts({ effort, verdict, standing, computed_at, recording_sha256 }),
      ...(overruled === undefined ? {} : { overruled: true }),
      of: value.of,
      metric: value.metric,
      unit: value.unit,
      ...(value.value === undefined ? { reason: value.reason } : { value: value.value }),
      method_label: received.methodLabel,
      ...(value.given.value === '' ? {} : { given_value: value.given.value }),
      ...(value.given.unit === '' ? {} : { given_unit: value.given.unit }),
      file_sha256: from.file,
      application,
    };
  }
}

const texts = (facts: Record<string, string | number | undefined>): Partial<ExchangeRow> =>
  Object.fromEntries(
    Object.entries(facts).flatMap(([name, fact]) => (fact === undefined ? [] : [[name, String(fact)]])),
  );
