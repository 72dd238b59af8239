import {
  addressOf,
  call,
  type LabId,
  type ReceivedRequest,
  receivedRoutes as routes,
  type TableQuestion,
} from '@sthene/contract';
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

/** How a table that was sent is understood. */
export const tableQuery = (lab: LabId, body: TableQuestion) =>
  queryOptions({
    queryKey: ['received-table', lab, body],
    queryFn: () => call(fetcher, base, routes.table, { params: { lab }, body }),
    staleTime: Number.POSITIVE_INFINITY,
    placeholderData: keepPreviousData,
    retry: false,
  });

/** What an import would do; the answer before stays while a change is worked out. */
export const dryRunQuery = (lab: LabId, body: ReceivedRequest | undefined) =>
  queryOptions({
    queryKey: ['received-dry-run', lab, body],
    queryFn: () => call(fetcher, base, routes.dryRun, { params: { lab }, body: body as ReceivedRequest }),
    enabled: body !== undefined,
    placeholderData: keepPreviousData,
    gcTime: 30_000,
    retry: false,
  });

export const importResults = (lab: LabId, body: ReceivedRequest) =>
  call(fetcher, base, routes.import, { params: { lab }, body });

/** Tables that were brought in, newest first. */
export const receivedQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['received', lab],
    queryFn: () => call(fetcher, base, routes.list, { params: { lab } }),
  });

export const takeBack = (lab: LabId, id: string, body: { takenBack: boolean; reason: string; by: string }) =>
  call(fetcher, base, routes.takeBack, { params: { lab, id }, body });

export const receivedFileAddress = (lab: LabId, id: string): string => base + addressOf(routes.file, { lab, id });
export const exchangeAddress = (lab: LabId): string => base + addressOf(routes.exchange, { lab });

/** Everything that shows sessions or athletes; a change of what was received touches all of it. */
export const touchedByResults = [
  'sessions',
  'session',
  'people',
  'athlete',
  'standing',
  'received',
  'station',
  'uploads',
];
