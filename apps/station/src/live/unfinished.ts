import { type JournalFilePort, readCapture, recover } from '@sthene/capture';
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
  const recovered = await recover(port, folder);
  return recovered.flatMap((report): RecoveredCapture[] => {
    const { session, counts, capture, words, confirmedLost } = report;
    if (session === undefined || !ids.has(session)) return [];
    return [
      {
        capture: session,
        samples: counts.samples,
        missing: counts.missing,
        damaged: confirmedLost,
        words,
        packets: () => readCapture(port, folder, capture),
      },
    ];
  });
}
