import type { FailedTrials, FlippedTrial, Flips } from '@sthene/contract';
import { checkFacts, type TrialResult } from '@sthene/core';
import type { RecomputedTrial } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { nameOf } from '../people.ts';

const page = 50;

/** Verdicts a run changes, a page of them, each with the checks that make the difference. */
export async function flipsOfRun(lab: OpenLab, run: string, after: string | undefined): Promise<Flips> {
  const { recomputations, results } = lab.store;
  const rows = await recomputations.outcomes(run, {
    only: 'flipped',
    limit: page + 1,
    ...(after === undefined ? {} : { after }),
  });
  const shown = rows.slice(0, page);
  const places = await placesOf(lab, shown);
  return {
    counted: (await recomputations.flips(run)).map((one) => ({ ...one })),
    rows: await Promise.all(
      shown.map(async (row, i): Promise<FlippedTrial> => {
        const [was, is] = await Promise.all([
          results.get(row.before?.result ?? ''),
          results.get(row.after?.result ?? ''),
        ]);
        return {
          ...(places[i] as (typeof places)[number]),
          from: row.before?.verdict ?? 'counts',
          to: row.after?.verdict ?? 'counts',
          decided: row.before?.standing === row.after?.standing,
          checks: changedChecks(was?.document, is?.document),
        };
      }),
    ),
    ...(rows.length > page ? { next: shown.at(-1)?.trial ?? '' } : {}),
  };
}

/** Checks whose answer differs, in the order in which they are listed everywhere. */
export function changedChecks(was: TrialResult | undefined, is: TrialResult | undefined): FlippedTrial['checks'] {
  return checkFacts.all.flatMap(({ id, title }) => {
    const [from, to] = [was?.checks[id]?.status ?? 'not-in-method', is?.checks[id]?.status ?? 'not-in-method'];
    return from === to ? [] : [{ id, title, from, to }];
  });
}

/** Trials a run could not judge, a page of them. */
export async function failuresOfRun(lab: OpenLab, run: string, after: string | undefined): Promise<FailedTrials> {
  const rows = await lab.store.recomputations.outcomes(run, {
    only: 'failed',
    limit: page + 1,
    ...(after === undefined ? {} : { after }),
  });
  const shown = rows.slice(0, page);
  const places = await placesOf(lab, shown);
  return {
    rows: shown.map((row, i) => ({
      ...(places[i] as (typeof places)[number]),
      code: row.problem?.code ?? '',
      words: row.problem?.words ?? '',
    })),
    ...(rows.length > page ? { next: shown.at(-1)?.trial ?? '' } : {}),
  };
}

async function placesOf(lab: OpenLab, rows: readonly RecomputedTrial[]) {
  const people = new Map((await lab.store.people.list()).map((one) => [one.id, one]));
  return rows.map(({ trial, session, person: id, position, test, at }) => {
    const person = people.get(id);
    return {
      trial,
      session,
      person: { id, name: person === undefined ? '' : nameOf(person), code: person?.code ?? '' },
      order: position,
      test,
      at,
    };
  });
}
