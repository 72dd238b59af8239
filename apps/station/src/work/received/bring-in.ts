import type { PersonDecision, ReceivedOutcome, ReceivedRequest, TablePreview } from '@sthene/contract';
import type { OpenLab } from '../../labs/open-lab.ts';
import { dropUpload, receiveUpload } from '../upload.ts';
import { dryRunResults, importResults } from './import-results.ts';
import { previewTable } from './preview.ts';

/** A file of results to bring in without a screen. */
export interface BringIn {
  readonly name: string;
  readonly bytes: AsyncIterable<Uint8Array>;
  readonly sheet?: string;
  /** Makes the request of what is found; throws to give up. Who somebody is comes from `decide`. */
  readonly choose: (preview: TablePreview) => Omit<ReceivedRequest, 'upload' | 'people'>;
  readonly decide: (people: ReceivedOutcome['people']) => Promise<readonly PersonDecision[]>;
  readonly dryRun: boolean;
}

/** Brings a file in, or says what that would do; a file that was not imported is not left behind. */
export async function bringIn(
  lab: OpenLab,
  given: BringIn,
): Promise<{ preview: TablePreview; request: ReceivedRequest; outcome: ReceivedOutcome }> {
  const { id: upload } = await receiveUpload(lab, given.name, given.bytes);
  try {
    const preview = await previewTable(lab, { upload, ...(given.sheet === undefined ? {} : { sheet: given.sheet }) });
    const chosen = { upload, people: [], ...given.choose(preview) };
    const seen = await dryRunResults(lab, chosen);
    const request = { ...chosen, people: [...(await given.decide(seen.people))] };
    return { preview, request, outcome: await (given.dryRun ? dryRunResults : importResults)(lab, request) };
  } finally {
    await dropUpload(lab, upload);
  }
}
