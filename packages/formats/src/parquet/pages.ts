import type { ColumnMetaData, Compressors, DecodedArray, SchemaElement } from 'hyparquet';
import { parquetHeader } from 'hyparquet/src/column.js';
import { convertWithDictionary, DEFAULT_PARSERS } from 'hyparquet/src/convert.js';
import { decompressPage, readDataPage, readDataPageV2 } from 'hyparquet/src/datapage.js';
import { readRleBitPackedHybrid } from 'hyparquet/src/encoding.js';
import { readPlain } from 'hyparquet/src/plain.js';
import { damaged } from './errors.ts';
import { runsAreSound } from './runs.ts';

type Header = ReturnType<typeof parquetHeader>;

/** Bytes a value of the types read here can take, with its levels, before compression. */
const bytesPerValue = 16;
const pageSlack = 65536;

/** Plain encodings whose decoders allocate by the count alone, which is checked first. */
const direct = ['PLAIN', 'BYTE_STREAM_SPLIT', 'DELTA_BINARY_PACKED'];
const indexed = ['PLAIN_DICTIONARY', 'RLE_DICTIONARY'];

/** One decoded page: defined values in order, and a level (1 defined, 0 missing) a row where rows may be missing. */
export interface Page {
  readonly values: DecodedArray;
  readonly levels: readonly number[];
  readonly rows: number;
}

function check(condition: boolean, found: string, byte: number): void {
  if (!condition) throw damaged(found, byte);
}

/** Whether delta-packed bytes begin with a block layout the format allows; a forged one would loop or run past the end. */
function deltaIsSound(bytes: Uint8Array): boolean {
  const numbers: number[] = [];
  for (let at = 0; numbers.length < 2; ) {
    let value = 0;
    for (let factor = 1; ; factor *= 128) {
      const byte = bytes[at++];
      if (byte === undefined || factor > 2 ** 28) return false;
      value += (byte & 0x7f) * factor;
      if (byte < 0x80) break;
    }
    numbers.push(value);
  }
  const [block = 0, parts = 0] = numbers;
  return block > 0 && block % 128 === 0 && block <= 65536 && parts > 0 && parts <= 512 && (block / parts) % 32 === 0;
}

/** Values part of a page, after its levels: dictionary indices and delta blocks are looked at before they are decoded. */
function checkValues(bytes: Uint8Array, encoding: string, count: number, byte: number): void {
  if (indexed.includes(encoding)) {
    const sound = count === 0 || (bytes.length > 0 && runsAreSound(bytes.subarray(1), bytes[0] as number, count));
    check(sound, 'a page holds impossible runs', byte);
  } else check(direct.includes(encoding), `a page uses the encoding ${encoding}`, byte);
  if (encoding === 'DELTA_BINARY_PACKED')
    check(count === 0 || deltaIsSound(bytes), 'a page holds impossible blocks', byte);
}

/** Rows that hold a value, from checked levels of one bit. */
function definedIn(levels: Uint8Array, count: number): number {
  const each = new Array<number>(count);
  const view = new DataView(levels.buffer, levels.byteOffset, levels.byteLength);
  readRleBitPackedHybrid({ view, offset: 0 }, 1, each, levels.length);
  return each.reduce((sum, level) => sum + level, 0);
}

/**
 * Decodes the pages of one column chunk without nesting. Every size and count is checked against the bytes that are there
 * before anything is allocated by it.
 *
 * @param bytes the chunk
 * @param rows rows the chunk must give
 * @param at byte offset of the chunk in the file, for messages
 * @throws ParquetFault, or an error of the decoder for damage that only decoding shows
 */
