import { type Unzipped, unzipSync, type Zippable, zipSync } from 'fflate';
import { fault, PackageFault } from './errors.ts';
import { unsafePath } from './paths.ts';

/** Limits of what is unpacked. */
export interface UnzipLimits {
  readonly entries: number;
  /** Bytes of all files together after unpacking. */
  readonly bytes: number;
  /** Largest ratio of unpacked to packed bytes of one file; deflate itself cannot exceed about 1032. */
  readonly ratio: number;
}

export const usualLimits: UnzipLimits = { entries: 10_000, bytes: 512 * 1024 * 1024, ratio: 1100 };

/** Files in one ZIP, in the order of the map, with one fixed time: the same files give the same bytes. */
export function packFiles(files: ReadonlyMap<string, Uint8Array>): Uint8Array {
  const entries: Zippable = {};
  for (const [path, bytes] of files) entries[path] = bytes;
  // ZIP keeps local time; a date made of local parts is the same everywhere.
  return zipSync(entries, { level: 6, mtime: new Date(1980, 0, 1, 0, 0, 0) });
}

/**
 * Unpacks a ZIP with every entry checked before its bytes are made: safe path, no name twice, number, size and ratio within
 * the limits.
 *
 * @throws PackageFault `data-package-damaged`, `data-package-unsafe-path`, `data-package-too-large`
 */
export function unpackFiles(zip: Uint8Array, limits: UnzipLimits = usualLimits): Map<string, Uint8Array> {
  const seen = new Set<string>();
  let entries = 0;
  let total = 0;
  let unpacked: Unzipped;
  try {
    unpacked = unzipSync(zip, {
      filter: ({ name, size, originalSize }) => {
        entries++;
        total += originalSize;
        const tooLarge = (what: string, expected: string): PackageFault =>
          fault('data-package-too-large', `The package ${what}.`, 'Check where the file comes from.', { expected });
        if (entries > limits.entries) throw tooLarge('has too many files', `at most ${limits.entries} files`);
        if (total > limits.bytes) throw tooLarge('unpacks to too many bytes', `at most ${limits.bytes} bytes`);
        if (originalSize > limits.ratio * size + 1024) {
          throw tooLarge(`holds "${name}", which claims to grow beyond measure`, `at most ${limits.ratio} to 1`);
        }
        const folder = name.endsWith('/');
        const why = unsafePath(folder ? name.slice(0, -1) : name);
        if (why !== null) {
          const next = 'Do not open this package; it was not made by a well-behaved program.';
          throw fault('data-package-unsafe-path', `The package holds the path "${name}": ${why}.`, next, {
            found: name,
          });
        }
        if (seen.has(name)) throw damagedZip(`it holds "${name}" twice`);
        seen.add(name);
        return !folder;
      },
    });
  } catch (error) {
    if (error instanceof PackageFault) throw error;
    throw damagedZip((error as Error).message);
  }
  return new Map(Object.entries(unpacked));
}

const damagedZip = (found: string): PackageFault =>
  fault('data-package-damaged', `The ZIP file is damaged: ${found}.`, 'Copy the file again from its source.', {
    found,
  });
