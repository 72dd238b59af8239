import { ApiProblem, type Fetch, type Problem } from '@sthene/contract';
import { words } from '../words/index.ts';

/** The station serves this page, so its interface is at the same address. */
export const base = '';

export const fetcher: Fetch = (url, init) => fetch(url, { ...init, credentials: 'same-origin' });

/** Anything thrown while talking to the station, as a problem with words and a next step. */
export function problemOf(error: unknown): Problem {
  if (error instanceof ApiProblem) return error.problem;
  const shape = { type: 'about:blank', status: 0 };
  if (
    error instanceof Error &&
    (error.name === 'ZodError' || error.name === '$ZodError' || error instanceof RangeError)
  )
    return {
      ...shape,
      title: words.problem.notUnderstood,
      code: 'answer-not-understood',
      detail: words.problem.notUnderstood,
      next: words.problem.notUnderstoodNext,
    };
  return {
    ...shape,
    title: words.problem.unknown,
    code: 'unexpected',
    detail: words.problem.unknown,
    next: words.problem.unknownNext,
  };
}
