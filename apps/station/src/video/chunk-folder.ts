import { createHash, randomUUID } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { type ChunkHead, decodeChunk } from '@sthene/contract';

const chunkName = /^(\d{6})-([0-9a-f]{64})\.chunk$/;

/** What came of a piece: `other`: under this number lies a piece with another content. */
export type Kept = 'kept' | 'same' | 'other';

/**
 * Pieces of a video that is still being received: a folder with one file a piece, named by number and hash. Which pieces are safe is
 * what lies there, so that it survives the station.
 */
export class ChunkFolder {
  readonly folder: string;

  /** @param id checked by the contract: letters, digits, `-` and `_` only */
  constructor(labFolder: string, id: string) {
    this.folder = join(labFolder, 'videos', id);
  }

  /** Keeps a piece; when it resolves with `kept` the bytes are on the disk. */
  async add(index: number, sha256: string, bytes: Uint8Array): Promise<Kept> {
    await mkdir(this.folder, { recursive: true });
    const name = `${String(index).padStart(6, '0')}-${sha256}.chunk`;
    const there = (await this.#names()).find((one) => Number(one.slice(0, 6)) === index);
    if (there !== undefined) return there === name ? 'same' : 'other';
    const temporary = join(this.folder, `${randomUUID()}.part`);
    const file = await open(temporary, 'wx', 0o600);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } catch (error) {
      await file.close();
      await rm(temporary, { force: true });
      throw error;
    }
    await file.close();
    await rename(temporary, join(this.folder, name));
    return 'kept';
  }

  /** Numbers of the pieces that are here, ascending. */
  async received(): Promise<number[]> {
    return (await this.#names()).map((name) => Number(name.slice(0, 6)));
  }

  /** When the last piece came, ms since 1970; undefined when none did. */
  async lastAt(): Promise<number | undefined> {
    const times = await Promise.all((await this.#names()).map((name) => stat(join(this.folder, name))));
    return times.length === 0 ? undefined : Math.max(...times.map(({ mtimeMs }) => mtimeMs));
  }

  /** Joins the pieces up to the first one missing into one file. @returns what travelled with them, in order */
  async join(to: string): Promise<ChunkHead[]> {
    const heads: ChunkHead[] = [];
    const names = await this.#names();
    const { folder } = this;
    await pipeline(
      (async function* pieces() {
        for (const [i, name] of names.entries()) {
          if (Number(name.slice(0, 6)) !== i) return;
          const bytes = await readFile(join(folder, name));
          const chunk = decodeChunk(bytes);
          // A damaged piece ends the film; what comes before it is whole.
          if (chunk === undefined || sha256Of(bytes) !== name.slice(7, 71)) return;
          heads.push(chunk.head);
          yield chunk.piece;
        }
      })(),
      createWriteStream(to, { mode: 0o600 }),
    );
    return heads;
  }

  async remove(): Promise<void> {
    await rm(this.folder, { recursive: true, force: true });
  }

  async #names(): Promise<string[]> {
    const names = await readdir(this.folder).catch((error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') return [];
      throw error;
    });
    return names.filter((name) => chunkName.test(name)).sort();
  }
}

export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