export function readPages(
  bytes: Uint8Array,
  meta: ColumnMetaData,
  element: SchemaElement,
  rows: number,
  compressors: Compressors,
  at: number,
): Page[] {
  const optional = element.repetition_type !== 'REQUIRED';
  // The decoders want the path from the root; the root itself counts for nothing.
  const schemaPath = [{ name: 'root' }, element].map((e) => ({ children: [], count: 1, element: e, path: [] }));
  const decoder = {
    ...meta,
    pathInSchema: meta.path_in_schema,
    element,
    schemaPath,
    compressors,
    parsers: DEFAULT_PARSERS,
  };
  const reader = { view: new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength), offset: 0 };
  const pages: Page[] = [];
  let dictionary: DecodedArray | undefined;
  let done = 0;
  while (done < rows && reader.offset < bytes.length) {
    const header: Header = parquetHeader(reader);
    const byte = at + reader.offset;
    const size = header.compressed_page_size;
    check(size >= 0 && reader.offset + size <= bytes.length, 'a page reaches past its column', byte);
    const body = bytes.subarray(reader.offset, reader.offset + size);
    reader.offset += size;
    const { data_page_header: v1, data_page_header_v2: v2, dictionary_page_header: dict } = header;
    const count = v1?.num_values ?? v2?.num_values ?? dict?.num_values ?? -1;
    const most = dict === undefined ? rows - done : rows;
    check(count >= 0 && count <= most, 'a page claims more values than its column has', byte);
    const room = count * bytesPerValue + pageSlack;
    check(
      header.uncompressed_page_size >= 0 && header.uncompressed_page_size <= room,
      'a page claims too much room',
      byte,
    );

    if (dict !== undefined) {
      const page = decompressPage(body, header.uncompressed_page_size, meta.codec, compressors);
      const view = new DataView(page.buffer, page.byteOffset, page.byteLength);
      dictionary = readPlain({ view, offset: 0 }, meta.type, count, element.type_length);
      continue;
    }
    let decoded: { definitionLevels: number[] | undefined; dataPage: DecodedArray };
    let encoding: string;
    if (v2 !== undefined) {
      encoding = v2.encoding;
      const levels = v2.definition_levels_byte_length;
      const fits = v2.repetition_levels_byte_length === 0 && levels >= 0 && levels <= size;
      check(fits && v2.num_nulls >= 0 && v2.num_nulls <= count, 'the levels of a page do not fit it', byte);
      if (optional) check(runsAreSound(body.subarray(0, levels), 1, count), 'a page holds impossible runs', byte);
      const packed = v2.is_compressed !== false && meta.codec !== 'UNCOMPRESSED';
      const rest = body.subarray(levels);
      const plain = packed
        ? decompressPage(rest, header.uncompressed_page_size - levels, meta.codec, compressors)
        : rest;
      checkValues(plain, encoding, count - v2.num_nulls, byte);
      decoded = readDataPageV2(body, header, decoder as never);
    } else if (v1 !== undefined) {
      encoding = v1.encoding;
      const page = decompressPage(body, header.uncompressed_page_size, meta.codec, compressors);
      let values = page;
      let defined = count;
      if (optional) {
        check(page.length >= 4, 'a page is too short for its levels', byte);
        const length = new DataView(page.buffer, page.byteOffset, page.byteLength).getUint32(0, true);
        check(4 + length <= page.length, 'the levels of a page do not fit it', byte);
        check(runsAreSound(page.subarray(4, 4 + length), 1, count), 'a page holds impossible runs', byte);
        values = page.subarray(4 + length);
        defined = definedIn(page.subarray(4, 4 + length), count);
      }
      checkValues(values, encoding, defined, byte);
      decoded = readDataPage(page, v1, decoder as never);
    } else throw damaged('a page of unknown type', byte);

    const { dataPage, definitionLevels } = decoded;
    if (indexed.includes(encoding)) {
      const known = dictionary?.length ?? 0;
      for (let i = 0; i < dataPage.length; i++) check(dataPage[i] < known, 'a page points past its dictionary', byte);
    }
    const values = convertWithDictionary(dataPage, dictionary, encoding as 'PLAIN', decoder as never);
    pages.push({ values, levels: definitionLevels ?? [], rows: count });
    done += count;
  }
  check(done === rows, `a column holds ${done} of ${rows} rows`, at + bytes.length);
  return pages;
}
