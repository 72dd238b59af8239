import type { ByteSource } from '../format.ts';
import type { DescribeResult } from './description.ts';
import { readHead } from './head.ts';
import type { TextOptions } from './options.ts';

/**
 * What is recognised in a text file, from its first 64 kB and its length (further only while no data row has come): for a
 * preview screen and for inspection. Nothing is read beyond that, so rows and rate are estimates unless the file is small.
 * Errors as in `readHead`.
 */
export async function describeText(source: ByteSource, options: TextOptions = {}): Promise<DescribeResult> {
  const head = await readHead(source, options);
  return head.ok ? { ok: true, description: head.found.description } : head;
}
