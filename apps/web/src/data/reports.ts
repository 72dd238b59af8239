import {
  addressOf,
  call,
  callForBytes,
  type LabId,
  type ReportAppearanceDraft,
  type ReportFileQuery,
  type ReportKind,
  type ReportQuery,
  reportRoutes,
  routes,
} from '@sthene/contract';
import { keepPreviousData, queryOptions, useMutation, useQueryClient } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

/** What may be copied or saved alone of a report; the one shown before stays while another is on its way. */
export const reportContentQuery = (lab: LabId, kind: ReportKind, asked: ReportQuery) =>
  queryOptions({
    queryKey: ['report', lab, kind, asked],
    queryFn: () => call(fetcher, base, reportRoutes.reportContent, { params: { lab, kind }, query: asked }),
    placeholderData: keepPreviousData,
    retry: false,
  });

/** Where a report is fetched as a file. */
export const reportAddress = (lab: LabId, kind: ReportKind, query: Partial<ReportFileQuery>): string =>
  addressOf(reportRoutes.report, { lab, kind }, query);

/** A report as bytes, for many in one file. */
export const reportBytes = (lab: LabId, kind: ReportKind, query: Partial<ReportFileQuery>): Promise<ArrayBuffer> =>
  callForBytes(fetcher, base, reportRoutes.report, { params: { lab, kind }, query });

export const appearanceQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['report-appearance', lab],
    queryFn: () => call(fetcher, base, reportRoutes.reportAppearance, { params: { lab } }),
  });

export function useChangeAppearance(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (body: ReportAppearanceDraft) =>
      call(fetcher, base, reportRoutes.changeReportAppearance, { params: { lab }, body }),
    onSuccess: async (kept) => {
      client.setQueryData(['report-appearance', lab], kept);
      await client.invalidateQueries({ queryKey: ['report', lab] });
    },
  });
}

export const methodsOfLabQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['methods', lab],
    queryFn: () => call(fetcher, base, routes.methods, { params: { lab } }),
  });
