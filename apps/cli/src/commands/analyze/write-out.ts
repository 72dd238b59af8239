import { existsSync } from 'node:fs';
import { mkdir, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';

/** Writes a file whole or not at all, and never over an existing one unless told to. */
export async function writeOut(
  folder: string,
  name: string,
  text: string | Uint8Array,
  overwrite: boolean,
): Promise<string> {
  const path = join(folder, name);
  await writeWhole(path, text, overwrite, folder);
  return path;
}

export async function writeWhole(
  path: string,
  content: string | Uint8Array,
  overwrite: boolean,
  folder?: string,
): Promise<void> {
  if (!overwrite && existsSync(path)) {
    throw new Failure(
      'output-exists',
      `"${path}" exists already.`,
      'Choose another place, or add --overwrite.',
      exitCodes.store,
    );
  }
  const temporary = `${path}.${process.pid}.part`;
  try {
    if (folder !== undefined) await mkdir(folder, { recursive: true });
    await writeFile(temporary, content, { flush: true });
    await rename(temporary, path);
  } catch (error) {
    throw new Failure(
      'output-not-written',
      `"${path}" could not be written (${(error as NodeJS.ErrnoException).code ?? String(error)}).`,
      'Check the folder, its permissions and the free space.',
      exitCodes.store,
    );
  }
}
