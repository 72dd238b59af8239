import { call, type LabId, routes } from '@sthene/contract';
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

/** The reliability of a test from the newest sessions of each athlete. */
export const reliabilityQuery = (
  lab: LabId,
  asked: { readonly squad?: string; readonly test?: string; readonly metric?: string; readonly sessions: number },
) =>
  queryOptions({
    queryKey: ['reliability', lab, asked],
    queryFn: () => call(fetcher, base, routes.reliability, { params: { lab }, query: asked }),
    placeholderData: keepPreviousData,
  });
