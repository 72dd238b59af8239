import type { Detection, Format } from '../format.ts';
import type { ParquetReadOptions } from './foreign.ts';
import { isMagic } from './metadata.ts';
import { readParquet } from './read.ts';
import { writeParquet } from './write.ts';

export type { ParquetReadOptions } from './foreign.ts';

function detect(head: Uint8Array, length: number, name: string): Detection {
  const named = /\.parquet$/i.test(name);
  if (head.length >= 4 && isMagic(head, 0)) {
    if (length < 12)
      return { match: 'damaged', reason: 'It begins like Parquet but ends at once.', at: { byte: length } };
    return { match: 'yes', reason: 'It begins with the letters PAR1.', at: { byte: 0 } };
  }
  return named
    ? { match: 'damaged', reason: 'The name says Parquet but the file does not begin with PAR1.', at: { byte: 0 } }
    : { match: 'no', reason: 'It does not begin with the letters PAR1.' };
}

/** Parquet: the file a recording is kept in, readable by any Parquet reader. */
export const parquetFormat: Format<ParquetReadOptions> = {
  id: 'parquet',
  title: 'Parquet',
  extensions: ['parquet'],
  mediaType: 'application/vnd.apache.parquet',
  detect,
  read: readParquet,
  write: async (recording) => writeParquet(recording),
};
