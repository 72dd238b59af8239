import type { AsymmetryView } from '@sthene/contract';
import { detectableAt, detectableChange, kappa, leaning } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { type LabHistory, labHistory, withNoise } from './history.ts';
import { metricFacts, metricNamed, usualAsymmetry } from './metrics.ts';
import { historyOfPair, pairOf } from './pair.ts';
import { squadsOf, testsOf } from './tests-of-athlete.ts';

const ofPair = { id: 'asymmetry_of_pair', title: 'Asymmetry of the two sides, each tested alone' };

/**
 * Which side an athlete leans to over time, spoken of only beyond the noise of the lab's test. In a test of one side alone it is the
 * pair of tests of a day that is compared.
 */
export async function asymmetryView(
  lab: OpenLab,
  id: string,
  asked: { readonly test?: string | undefined; readonly metric?: string | undefined },
): Promise<AsymmetryView> {
  if ((await lab.store.people.get(id)) === undefined) throw problems.notFound('athlete');
  const tests = await testsOf(lab, id);
  const test = tests.find((one) => one.id === asked.test)?.id ?? tests[0]?.id;
  const pair = test === undefined ? undefined : pairOf(test);
  const definition = metricNamed(asked.metric ?? usualAsymmetry(test));
  const { id: metric, title } = pair === undefined ? metricFacts(definition) : ofPair;
  if (test === undefined) return { metric: { id: metric, title }, sessions: [] };
  const values = pair === undefined ? labHistory(lab, test, definition, id) : historyOfPair(lab, pair, id);
  const history = await withNoise(lab, await values, await squadsOf(lab, id));
  const own = history.everyone.flatMap((one) =>
    one.person !== id || one.value === undefined || one.unit !== history.unit ? [] : [{ ...one, value: one.value }],
  );
  const error = history.noise.ok ? history.noise.value.error : undefined;
  const settled = own.filter(({ familiarisation }) => !familiarisation).map(({ value }) => value);
  const found = error && leaning(settled, error);
  const direction = directionOf(history);
  return {
    metric: { id: metric, title },
    ...(pair === undefined ? {} : { pair }),
    sessions: own.map(({ session, at, value, familiarisation }) => ({ id: session, at, value, familiarisation })),
    ...(error === undefined
      ? {}
      : {
          error: { value: error.value, df: error.df },
          detectable: detectableChange(error.value, detectableAt[95]),
        }),
    ...(found === undefined ? {} : { leaning: found }),
    ...(direction === undefined ? {} : { direction }),
  };
}

/** Sides of consecutive sessions of everybody against each other: does a repeat test name the same leg? */
function directionOf({ everyone, unit }: LabHistory): AsymmetryView['direction'] {
  const last = new Map<string, number>();
  const counts = [
    [0, 0],
    [0, 0],
  ];
  for (const { person, value, unit: its, familiarisation } of everyone) {
    if (value === undefined || its !== unit || familiarisation) continue;
    const before = last.get(person);
    last.set(person, value);
    if (before === undefined) continue;
    const row = counts[before > 0 ? 1 : 0] as number[];
    row[value > 0 ? 1 : 0] = (row[value > 0 ? 1 : 0] as number) + 1;
  }
  const found = kappa(counts);
  return found.ok
    ? { kappa: found.value.kappa, standardError: found.value.standardError, pairs: found.value.n }
    : undefined;
}
