import { setImmediate as turn } from 'node:timers/promises';
import type { FormatError } from '@sthene/formats';
import {
  type Grid,
  looksLikeExchange,
  looksLikeSheet,
  type ReadExchange,
  readCsv,
  readExchange,
  readXlsx,
} from '@sthene/formats/results-table';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError } from '../../server/problem-error.ts';
import { type ReceivedFile, received } from '../upload.ts';

/** How a table is to be opened where a person said so. */
export interface Opening {
  readonly sheet?: string | undefined;
  readonly delimiter?: string | undefined;
  readonly encoding?: 'utf-8' | 'utf-16le' | 'utf-16be' | 'latin-1' | undefined;
}

export type OpenTable = { readonly file: ReceivedFile } & (
  | { readonly kind: 'table'; readonly grid: Grid }
  | { readonly kind: 'exchange'; readonly exchange: Extract<ReadExchange, { ok: true }> }
);

/** The table opened last: each change of its mapping asks for it again. */
let last: { key: string; table: OpenTable } | undefined;

/** Opens a file that was sent as a table of results, or as an exchange file. Throws its refusal. */
export async function openTable(lab: OpenLab, upload: string, opening: Opening = {}): Promise<OpenTable> {
  const key = JSON.stringify([lab.folder, upload, opening.sheet, opening.delimiter, opening.encoding]);
  const file = await received(lab, upload);
  if (last?.key === key) return { ...last.table, file };
  const table = await read(file, opening);
  last = { key, table };
  return table;
}

/** Lets go of the table opened last. */
export function closeTable(): void {
  last = undefined;
}

async function read(file: ReceivedFile, { sheet, delimiter, encoding }: Opening): Promise<OpenTable> {
  const { bytes } = file;
  if (looksLikeExchange(bytes.subarray(0, 256))) {
    const exchange = await readExchange(bytes, () => turn());
    if (!exchange.ok) throw refusal(exchange.error);
    return { file, kind: 'exchange', exchange };
  }
  const opened = looksLikeSheet(bytes)
    ? await readXlsx(bytes, sheet)
    : readCsv(bytes, { ...(delimiter ? { delimiter } : {}), ...(encoding ? { encoding } : {}) });
  if (!opened.ok) throw refusal(opened.error);
  return { file, kind: 'table', grid: opened.grid };
}

const refusal = ({ code, message, next }: FormatError): ProblemError => new ProblemError(422, code, message, next);
