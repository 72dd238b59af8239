import { type Notice, type RateOrigin, type Recording, rateOfTimes, type SampleSpan } from '@sthene/core';
import type { Compressors, SchemaElement } from 'hyparquet';
import type { ByteSource, ReadResult } from '../format.ts';
import { ParquetFault, parquetError } from './errors.ts';
import type { FlatColumn, ParquetFile } from './metadata.ts';
import { readNumbers } from './read-column.ts';

/** What a person may have to tell about a Parquet file that is not one of ours. */
export interface ParquetReadOptions {
  /** Name of the column that holds the times. */
  readonly timeColumn?: string;
  /** Seconds per unit of that column; 1 unless its name or type says otherwise. */
  readonly secondsPerUnit?: number;
  /** Hz; used when there is no time column, and wins over one that was not named. */
  readonly sampleRate?: number;
}

const timeName = /^(?:time|timestamp|elapsed|t|seconds|milliseconds)(?:$|[\s_.([-])/i;
const milliseconds = /(?:^milliseconds$|[\s_.([-]ms\b)/i;

/** Whether the column holds plain numbers or a point in time; texts, dates and decimals of other meanings do not count. */
function isNumeric({ type, converted_type: converted, logical_type: logical }: SchemaElement): boolean {
  if (type === 'FLOAT' || type === 'DOUBLE') return true;
  if (type !== 'INT32' && type !== 'INT64') return false;
  if (
    secondsOf({
      name: '',
      ...(logical === undefined ? {} : { logical_type: logical }),
      ...(converted === undefined ? {} : { converted_type: converted }),
    }) !== undefined
  )
    return true;
  return (
    (converted === undefined || /^U?INT_/.test(converted)) && (logical === undefined || logical.type === 'INTEGER')
  );
}

/** Seconds per stored unit of a time stamp column, undefined for others. */
function secondsOf({ converted_type: converted, logical_type: logical }: SchemaElement): number | undefined {
  if (logical?.type === 'TIMESTAMP') return { MILLIS: 1e-3, MICROS: 1e-6, NANOS: 1e-9 }[logical.unit];
  if (converted === 'TIMESTAMP_MILLIS') return 1e-3;
  return converted === 'TIMESTAMP_MICROS' ? 1e-6 : undefined;
}

/** The element without a meaning that the decoder would turn into dates. */
function asNumbers(column: FlatColumn): FlatColumn {
  const { name, type, repetition_type } = column.element;
  return {
    place: column.place,
    element: {
      name,
      ...(type === undefined ? {} : { type }),
      ...(repetition_type === undefined ? {} : { repetition_type }),
    },
  };
}

function missingRows(columns: readonly Float64Array[], rows: number): SampleSpan[] {
  const spans: SampleSpan[] = [];
  for (let i = 0; i < rows; i++) {
    if (!columns.some((values) => Number.isNaN(values[i]))) continue;
    const last = spans.at(-1);
    if (last !== undefined && last.end === i) spans[spans.length - 1] = { start: last.start, end: i + 1 };
    else spans.push({ start: i, end: i + 1 });
  }
  return spans;
}

/** Decompressors are loaded only when a file needs them: some of them compile WebAssembly. */
async function compressorsFor(file: ParquetFile): Promise<Compressors> {
  const codecs = new Set(file.metadata.row_groups.flatMap((g) => g.columns.map((c) => c.meta_data?.codec)));
  if ([...codecs].every((codec) => codec === undefined || codec === 'UNCOMPRESSED' || codec === 'SNAPPY')) return {};
  const { decompressBrotli, decompressLz4, decompressLz4Raw, decompressZstd, gunzip } = await import(
    'hyparquet-compressors'
  );
  return {
    GZIP: (input, length) => gunzip(input, new Uint8Array(length)),
    BROTLI: decompressBrotli,
    // A given output keeps the decompressor from allocating by the frame's own header.
    ZSTD: (input, length) => decompressZstd(input, new Uint8Array(length)),
    LZ4: decompressLz4,
    LZ4_RAW: decompressLz4Raw,
  };
}

/**
 * Reads a Parquet file of another origin: numeric columns become channels, without units, on the grid of a time column or at
 * a given rate. Times must rise evenly: no step may be off by more than half the mean step.
 *
 * Errors: `parquet-no-numbers`, `parquet-no-rate`, and those of the pages.
 */
export async function readForeign(
  source: ByteSource,
  file: ParquetFile,
  options: ParquetReadOptions,
): Promise<ReadResult> {
  const numeric = file.columns.filter(({ element }) => isNumeric(element));
  const named = numeric.find(({ element }) => element.name === options.timeColumn);
  const found = numeric.find(({ element }) => timeName.test(element.name) || secondsOf(element) !== undefined);
  const time = options.timeColumn === undefined ? found : named;
  const channels = numeric.filter((column) => column !== time && secondsOf(column.element) === undefined);
  const names = numeric.map(({ element }) => element.name).join(', ');
  if (channels.length === 0 || file.rows === 0) {
    throw new ParquetFault(
      parquetError(
        'parquet-no-numbers',
        'This Parquet file has no numeric column that could be a force.',
        'Export the samples as columns of numbers, one row a sample.',
        { expected: 'columns of numbers', found: `${file.rows} rows; numeric: ${names === '' ? 'none' : names}` },
      ),
    );
  }
  const noRate = (message: string): ParquetFault =>
    new ParquetFault(
      parquetError('parquet-no-rate', message, 'Name the time column, or give the sampling rate in Hz.', {
        expected: 'a time column or a rate',
        found: names,
      }),
    );
  if (options.timeColumn !== undefined && time === undefined) {
    throw noRate(`There is no numeric column "${options.timeColumn}".`);
  }
  const compressors = await compressorsFor(file);
  const notices: Notice[] = [
    { code: 'parquet-foreign', message: 'Not a recording of this product: channels carry no unit and no calibration.' },
  ];
  let rate: { sampleRate: number; rateOrigin: RateOrigin; measuredRate?: number };
  if (options.sampleRate !== undefined && options.timeColumn === undefined) {
    if (!(options.sampleRate > 0 && Number.isFinite(options.sampleRate)))
      throw noRate('The given rate is not above zero.');
    rate = { sampleRate: options.sampleRate, rateOrigin: 'given' };
  } else {
    if (time === undefined) throw noRate('No column looks like a time.');
    const { name } = time.element;
    const unit = options.secondsPerUnit ?? secondsOf(time.element) ?? (milliseconds.test(name) ? 1e-3 : 1);
    const times = await readNumbers(source, file, asNumbers(time), compressors);
    const first = times[0] as number;
    const last = times[times.length - 1] as number;
    const step = (last - first) / (times.length - 1);
    const even = times.every((t, i) => i === 0 || Math.abs(t - (times[i - 1] as number) - step) <= 0.5 * step);
    const measured = rateOfTimes(times.length, 0, (last - first) * unit);
    if (!even || !measured.ok) throw noRate(`The times of column "${name}" do not rise evenly.`);
    const { sampleRate, rateOrigin, measuredRate } = measured.value;
    rate = { sampleRate, rateOrigin, measuredRate };
    notices.push(...measured.value.notices);
  }
  const values: Float64Array[] = [];
  for (const column of channels) values.push(await readNumbers(source, file, asNumbers(column), compressors));
  const recording: Recording = {
    ...rate,
    sampleCount: file.rows,
    channels: channels.map(({ element }, i) => ({
      name: element.name,
      unit: '',
      raw: values[i] as Float64Array,
      scale: 1,
      offset: 0,
    })),
    platforms: [],
    gaps: missingRows(values, file.rows),
    events: [],
    facts: {},
    notices,
  };
  return { ok: true, recordings: [{ label: '', recording }] };
}
