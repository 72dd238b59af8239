import type { RawSamples, Recording } from '@sthene/core';
import type { SchemaElement } from 'hyparquet';
import { type ColumnSource, parquetWriteBuffer } from 'hyparquet-writer';
import { describeRecording, parseDescriptionJson } from '../description/index.ts';
import { WriteRefused } from '../write-refused.ts';
import { columnsOf, descriptionKey, physicalTypes, type RecordingColumn } from './columns.ts';
import { parquetError } from './errors.ts';

/** Rows of one row group: long recordings stay readable in pieces. */
const groupRows = 1_000_000;

function samplesFor(column: RecordingColumn, raw: RawSamples): RawSamples {
  const { type } = physicalTypes[column.storage];
  if (type === 'INT32') return raw instanceof Int32Array ? raw : Int32Array.from(raw);
  return column.storage === 'uint32' ? Float64Array.from(raw) : raw;
}

/**
 * Writes a recording as Parquet: a column a channel with the raw values in their stored type, a column a platform force,
 * and the description (`sthene.recording/1`) as key-value metadata. The same recording gives the same bytes.
 *
 * Floats are split by bytes and integers delta-packed, both then compressed with Snappy. Dictionaries are not used: they
 * would take -0 for 0.
 *
 * @throws WriteRefused `parquet-undescribable` when names repeat, lengths differ or a number of the description is not finite
 */
export function writeParquet(recording: Recording): Uint8Array {
  const description = JSON.stringify(describeRecording(recording));
  const parsed = parseDescriptionJson(description);
  const arrays: RawSamples[] = [
    ...recording.channels.map((channel) => channel.raw),
    ...recording.platforms.flatMap((platform) =>
      platform.verticalForce === undefined ? [] : [platform.verticalForce],
    ),
  ];
  const uneven = arrays.some((samples) => samples.length !== recording.sampleCount);
  if (!parsed.ok || uneven) {
    const at = parsed.ok ? 'samples' : parsed.path;
    const expected = parsed.ok ? `${recording.sampleCount} in each column` : parsed.expected;
    throw new WriteRefused(
      parquetError(
        'parquet-undescribable',
        `The recording breaks a rule of its own description at ${at}: expected ${expected}.`,
        'Read the recording again from its source.',
        { expected },
      ),
    );
  }
  const columns = columnsOf(recording);
  const schema: SchemaElement[] = [
    { name: 'recording', num_children: columns.length },
    ...columns.map(({ name, storage }): SchemaElement => {
      const { type, converted } = physicalTypes[storage];
      return {
        name,
        type,
        repetition_type: 'REQUIRED',
        ...(converted === undefined ? {} : { converted_type: converted }),
      };
    }),
  ];
  const columnData = columns.map((column, i): ColumnSource => {
    const integer = physicalTypes[column.storage].type === 'INT32';
    return {
      name: column.name,
      data: samplesFor(column, arrays[i] as RawSamples) as Float64Array,
      encoding: integer ? 'DELTA_BINARY_PACKED' : 'BYTE_STREAM_SPLIT',
    };
  });
  const file = parquetWriteBuffer({
    schema,
    columnData,
    rowGroupSize: groupRows,
    statistics: false,
    kvMetadata: [{ key: descriptionKey, value: description }],
    createdBy: 'sthene',
  });
  return new Uint8Array(file);
}
