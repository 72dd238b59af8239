import type { ByteSource, Detection, Format, ReadResult } from '../format.ts';
import { readFully } from '../read-fully.ts';
import { fault } from './errors.ts';
import { readDataPackageZip } from './read.ts';
import { writeDataPackageZip } from './write.ts';
import { usualLimits } from './zip.ts';

export { checkDescriptor, type Problem } from './check-descriptor.ts';
export type { Descriptor, License, PackageInfo } from './descriptor.ts';
export {
  type FoundRecording,
  type PackageContents,
  type PackageRead,
  readDataPackage,
  readDataPackageZip,
} from './read.ts';
export { packageName, resultRowsOf } from './result-rows.ts';
export type { ResultRow } from './results.ts';
export { hideSmallCells } from './small-cells.ts';
export { isUcum } from './ucum.ts';
export { type PackageInput, type PackageRecording, writeDataPackage, writeDataPackageZip } from './write.ts';
export { packFiles, type UnzipLimits, unpackFiles } from './zip.ts';

function detect(head: Uint8Array, length: number, name: string): Detection {
  const zip = head[0] === 0x50 && head[1] === 0x4b && head[2] === 3 && head[3] === 4;
  if (!zip) return { match: 'no', reason: 'It is not a ZIP file.' };
  const first = String.fromCharCode(...head.subarray(30, 46));
  if (first === 'datapackage.json')
    return { match: 'yes', reason: 'A ZIP file that begins with datapackage.json.', at: { byte: 30 } };
  return length > 0 && name.toLowerCase().endsWith('.zip')
    ? { match: 'maybe', reason: 'A ZIP file; it may hold a Data Package.' }
    : { match: 'no', reason: 'A ZIP file that does not begin with datapackage.json.' };
}

async function read(source: ByteSource): Promise<ReadResult> {
  const refuse = (
    code: 'data-package-too-large' | 'data-package-not-zip' | 'data-package-no-recordings',
    message: string,
    next: string,
  ) => ({ ok: false, error: fault(code, message, next).error }) as const;
  if (source.length > usualLimits.bytes) {
    return refuse('data-package-too-large', `The file has ${source.length} bytes.`, 'Split the package.');
  }
  const zip = await readFully(source, 0, source.length);
  if (!(zip[0] === 0x50 && zip[1] === 0x4b)) {
    return refuse(
      'data-package-not-zip',
      'A packed Data Package is a ZIP file; this is none.',
      'Check the kind of file.',
    );
  }
  const found = await readDataPackageZip(zip);
  if (!found.ok) return found;
  const { recordings, notices } = found.contents;
  if (recordings.length === 0) {
    const next = 'Unpack it and read its CSV files one by one.';
    return refuse('data-package-no-recordings', 'This Data Package holds no recording of this product.', next);
  }
  return {
    ok: true,
    recordings: recordings.map(({ name, recording }) => ({
      label: recordings.length === 1 ? '' : name,
      recording: { ...recording, notices: [...recording.notices, ...notices] },
    })),
  };
}

/** Data Package in one ZIP file: CSV curves, results and a description, for sharing and archives. */
export const dataPackageFormat: Format = {
  id: 'data-package',
  title: 'Data Package',
  extensions: ['zip'],
  mediaType: 'application/zip',
  detect,
  read,
  write: (recording) =>
    writeDataPackageZip({
      info: { name: 'recording' },
      recordings: [{ name: 'recording', recording }],
      keepFacts: true,
    }),
};
