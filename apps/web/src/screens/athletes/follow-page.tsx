import type { LabId } from '@sthene/contract';
import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { usePageTitle } from '../../app/page-title.ts';
import { Answer } from '../../parts/answer.tsx';
import { FollowPlaces } from '../../parts/follow-places.tsx';
import { TableSkeleton } from '../sessions/session-table.tsx';
import '../sessions/sessions.css';

interface PageProps<T> {
  readonly lab: LabId;
  readonly className: string;
  readonly title: string;
  /** The question the page answers. */
  readonly question: string;
  readonly of: UseQueryResult<T>;
  readonly children: (data: T) => ReactNode;
}

/** A page about athletes: where else one can go, what it is about, and its one answer. */
export function FollowPage<T>({ lab, className, title, question, of, children }: PageProps<T>) {
  usePageTitle(title);
  return (
    <section className={`page ${className}`} aria-busy={of.isFetching}>
      <FollowPlaces lab={lab} />
      <div className="page-head">
        <h1>{title}</h1>
        <p className="soft">{question}</p>
      </div>
      <Answer of={of} waiting={<TableSkeleton />}>
        {children}
      </Answer>
    </section>
  );
}
