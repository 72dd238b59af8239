import type { RawSamples } from '@sthene/core';
import type { ColumnMetaData, Compressors } from 'hyparquet';
import { type Storage, samplesOf } from '../description/index.ts';
import type { ByteSource } from '../format.ts';
import { readFully } from '../read-fully.ts';
import { damaged } from './errors.ts';
import type { FlatColumn, ParquetFile } from './metadata.ts';
import { type Page, readPages } from './pages.ts';

/** Hands over the pages of a column in order, each with the row it begins at. */
async function eachPage(
  source: ByteSource,
  file: ParquetFile,
  column: FlatColumn,
  compressors: Compressors,
  use: (page: Page, row: number) => void,
): Promise<void> {
  const { name, type } = column.element;
  let row = 0;
  for (const group of file.metadata.row_groups) {
    const meta: ColumnMetaData | undefined = group.columns[column.place]?.meta_data;
    if (meta === undefined) throw damaged(`the column ${name} is not described in every row group`);
    if (meta.type !== type) throw damaged(`the column ${name} changes its type`);
    const start = Number(meta.dictionary_page_offset || meta.data_page_offset);
    const length = Number(meta.total_compressed_size);
    if (!(start >= 4 && length >= 0 && start + length <= source.length)) {
      throw damaged(`the column ${name} reaches past the end of the file`, source.length);
    }
    const bytes = await readFully(source, start, length);
    for (const page of readPages(bytes, meta, column.element, Number(group.num_rows), compressors, start)) {
      if (page.levels.length === 0 && page.values.length < page.rows) {
        throw damaged(`the column ${name} lacks values`, start);
      }
      use(page, row);
      row += page.rows;
    }
  }
}

/** One column of a recording's own file, exactly as stored: a column of doubles or floats keeps every bit, NaN's too. */
export async function readStored(
  source: ByteSource,
  file: ParquetFile,
  column: FlatColumn,
  storage: Storage,
): Promise<RawSamples> {
  const raw = samplesOf(storage, file.rows);
  await eachPage(source, file, column, {}, ({ values, levels, rows }, row) => {
    if (levels.length > 0) throw damaged(`the column ${column.element.name} has missing rows`);
    // Between arrays of one type this copies bits.
    raw.set((values as Float64Array).subarray(0, rows), row);
  });
  return raw;
}

/** One numeric column of any file as doubles; missing rows are NaN. */
export async function readNumbers(
  source: ByteSource,
  file: ParquetFile,
  column: FlatColumn,
  compressors: Compressors,
): Promise<Float64Array> {
  const out = new Float64Array(file.rows);
  await eachPage(source, file, column, compressors, ({ values, levels, rows }, row) => {
    // Decoders of optional columns put nulls in place already.
    const inPlace = levels.length === 0 || values.length === rows;
    for (let i = 0, v = 0; i < rows; i++) {
      const value: unknown = inPlace ? values[i] : levels[i] === 0 ? null : values[v++];
      out[row + i] = value === null || value === undefined ? Number.NaN : Number(value);
    }
  });
  return out;
}
