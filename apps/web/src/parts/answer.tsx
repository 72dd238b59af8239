import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { words } from '../words/index.ts';
import { ProblemCard } from './problem-card.tsx';

interface AnswerProps<T> {
  readonly of: UseQueryResult<T>;
  /** Whether a problem is all that is on the page. */
  readonly page?: boolean;
  /** What stands there while it is on its way. */
  readonly waiting?: ReactNode;
  readonly children: (data: T) => ReactNode;
}

/** What the station answered: on its way, refused with a way to try again, or there. */
export function Answer<T>({ of, page = false, waiting, children }: AnswerProps<T>) {
  return (
    <>
      {of.isError && <ProblemCard page={page} error={of.error} onRetry={() => void of.refetch()} />}
      {of.isPending &&
        (waiting ?? (
          <p className="soft" role="status">
            {words.app.loading}
          </p>
        ))}
      {of.data !== undefined && children(of.data)}
    </>
  );
}
