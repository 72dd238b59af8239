import { readFile } from 'node:fs/promises';
import { type ProtocolDocument, type ProtocolFault, validateProtocol } from '@sthene/core';
import { exitCodes } from '../terminal/exit-codes.ts';
import { Failure } from '../terminal/failure.ts';

/** A protocol file as it was judged. */
export type JudgedFile =
  | { readonly ok: true; readonly document: ProtocolDocument }
  | { readonly ok: false; readonly faults: readonly ProtocolFault[] };

/** Reads and judges a protocol file. Fails with `file-not-found` or `protocol-not-json`. */
export async function protocolFileAt(path: string): Promise<JudgedFile> {
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch {
    throw new Failure(
      'file-not-found',
      `There is no file "${path}" that can be read.`,
      'Check the spelling and the folder.',
      exitCodes.inputInvalid,
    );
  }
  let data: unknown;
  try {
    data = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    throw new Failure(
      'protocol-not-json',
      `"${path}" is not a JSON document: ${(error as Error).message}.`,
      'Print one to copy with "sthene protocols export imtp".',
      exitCodes.inputInvalid,
    );
  }
  if (typeof data === 'object' && data !== null && !Array.isArray(data)) {
    const { $schema: _, ...rest } = data as Record<string, unknown>;
    data = rest;
  }
  return validateProtocol(data);
}
