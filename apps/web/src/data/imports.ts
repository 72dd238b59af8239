import { call, callForBytes, type ImportRequest, type LabId, routes } from '@sthene/contract';
import { queryOptions } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

export const peopleQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['people', lab],
    queryFn: () => call(fetcher, base, routes.people, { params: { lab } }),
  });

/** Kept mappings, the one used last first. */
export const templatesQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['templates', lab],
    queryFn: () => call(fetcher, base, routes.templates, { params: { lab } }),
  });

/** Files that were sent but not imported. */
export const uploadsQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['uploads', lab],
    queryFn: () => call(fetcher, base, routes.uploads, { params: { lab } }),
  });

export const sendFile = (lab: LabId, file: File) =>
  call(fetcher, base, routes.upload, { params: { lab }, query: { name: file.name.slice(-255) }, bytes: file });

export const forgetFile = (lab: LabId, id: string) => call(fetcher, base, routes.forgetUpload, { params: { lab, id } });

/** A file that was sent earlier, as the file it was. */
export async function sentFile(lab: LabId, id: string, name: string, at: string): Promise<File> {
  const bytes = await callForBytes(fetcher, base, routes.uploadFile, { params: { lab, id } });
  return new File([bytes], name, { lastModified: Date.parse(at) });
}

export const tryImport = (lab: LabId, body: ImportRequest) =>
  call(fetcher, base, routes.dryRun, { params: { lab }, body });

export const doImport = (lab: LabId, body: ImportRequest) =>
  call(fetcher, base, routes.import, { params: { lab }, body });
