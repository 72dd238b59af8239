import type { ReliabilityByRule } from '@sthene/contract';
import {
  defaultJumpMethod,
  jumpOnsetRules,
  meanOf,
  onsetRegistry,
  protocolRegistry,
  type TrialResult,
} from '@sthene/core';
import { reliabilityStudy, type Scale, type Table } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { findMethod } from '../methods.ts';
import { type Asked, chosen } from './chosen.ts';
import { labHistory } from './history.ts';
import { metricFacts } from './metrics.ts';
import { newestSessions } from './repeated.ts';
import type { SessionOfMetric } from './session-values.ts';

/**
 * The reliability of an onset-dependent metric under every onset rule: the newest sessions of each athlete, the same efforts for every
 * rule (those that count by the method in force), each session the mean over its efforts of what the method spread kept for the rule.
 */
export async function reliabilityByRule(
  lab: OpenLab,
  asked: Asked & { readonly sessions: number },
): Promise<ReliabilityByRule> {
  const { definition, test, belongs } = await chosen(lab, asked);
  const metric = metricFacts(definition);
  const base = { metric, scale: 'unit' as const, sessions: asked.sessions, trials: 0, rows: [] };
  if (!definition.dependsOnOnset) return { ...base, reason: 'not-of-onset' };
  if (test === undefined) return { ...base, reason: 'too-few-values' };
  const history = await labHistory(lab, test, definition);
  const newest = [...newestSessions(history, asked.sessions, belongs).values()];
  const documents = await Promise.all(newest.map((own) => Promise.all(own.map((one) => documentsOf(lab, one)))));
  const rules = new Set(documents.flat(2).flatMap((one) => Object.keys(one.spread[definition.id]?.by ?? {})));
  const jumps = protocolRegistry.get(test)?.jump !== undefined;
  const own = (jumps ? defaultJumpMethod : await findMethod(lab)).onset.rule;
  const rows = [...rules].map((rule) => {
    const table: Table = documents.map((sessions) =>
      sessions.map((efforts) => {
        const values = efforts.flatMap((one) => one.spread[definition.id]?.by[rule] ?? []);
        return values.length === 0 ? null : meanOf(values);
      }),
    );
    return {
      rule,
      title: onsetRegistry.get(rule)?.title ?? jumpOnsetRules.get(rule)?.title ?? rule,
      current: rule === own,
      ...studied(table, history.scale),
    };
  });
  return {
    ...base,
    metric: { ...metric, unit: history.unit },
    scale: history.scale,
    trials: documents.flat(2).length,
    ...(rows.length === 0 ? { reason: 'too-few-values' } : {}),
    rows: rows.toSorted(
      (a, b) => (a.error?.value ?? Number.POSITIVE_INFINITY) - (b.error?.value ?? Number.POSITIVE_INFINITY),
    ),
  };
}

function studied(table: Table, scale: Scale): Omit<ReliabilityByRule['rows'][number], 'rule' | 'title' | 'current'> {
  const study = reliabilityStudy(table, scale);
  if (!study.ok) return { people: 0, reason: study.reason };
  const { complete, error, correlations, occasions } = study.value;
  const { '3,1': consistency } = correlations;
  const mean = occasions.at(-1)?.mean;
  return {
    people: complete,
    error: { value: error.value, df: error.df },
    interval: { ...error.interval },
    ...(consistency.ok ? { icc: { ...consistency.value } } : {}),
    ...(mean === undefined ? {} : { mean }),
  };
}

/** Results behind the value of a session. */
async function documentsOf(lab: OpenLab, session: SessionOfMetric | null): Promise<TrialResult[]> {
  const found = await Promise.all((session?.results ?? []).map((id) => lab.store.results.get(id)));
  return found.flatMap((one) => one?.document ?? []);
}
