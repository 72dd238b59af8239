import type { ReceivedImport } from '@sthene/contract';
import { type ReceivedImport as Stored, StoreError } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';

/** Tables that were brought in, newest first. */
export async function listReceived(lab: OpenLab): Promise<ReceivedImport[]> {
  return Promise.all((await lab.store.received.list()).map((one) => importAnswer(lab, one)));
}

/** An import as a screen shows it. */
export async function importAnswer(lab: OpenLab, one: Stored): Promise<ReceivedImport> {
  const [labels, [first]] = await Promise.all([
    lab.store.received.labelsOf(one.id),
    lab.store.revisions.of('received', one.id),
  ]);
  const { id, kind, fileName, importedAt, sessions, values, takenBack } = one;
  return {
    id,
    kind,
    fileName,
    importedAt,
    sessions,
    values,
    takenBack,
    labels,
    by: first ? await lab.nameOf(first.by) : '',
  };
}

/** Takes an import back as a whole, or puts it back. */
export async function takeBackReceived(
  lab: OpenLab,
  id: string,
  { takenBack, reason, by }: { readonly takenBack: boolean; readonly reason: string; readonly by: string },
): Promise<ReceivedImport> {
  try {
    const actor = await lab.actor(by);
    return await importAnswer(lab, await lab.store.received.takeBack(id, takenBack, actor, { reason }));
  } catch (error) {
    if (error instanceof StoreError && error.code === 'not-found') throw problems.notFound('import');
    throw error;
  }
}

/** The file of an import as it was received. */
export async function receivedFileOf(lab: OpenLab, id: string): Promise<{ bytes: Buffer; disposition: string }> {
  const known = await lab.store.received.get(id);
  const bytes = await lab.store.received.bytes(id);
  if (known === undefined || bytes === undefined) throw problems.notFound('import');
  const plain = known.fileName.replace(/[^\w.-]+/g, '_').slice(-80);
  return {
    bytes: Buffer.from(bytes),
    disposition: `attachment; filename="${plain}"; filename*=UTF-8''${encodeURIComponent(known.fileName)}`,
  };
}
