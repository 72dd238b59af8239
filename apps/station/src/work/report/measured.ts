import { type ProtocolDocument, protocolRegistry, type SetupField } from '@sthene/core';
import type { MeasuredFacts } from '@sthene/report';
import type { Session, StoredResult } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { documentOf } from '../protocols.ts';
import { methodFacts } from './method-facts.ts';
import { checksOfSessions } from './rig-check.ts';
import { rigName } from './session.ts';

type Setup = MeasuredFacts['setup'][number];

/** How the values of some sessions were measured, told from the sessions and from the results of their maximal efforts. */
export async function measuredOf(lab: OpenLab, ids: ReadonlySet<string>): Promise<MeasuredFacts> {
  const sessions = (await Promise.all([...ids].map((id) => lab.store.sessions.get(id))))
    .flatMap((one) => one ?? [])
    .sort((a, b) => Date.parse(a.startedAt) - Date.parse(b.startedAt));
  const results: StoredResult[] = [];
  for (const { id } of sessions)
    for (const trial of await lab.store.trials.ofSession(id)) {
      const result = trial.effort === 'maximal' ? await lab.store.results.current(trial.id) : undefined;
      if (result !== undefined) results.push(result);
    }
  const methods = counted(results.map(({ document }) => document.method.sha256));
  const versions = counted(sessions.flatMap(({ protocol }) => protocol.sha256 ?? []));
  const documents = await Promise.all(versions.map(({ value }) => documentOf(lab, value)));
  return {
    sampleRates: counted(results.map(({ document }) => document.sampleRate)),
    methods: await Promise.all(methods.map(async ({ value, n }) => ({ ...(await methodFacts(lab, value)), n }))),
    applications: counted(results.map(({ application }) => application)).map(({ value }) => value),
    gravities: counted(sessions.map(({ gravity }) => gravity)).map(({ value }) => value),
    weights: counted(
      results.flatMap(({ document: { bodyWeight } }) => (bodyWeight.ok ? [bodyWeight.value.from] : [])),
    ).map(({ value, n }) => ({ from: value, n })),
    rigs: [...new Set((await Promise.all(sessions.map((one) => rigName(lab, one)))).flatMap((name) => name ?? []))],
    rigChecks: await checksOfSessions(lab, sessions),
    protocols: versions.map(({ value, n }, i) => {
      const document = documents[i] as ProtocolDocument;
      const { name, version, cue, rest } = document;
      return { name, version, sha256: value, n, cue: cue.words, restSeconds: rest.minimum };
    }),
    withoutProtocol: sessions.filter(({ protocol }) => protocol.sha256 === undefined).length,
    setup: setupOf(sessions, documents),
    from: sessions[0]?.startedAt,
    until: sessions.at(-1)?.startedAt,
  };
}

/** Each value with how often it is there, most first. */
function counted<T>(values: readonly T[]): { value: T; n: number }[] {
  const counts = new Map<T, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].map(([value, n]) => ({ value, n })).sort((a, b) => b.n - a.n || (a.value < b.value ? -1 : 1));
}

/** Fields whose text belongs to one session and describes no test. */
const personal: ReadonlySet<string> = new Set(['notes', 'familiarisation']);

function setupOf(sessions: readonly Session[], documents: readonly ProtocolDocument[]): Setup[] {
  const tests = [...new Set(sessions.map(({ protocol }) => protocol.id))];
  const fields = new Map<string, SetupField>();
  for (const field of [
    ...tests.flatMap((id) => protocolRegistry.get(id)?.setupFields ?? []),
    ...documents.flatMap(({ setupFields }) => setupFields),
  ])
    if (!personal.has(field.id)) fields.set(field.id, field);
  return [...fields.values()].flatMap(({ id, title, unit }): Setup[] => {
    const values = sessions.flatMap(({ setup }) => setup[id] ?? []).filter((value) => value !== '');
    if (values.length === 0) return [];
    const base = { id, title, unit, n: values.length };
    const numbers = values.filter((value) => typeof value === 'number');
    if (numbers.length === values.length)
      return [{ ...base, range: { low: Math.min(...numbers), high: Math.max(...numbers) } }];
    return [{ ...base, choices: counted(values.map(saidValue)).slice(0, 8) }];
  });
}

const saidValue = (value: string | number | boolean): string =>
  typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
