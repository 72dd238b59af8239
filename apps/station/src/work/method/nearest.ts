import type { NearestFound, NearestRequest, Nearness } from '@sthene/contract';
import {
  isVariant,
  type Method,
  meanOf,
  methodReference,
  methodRegistry,
  metricRegistry,
  onsetRegistry,
  type TrialResult,
} from '@sthene/core';
import { limitsOfAgreement } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { isometricMethods } from '../methods.ts';
import { readingOneAfterTheOther } from '../read-recording.ts';
import { judgeTrial } from '../recompute/judge.ts';
import { linesOf, type TableLine } from './lines.ts';
import { matcher } from './match.ts';
import type { Breath } from './preview.ts';

/** Lines that found no trial are listed up to here. */
const mostTold = 20;
/** A way that gives fewer of the values than this share of the best one stands behind the others, however near it is. */
const enough = 0.8;

interface Pair {
  readonly metric: string;
  readonly theirs: number;
  readonly ours: number;
}

/** A way to analyse: a method, or the method in force with another onset rule. */
interface Way extends Pick<Nearness, 'kind' | 'id' | 'name'> {
  readonly pairs: Pair[];
}

/**
 * Compares a table of values from elsewhere with what every method of the lab gives on the same curves, and with every onset rule as
 * the method spread of the result in force has it. Nearest first; a near fit is no proof that a method was used.
 */
export async function nearestMethod(lab: OpenLab, asked: NearestRequest, breath: Breath): Promise<NearestFound> {
  const lines = linesOf(asked);
  const match = await matcher(lab, asked.columns);
  const methods = await methodsToTry(lab);
  const ways = new Map<string, Way>();
  const read = readingOneAfterTheOther();
  const unmatched: NearestFound['unmatched'] = [];
  let matched = 0;
  for (const line of lines) {
    const found = line.faults.length > 0 ? { why: line.faults.join('; ') } : await match(line);
    if (typeof found !== 'string') {
      unmatched.push({ line: line.line, words: found.why });
      continue;
    }
    matched++;
    for (const method of methods) {
      const { view, made } = await judgeTrial(lab, found, method, read, { keepsMethods: false });
      if (method === methods[0]) addRules(ways, view.result?.document, line);
      const { name, version, sha256 } = methodReference(method);
      const way = wayOf(ways, { kind: 'method', id: sha256, name: `${name}, version ${version}` });
      if ('document' in made)
        addPairs(way, line, (metric) => {
          const measured = made.document.metrics[metric];
          return measured !== undefined && 'value' in measured ? measured.value : undefined;
        });
      await breath();
    }
  }
  const metrics = [...new Set(asked.values.map(({ metric }) => metric))].flatMap((id) => metricRegistry.get(id) ?? []);
  return {
    ranked: ranked([...ways.values()]),
    metrics: metrics.map(({ id, title, unit }) => ({ id, title, unit })),
    lines: lines.length,
    matched,
    unmatched: unmatched.slice(0, mostTold),
  };
}

/** Built-in methods and those of the lab; variants for a test or protocol arise by themselves where a session was run by one. */
async function methodsToTry(lab: OpenLab): Promise<Method[]> {
  const builtIn = methodRegistry.all.map(({ method }) => method);
  const hashes = new Set(builtIn.map((method) => methodReference(method).sha256));
  const own = (await isometricMethods(lab)).filter((method) => !hashes.has(methodReference(method).sha256));
  return [...builtIn, ...own.filter((method) => !isVariant(method))];
}

function wayOf(ways: Map<string, Way>, way: Pick<Way, 'kind' | 'id' | 'name'>): Way {
  const key = `${way.kind} ${way.id}`;
  const there = ways.get(key) ?? { ...way, pairs: [] };
  ways.set(key, there);
  return there;
}

function addRules(ways: Map<string, Way>, document: TrialResult | undefined, line: TableLine): void {
  if (document === undefined) return;
  for (const { id, title, automatic } of onsetRegistry.all) {
    if (!automatic) continue;
    const way = wayOf(ways, { kind: 'onset-rule', id, name: title });
    addPairs(way, line, (metric) => document.spread[metric]?.by[id]);
  }
}

function addPairs(way: Way, { values }: TableLine, ours: (metric: string) => number | undefined): void {
  for (const [metric, theirs] of values) {
    const own = ours(metric);
    if (own !== undefined) way.pairs.push({ metric, theirs, ours: own });
  }
}

function ranked(ways: readonly Way[]): Nearness[] {
  const most = Math.max(0, ...ways.map(({ pairs }) => pairs.length));
  return ways
    .filter(({ pairs }) => pairs.length > 0)
    .map((way) => ({ ...nearness(way), few: way.pairs.length < enough * most }))
    .sort((a, b) => Number(a.few) - Number(b.few) || a.distance - b.distance)
    .map(({ few: _, ...one }) => one);
}

function nearness({ kind, id, name, pairs }: Way): Nearness {
  const metrics = [...new Set(pairs.map(({ metric }) => metric))].map((metric) => {
    const own = pairs.filter((pair) => pair.metric === metric);
    const differences = own.map(({ ours, theirs }) => ours - theirs);
    const limits = limitsOfAgreement(differences);
    return {
      ...{ metric, n: own.length },
      meanAbsolute: meanOf(differences.map(Math.abs)),
      bias: meanOf(differences),
      ...(limits.ok ? { lower: limits.value.lower.value, upper: limits.value.upper.value } : {}),
      share:
        (100 * meanOf(differences.map(Math.abs))) /
        Math.max(Number.MIN_VALUE, meanOf(own.map((one) => Math.abs(one.theirs)))),
    };
  });
  return {
    ...{ kind, id, name },
    distance: meanOf(metrics.map(({ share }) => share)),
    metrics: metrics.map(({ share: _, ...one }) => one),
  };
}
