import { type FileMetaData, parquetMetadata, type SchemaElement } from 'hyparquet';
import type { ByteSource } from '../format.ts';
import { readFully } from '../read-fully.ts';
import { damaged, ParquetFault, parquetError } from './errors.ts';

/** Largest description of a file that is read at all, bytes. */
const mostMetadata = 64 * 1024 * 1024;
/** Rows times columns that are read at all: 1 GiB as doubles. */
const mostValues = 2 ** 27;
/** No compression of measured numbers comes near this many rows a byte. */
const mostRowsPerByte = 8192;

/** 'PAR1', at both ends of the file. */
export const isMagic = (bytes: Uint8Array, at: number): boolean =>
  bytes[at] === 0x50 && bytes[at + 1] === 0x41 && bytes[at + 2] === 0x52 && bytes[at + 3] === 0x31;

/** A column without nesting: its element of the schema and its place among the columns of each row group. */
export interface FlatColumn {
  readonly element: SchemaElement;
  readonly place: number;
}

/** What the footer says, checked against the file's length. */
export interface ParquetFile {
  readonly metadata: FileMetaData;
  readonly rows: number;
  /** Columns directly below the root; others are nested and not read. */
  readonly columns: readonly FlatColumn[];
}

/** Columns without nesting, with their place among all leaves in file order. */
function flatColumns(schema: readonly SchemaElement[]): FlatColumn[] {
  const flat: FlatColumn[] = [];
  let leaf = 0;
  const walk = (at: number, depth: number): number => {
    const element = schema[at];
    if (element === undefined || depth > 64) throw damaged('its schema names columns it does not describe');
    let next = at + 1;
    const children = element.num_children ?? 0;
    if (children === 0 && at > 0) {
      if (depth === 1 && element.repetition_type !== 'REPEATED') flat.push({ element, place: leaf });
      leaf++;
    }
    for (let n = 0; n < children; n++) next = walk(next, depth + 1);
    return next;
  };
  if (schema.length > 0) walk(0, 0);
  return flat;
}

/**
 * Reads and checks the footer.
 *
 * @throws ParquetFault with `parquet-not-parquet`, `parquet-damaged` or `parquet-too-large`
 */
export async function readMetadata(source: ByteSource): Promise<ParquetFile> {
  const tail = await readFully(source, source.length - 8, 8);
  if (source.length < 12 || tail.length < 8 || !isMagic(tail, 4)) {
    throw new ParquetFault(
      parquetError(
        'parquet-not-parquet',
        'A Parquet file ends with the letters PAR1; this one does not. It may have been cut.',
        'Copy the file again from its source.',
        { expected: 'PAR1', at: { byte: Math.max(0, source.length - 4) } },
      ),
    );
  }
  const length = new DataView(tail.buffer, tail.byteOffset, 8).getUint32(0, true);
  if (length > source.length - 12) throw damaged(`its footer claims ${length} bytes`, source.length - 8);
  if (length > mostMetadata) throw tooLarge(`${length} bytes of footer`);
  const footer = await readFully(source, source.length - 8 - length, length + 8);
  let metadata: FileMetaData;
  try {
    metadata = parquetMetadata(footer, { geoparquet: false });
  } catch (error) {
    throw damaged(`its footer cannot be read (${(error as Error).message})`, source.length - 8 - length);
  }
  const columns = flatColumns(metadata.schema);
  const groups = metadata.row_groups.map((group) => Number(group.num_rows));
  const rows = groups.reduce((sum, count) => sum + count, 0);
  if (!groups.every((count) => Number.isSafeInteger(count) && count >= 0) || rows !== Number(metadata.num_rows)) {
    throw damaged('its row counts contradict each other');
  }
  const values = rows * Math.max(1, columns.length);
  if (values > mostValues || rows > mostRowsPerByte * source.length) throw tooLarge(`${rows} rows`);
  return { metadata, rows, columns };
}

function tooLarge(found: string): ParquetFault {
  return new ParquetFault(
    parquetError(
      'parquet-too-large',
      `The file claims ${found}, more than is read.`,
      'Split the recording into shorter files.',
      {
        expected: `at most ${mostValues} values`,
        found,
      },
    ),
  );
}
