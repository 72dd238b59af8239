import { errorCode, type JournalFilePort } from './file-port.ts';
import { reserveName } from './names.ts';

const pieceBytes = 1024 * 1024;

/**
 * Keeps disk space in reserve: a file that is removed when the disk is full. Filled with bytes that no drive can squeeze,
 * so that the space is really taken. One for all journals of a folder.
 *
 * @returns the code of what prevented it, or undefined
 */
export async function keepReserve(port: JournalFilePort, folder: string, bytes: number): Promise<string | undefined> {
  const path = `${folder}/${reserveName}`;
  try {
    const there = (await port.list(folder)).find(({ name }) => name === reserveName);
    if (there !== undefined && there.byteCount >= bytes) return undefined;
    if (there !== undefined) await port.remove(path);
    // Filling the disk to the brim for a reserve would cause what it is for.
    if ((await port.freeBytes(folder)) < 2 * bytes) return 'ENOSPC';
    const file = await port.create(path);
    try {
      for (let left = bytes; left > 0; left -= pieceBytes) await file.write(noise(Math.min(left, pieceBytes), left));
      await file.sync();
    } finally {
      await file.close();
    }
    return undefined;
  } catch (error) {
    // Another journal of the same folder is making it.
    if (errorCode(error) === 'EEXIST') return undefined;
    await port.remove(path).catch(() => {});
    return errorCode(error);
  }
}

/** Gives the space back; false when there was none. */
export async function releaseReserve(port: JournalFilePort, folder: string): Promise<boolean> {
  try {
    await port.remove(`${folder}/${reserveName}`);
    return true;
  } catch {
    return false;
  }
}

/** A xorshift sequence (Marsaglia 2003, shifts 13, 17, 5). */
function noise(length: number, seed: number): Uint8Array {
  const words = new Uint32Array(Math.ceil(length / 4));
  let state = seed | 1;
  for (let i = 0; i < words.length; i++) {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    words[i] = state;
  }
  return new Uint8Array(words.buffer, 0, length);
}
