import type { OpenLab } from '../labs/open-lab.ts';
import { problems } from '../server/problem-error.ts';

/** A recording byte for byte, with the header that makes a browser save it under its own name. */
export async function recordingFile(lab: OpenLab, sha256: string): Promise<{ bytes: Uint8Array; disposition: string }> {
  const recording = /^[0-9a-f]{64}$/.test(sha256) ? await lab.store.recordings.get(sha256) : undefined;
  const bytes = recording && (await lab.store.recordings.bytes(sha256));
  if (recording === undefined || bytes === undefined) throw problems.notFound('recording');
  const plain = recording.fileName.replace(/[^\w.-]+/g, '_');
  return {
    bytes,
    disposition: `attachment; filename="${plain}"; filename*=UTF-8''${encodeURIComponent(recording.fileName)}`,
  };
}
