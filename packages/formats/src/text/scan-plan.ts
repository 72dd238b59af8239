import type { FormatError } from '../format-error.ts';
import { columnOf, unknownColumn } from './column-names.ts';
import type { TextColumn, TextDescription } from './description.ts';
import type { ScanPlan } from './row-scanner.ts';

/** The columns to store: the time axis first, then the chosen channels in the order of the file. */
export function chooseColumns(
  description: TextDescription,
  wanted: readonly (string | number)[] | undefined,
): { readonly ok: true; readonly columns: TextColumn[] } | { readonly ok: false; readonly error: FormatError } {
  const { columns, time } = description;
  const names = columns.map((column) => column.name);
  const headers = columns.map((column) => column.header);
  const axis = columns.filter((column) => column.number === time?.column);
  const channels = columns.filter((column) => column.role === 'channel');
  if (wanted === undefined) return { ok: true, columns: [...axis, ...channels] };
  const numbers = new Set<number>();
  for (const key of wanted) {
    const index = columnOf(key, names, headers);
    const column = index === undefined ? undefined : columns[index];
    if (column === undefined || column.role === 'text' || column.role === 'empty') {
      return {
        ok: false,
        error: unknownColumn(
          String(key),
          channels.map((channel) => channel.name),
        ),
      };
    }
    numbers.add(column.number);
  }
  const chosen = channels.filter((column) => numbers.has(column.number));
  if (chosen.length === 0)
    return {
      ok: false,
      error: unknownColumn(
        wanted.join(', '),
        channels.map((channel) => channel.name),
      ),
    };
  return { ok: true, columns: [...axis, ...chosen] };
}

/** The scanner's orders for the chosen columns. */
export function planOf(description: TextDescription, columns: readonly TextColumn[]): ScanPlan {
  const targets = new Int32Array(description.columns.length).fill(-1);
  const clocks = new Uint8Array(description.columns.length);
  columns.forEach((column, target) => {
    targets[column.number - 1] = target;
    clocks[column.number - 1] = column.clock ? 1 : 0;
  });
  return {
    delimiter: description.delimiter === '' ? 0 : description.delimiter.charCodeAt(0),
    decimal: description.decimal.charCodeAt(0),
    targets,
    clocks,
    stored: columns.length,
    blankIsMissing: description.time === undefined,
  };
}
