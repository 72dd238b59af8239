import type { Notice, RawSamples, Recording } from '@sthene/core';
import { assembleRecording, parseDescription } from '../description/index.ts';
import type { FormatError } from '../format-error.ts';
import { checkDescriptor } from './check-descriptor.ts';
import { eachRecord, numberOfField } from './csv.ts';
import { fault, PackageFault } from './errors.ts';
import { canHash, sha256Of } from './hash.ts';
import { type ResultRow, readResults } from './results.ts';
import { type UnzipLimits, unpackFiles, usualLimits } from './zip.ts';

/** A recording found in a package. */
export interface FoundRecording {
  readonly name: string;
  readonly title?: string;
  readonly recording: Recording;
}

/** What a package held. */
export interface PackageContents {
  /** The descriptor as parsed; its MUST rules hold. */
  readonly descriptor: Readonly<Record<string, unknown>>;
  readonly recordings: readonly FoundRecording[];
  /** Rows of results; null where the package has none. */
  readonly results: readonly ResultRow[] | null;
  readonly notices: readonly Notice[];
}

/** Contents, or why there are none. */
export type PackageRead =
  | { readonly ok: true; readonly contents: PackageContents }
  | { readonly ok: false; readonly error: FormatError };

type Plain = Readonly<Record<string, unknown>>;
const asExported = 'Take the package as it was exported.';

function textOfFile(bytes: Uint8Array, path: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw fault('data-package-damaged', `${path} is not UTF-8 text.`, asExported, { found: path });
  }
}

/** The bytes of a resource, with length and hash as its descriptor says. */
async function bytesOfResource(files: ReadonlyMap<string, Uint8Array>, resource: Plain): Promise<Uint8Array> {
  const path = String(resource.path);
  const bytes = files.get(path);
  if (bytes === undefined) {
    throw fault('data-package-file-missing', `The package names ${path} but does not hold it.`, asExported, {
      expected: path,
    });
  }
  const changed = (expected: string, found: string): PackageFault =>
    fault('data-package-file-changed', `${path} is not the file that was exported.`, asExported, { expected, found });
  if (typeof resource.bytes === 'number' && resource.bytes !== bytes.length) {
    throw changed(`${resource.bytes} bytes`, `${bytes.length} bytes`);
  }
  if (typeof resource.hash === 'string' && resource.hash.startsWith('sha256:') && canHash()) {
    const hash = await sha256Of(bytes);
    if (hash !== resource.hash) throw changed(resource.hash, hash);
  }
  return bytes;
}

function recordingOf(text: string, resource: Plain): Recording {
  const path = String(resource.path);
  const bad = (what: string, row?: number): PackageFault =>
    fault('data-package-bad-table', `${path}: ${what}.`, asExported, row === undefined ? {} : { at: { row } });
  const parsed = parseDescription(resource.recording);
  if (!parsed.ok) throw bad(`its description is not sound at ${parsed.path} (expected ${parsed.expected})`);
  const { description } = parsed;
  if (description.channels.some((channel) => channel.storage !== 'float64'))
    throw bad('its channels are not numbers of a table');
  const forces = description.platforms.flatMap((platform, i) => (platform.hasForce ? [i] : []));
  const width = 1 + description.channels.length + forces.length;
  const { sampleCount } = description;
  // Every field takes at least one byte with its separator: more cannot be there, whatever the description claims.
  if ((sampleCount + 1) * width > text.length + 1)
    throw bad(`it is too short for ${sampleCount} rows of ${width} fields`);
  const columns = Array.from({ length: width }, () => new Float64Array(sampleCount));
  let rows = -1;
  const closed = eachRecord(text, (record, i) => {
    if (record.length !== width) throw bad(`${record.length} fields instead of ${width}`, i + 1);
    rows = i;
    if (i === 0 || i > sampleCount) return;
    for (let c = 0; c < width; c++) {
      const field = record[c] as string;
      const value = numberOfField(field);
      if (value === undefined) throw bad(`"${field.slice(0, 40)}" is no number`, i + 1);
      (columns[c] as Float64Array)[i - 1] = value;
    }
  });
  if (!closed) throw bad('a quote is never closed');
  if (rows !== sampleCount) throw bad(`${Math.max(0, rows)} rows stand where ${sampleCount} are described`);
  const raw: RawSamples[] = columns.slice(1, 1 + description.channels.length);
  const ofPlatforms = new Map(forces.map((p, k) => [p, columns[1 + raw.length + k] as Float64Array]));
  return assembleRecording(description, raw, ofPlatforms);
}

/**
 * Reads a Data Package written by this product: its recordings with the same physical values, and its results.
 *
 * Errors: `data-package-no-descriptor`, `data-package-invalid`, `data-package-file-missing`, `data-package-file-changed`,
 * `data-package-bad-table`, `data-package-damaged`.
 *
 * @param files by path, as unpacked
 */
export async function readDataPackage(files: ReadonlyMap<string, Uint8Array>): Promise<PackageRead> {
  try {
    const json = files.get('datapackage.json');
    if (json === undefined) {
      const next = 'Choose the folder or file that holds datapackage.json at its top.';
      throw fault('data-package-no-descriptor', 'There is no datapackage.json at the top of the package.', next);
    }
    let descriptor: Plain;
    try {
      descriptor = JSON.parse(textOfFile(json, 'datapackage.json')) as Plain;
    } catch (error) {
      if (error instanceof PackageFault) throw error;
      throw fault('data-package-invalid', 'datapackage.json is not valid JSON.', asExported);
    }
    const problem = checkDescriptor(descriptor)[0];
    if (problem !== undefined) {
      const message = `datapackage.json breaks the standard at ${problem.path}: expected ${problem.expected}.`;
      throw fault('data-package-invalid', message, 'Ask the maker for a valid package.', {
        expected: problem.expected,
      });
    }
    const notices: Notice[] = [];
    if (!canHash()) {
      notices.push({
        code: 'data-package-not-verified',
        message: 'This page may not compute hashes; files were not verified.',
      });
    }
    const recordings: FoundRecording[] = [];
    let results: ResultRow[] | null = null;
    for (const resource of descriptor.resources as readonly Plain[]) {
      if (typeof resource.path !== 'string' || /^https?:\/\//.test(resource.path)) continue;
      const bytes = await bytesOfResource(files, resource);
      if (resource.recording !== undefined) {
        const recording = recordingOf(textOfFile(bytes, resource.path), resource);
        const title = typeof resource.title === 'string' ? { title: resource.title } : {};
        recordings.push({ name: String(resource.name), ...title, recording });
      } else if (resource.name === 'results' && resource.path === 'results.csv') {
        results = readResults(textOfFile(bytes, resource.path));
      }
    }
    return { ok: true, contents: { descriptor, recordings, results, notices } };
  } catch (error) {
    if (error instanceof PackageFault) return { ok: false, error: error.error };
    throw error;
  }
}

/** The same from one ZIP file; also `data-package-unsafe-path` and `data-package-too-large`. */
export async function readDataPackageZip(zip: Uint8Array, limits: UnzipLimits = usualLimits): Promise<PackageRead> {
  let files: Map<string, Uint8Array>;
  try {
    files = unpackFiles(zip, limits);
  } catch (error) {
    if (error instanceof PackageFault) return { ok: false, error: error.error };
    throw error;
  }
  return readDataPackage(files);
}
