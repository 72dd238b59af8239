import { textOf } from './grid.ts';
import { readCsv } from './read-csv.ts';
import { looksLikeSheet } from './sheet-mark.ts';
import { suggestMapping } from './suggest.ts';

/** Whether a file is a table of results: surely, perhaps (ask), or not. */
export type LooksLikeResults = 'yes' | 'perhaps' | 'no';

/**
 * Tells a table of results from a curve by its first bytes. A curve is rows of numbers alone; a table of results names people or days
 * in its rows. In doubt a person is asked.
 *
 * @param head first bytes, up to 64 kB
 * @param isCurve whether a format of curves reads the file
 */
export function looksLikeResults(head: Uint8Array, isCurve: boolean): LooksLikeResults {
  // A package of ours is packed in the same way as a spreadsheet.
  if (looksLikeSheet(head)) return isCurve ? 'no' : 'yes';
  // The last line may be cut, and a quote with it; it says nothing.
  const cut = head.lastIndexOf(0x0a);
  const read = readCsv(cut > 0 ? head.subarray(0, cut + 1) : head);
  if (!read.ok || read.grid.columns < 2) return 'no';
  const { mapping } = suggestMapping(read.grid);
  const has = (...roles: string[]) => mapping.columns.some(({ as }) => roles.includes(as));
  const someone = has('code', 'name', 'family-name', 'given-name');
  const something = has('values') || (has('value') && has('metric'));
  const body = read.grid.rows.slice(mapping.first - 1, mapping.first + 40);
  const words = body.filter((row) => row.some((cell) => /\p{L}{2}|\d[-/.]\d+[-/.]\d/u.test(textOf(cell)))).length;
  const wordy = body.length > 0 && words >= body.length / 2;
  if (someone && something && (wordy || !isCurve)) return 'yes';
  if (isCurve) return someone && wordy ? 'perhaps' : 'no';
  return (someone || something || has('date')) && mapping.header > 0 ? 'perhaps' : 'no';
}
