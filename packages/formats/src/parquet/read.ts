import type { RawSamples, Recording } from '@sthene/core';
import { assembleRecording, parseDescriptionJson, type RecordingDescription } from '../description/index.ts';
import type { ByteSource, ReadResult } from '../format.ts';
import { descriptionKey, physicalTypes } from './columns.ts';
import { damaged, ParquetFault, parquetError } from './errors.ts';
import { type ParquetReadOptions, readForeign } from './foreign.ts';
import { type ParquetFile, readMetadata } from './metadata.ts';
import { readStored } from './read-column.ts';

/** The recording of a file that carries a description: the columns must be the ones it names. */
async function readOwn(source: ByteSource, file: ParquetFile, description: RecordingDescription): Promise<Recording> {
  const forces = description.platforms.flatMap((platform, i) => (platform.hasForce ? [i] : []));
  const storages = [...description.channels.map((c) => c.storage), ...forces.map(() => 'float64' as const)];
  if (file.rows !== description.sampleCount && storages.length > 0) {
    throw damaged(`it holds ${file.rows} rows where its description says ${description.sampleCount}`);
  }
  const read: RawSamples[] = [];
  for (const [i, storage] of storages.entries()) {
    const column = file.columns[i];
    const { type } = physicalTypes[storage];
    if (column === undefined || column.element.type !== type) throw damaged(`column ${i + 1} is not of type ${type}`);
    read.push(await readStored(source, file, column, storage));
  }
  const ofPlatforms = new Map(forces.map((i, k) => [i, read[description.channels.length + k] as Float64Array]));
  return assembleRecording(description, read.slice(0, description.channels.length), ofPlatforms);
}

/**
 * Reads a Parquet file: a recording of this product exactly as it was written, or the numeric columns of another file.
 *
 * Nothing is allocated by a count the file claims before that count is checked against the bytes that are there.
 *
 * Errors: `parquet-empty`, `parquet-not-parquet`, `parquet-damaged`, `parquet-too-large`, `parquet-description-unfit`,
 * `parquet-no-numbers`, `parquet-no-rate`.
 */
export async function readParquet(source: ByteSource, options: ParquetReadOptions = {}): Promise<ReadResult> {
  try {
    if (source.length === 0) {
      const next = 'Copy the file again from its source.';
      return { ok: false, error: parquetError('parquet-empty', 'The file is empty (0 bytes).', next) };
    }
    const file = await readMetadata(source);
    const json = file.metadata.key_value_metadata?.find(({ key }) => key === descriptionKey)?.value;
    if (json === undefined) return await readForeign(source, file, options);
    const parsed = parseDescriptionJson(json);
    if (!parsed.ok) {
      return {
        ok: false,
        error: parquetError(
          'parquet-description-unfit',
          `The description in the file is not sound at ${parsed.path}: expected ${parsed.expected}.`,
          'Use a newer version of the program, or take the copy that was archived.',
          { expected: parsed.expected },
        ),
      };
    }
    const recording = await readOwn(source, file, parsed.description);
    return { ok: true, recordings: [{ label: '', recording }] };
  } catch (error) {
    if (error instanceof ParquetFault) return { ok: false, error: error.error };
    // The decoders tell damage by throwing plain errors; the words are theirs.
    return { ok: false, error: damaged((error as Error).message).error };
  }
}
