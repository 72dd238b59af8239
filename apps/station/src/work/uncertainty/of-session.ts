import { type Uncertainty, uncertaintyOfMean } from '@sthene/core';
import type { UncertaintyFacts } from '@sthene/report';
import { StoreError } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError } from '../../server/problem-error.ts';
import { readForces } from '../forces-of-trial.ts';
import { liveFactsOf } from '../live-facts.ts';
import { uncertaintiesOf } from './uncertainty.ts';

/**
 * How sure a session's value of a metric is: that of the mean of its maximal efforts that count.
 *
 * @param summary the value, and of how many efforts it is the mean
 * @returns undefined where a recording cannot be read any more or one of the efforts has no uncertainty: half a mean says nothing
 */
export async function sessionUncertainty(
  lab: OpenLab,
  session: string,
  metric: string,
  { value, n }: { readonly value: number; readonly n: number },
): Promise<UncertaintyFacts | undefined> {
  const found: Uncertainty[] = [];
  let weighedEach = true;
  for (const { id, effort } of await lab.store.trials.ofSession(session)) {
    const view = effort === 'maximal' ? await lab.store.trials.view(id) : undefined;
    if (view === undefined || view.standing !== 'counts' || view.recording === undefined) continue;
    try {
      const one = await uncertaintiesOf(lab, view, [metric], async (_, trial, of) =>
        readForces(lab, trial, of, await liveFactsOf(lab, trial.id)),
      );
      const uncertainty = one?.values[metric];
      if (uncertainty?.ok !== true) return undefined;
      found.push(uncertainty.value);
      weighedEach &&= one?.weighedItself === true;
    } catch (error) {
      // A recording that cannot be read is a matter of its own page, not of this line.
      if (error instanceof ProblemError || error instanceof StoreError) return undefined;
      throw error;
    }
  }
  const mean = uncertaintyOfMean(found, weighedEach);
  if (mean === undefined || found.length !== n) return undefined;
  const { expanded, unit, coverage, unknown } = mean;
  return { value, expanded, unit, coverage, unknown: unknown.map((part) => part.id) };
}
