import { call, type LabId, routes } from '@sthene/contract';
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

export interface SessionFilter {
  readonly text?: string;
  readonly protocol?: string;
  readonly person?: string;
  readonly offset?: number;
  readonly limit?: number;
}

/** One page of sessions, newest first; the page before stays in sight while the next one comes. */
export const sessionPagesQuery = (lab: LabId, filter: SessionFilter) =>
  queryOptions({
    queryKey: ['sessions', lab, filter],
    queryFn: () => call(fetcher, base, routes.sessions, { params: { lab }, query: { ...filter } }),
    placeholderData: keepPreviousData,
  });
