import { asymmetryOf, protocolRegistry } from '@sthene/core';
import type { OpenLab } from '../../labs/open-lab.ts';
import { type LabHistory, labHistory } from './history.ts';
import { metricNamed } from './metrics.ts';
import type { SessionOfMetric } from './session-values.ts';

/** The tests of the left and of the right side alone that belong together. */
export interface PairOfTests {
  readonly left: string;
  readonly right: string;
}

/** The pair a one-sided test belongs to; undefined where the test has no counterpart. */
export function pairOf(test: string): PairOfTests | undefined {
  const base = /^(.+)-(left|right)$/.exec(test)?.[1];
  if (base === undefined) return undefined;
  const pair = { left: `${base}-left`, right: `${base}-right` };
  return [pair.left, pair.right].every((id) => protocolRegistry.get(id) !== undefined) ? pair : undefined;
}

/**
 * Left against right where each side is tested alone: of every day on which a person did both, 100 (R - L) / (R + L) of the two
 * sessions' values in per cent, positive right. Days with one side only are left out.
 */
export async function historyOfPair(lab: OpenLab, pair: PairOfTests, person: string): Promise<LabHistory> {
  const metric = metricNamed(undefined, pair.left);
  const [left, right] = await Promise.all([
    labHistory(lab, pair.left, metric, person),
    labHistory(lab, pair.right, metric, person),
  ]);
  const others = new Map(right.everyone.map((one) => [dayOfPerson(one), one]));
  const everyone = left.everyone.flatMap((one) => joined(one, others.get(dayOfPerson(one))));
  return { test: pair.left, metric: 'asymmetry_of_pair', everyone, unit: '%', better: 'neither', scale: 'unit' };
}

const dayOfPerson = ({ person, at }: SessionOfMetric): string => `${person} ${at.slice(0, 10)}`;

function joined(left: SessionOfMetric, right: SessionOfMetric | undefined): SessionOfMetric[] {
  if (left.value === undefined || right?.value === undefined || left.unit !== right.unit) return [];
  const value = asymmetryOf(left.value, right.value);
  if (!Number.isFinite(value)) return [];
  return [
    {
      ...right,
      value,
      unit: '%',
      n: Math.min(left.n, right.n),
      sd: undefined,
      methods: [...new Set([...left.methods, ...right.methods])].sort(),
      results: [...left.results, ...right.results],
      familiarisation: left.familiarisation || right.familiarisation,
    },
  ];
}
