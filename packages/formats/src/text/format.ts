import type { Detection, Format } from '../format.ts';
import { recogniseBytes } from './head.ts';
import type { TextOptions } from './options.ts';
import { readText } from './read.ts';
import { writeText } from './write.ts';

/** Tables of numbers in text: comma, semicolon, tab, blanks; our own text form among them. */
export const textFormat: Format<TextOptions> = {
  id: 'text',
  title: 'Text table (CSV, TSV)',
  extensions: ['csv', 'tsv', 'txt', 'dat', 'asc'],
  mediaType: 'text/csv',
  detect: detectText,
  read: (source, options = {}) => readText(source, options),
  write: async (recording) => writeText(recording),
};

function detectText(head: Uint8Array, length: number): Detection {
  if (head.length === 0) return { match: 'no', reason: 'The file is empty.', at: { byte: 0 } };
  const result = recogniseBytes(head, length, {});
  if (!result.ok) {
    const { code, message, at } = result.error;
    // Words without numbers at the beginning of a longer text may still be a preamble.
    const early = code === 'text-no-numbers' && head.length < length;
    return { match: early ? 'maybe' : 'no', reason: message, ...(at === undefined ? {} : { at }) };
  }
  const { columns, headerRow, dataRow } = result.found.description;
  const at = { row: dataRow };
  const timed = columns.some((column) => column.role === 'time');
  if (timed && headerRow !== undefined) {
    return {
      match: 'yes',
      reason: `A table of numbers with named columns and a time column; data from row ${dataRow}.`,
      at,
    };
  }
  const lacks = timed ? 'column names' : 'a time column, so the rate has to be given';
  return { match: 'maybe', reason: `A table of numbers from row ${dataRow}, but without ${lacks}.`, at };
}
