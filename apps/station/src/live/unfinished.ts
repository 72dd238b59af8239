import {
  type CaptureReport,
  type JournalFilePort,
  listCaptures,
  readCapture,
  recover,
  reportOf,
} from '@sthene/capture';
import type { RecoveredCapture } from './ports.ts';

/**
 * Journals of captures that were not closed. The id of the capture stands in the journal as its session, so that it is found
 * even where the station stopped before the name of the files was on record.
 */
export async function unfinishedCaptures(
  port: JournalFilePort,
  folder: string,
  ids: ReadonlySet<string>,
): Promise<RecoveredCapture[]> {
  const found = new Map<string, RecoveredCapture>();
  const add = ({ session, counts, capture, confirmedLost }: CaptureReport, words: string) => {
    if (session === undefined || !ids.has(session)) return;
    found.set(session, {
      capture: session,
      samples: counts.samples,
      missing: counts.missing,
      damaged: confirmedLost,
      words,
      packets: () => readCapture(port, folder, capture),
    });
  };
  for (const report of await recover(port, folder)) add(report, report.words);
  // A journal may have been closed in the last moment while its record was not.
  for (const capture of (await listCaptures(port, folder)).reverse().slice(0, newest)) {
    if (found.size === ids.size) break;
    const report = await reportOf(port, folder, capture);
    if (report.session !== undefined && !found.has(report.session)) add(report, 'The journal had been closed well.');
  }
  return [...found.values()];
}

/** So many of the newest journals are looked through for one that was closed. */
const newest = 20;
