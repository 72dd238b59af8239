/**
 * The acts on a file system by which the journal keeps its promises. Paths are `<folder>/<name>`. Failures reject with an
 * error that has the system's `code` (`ENOSPC`, `EIO`, ...). Tests supply one that fails at any act, or that loses what was
 * not synced.
 */
export interface JournalFilePort {
  /** Makes a folder and those above it; nothing happens when it is there. */
  makeFolder(path: string): Promise<void>;
  /** Opens a new file to append to; rejects with `EEXIST` when the name is taken. */
  create(path: string): Promise<AppendFile>;
  /** The whole file; undefined when there is none. */
  read(path: string): Promise<Uint8Array | undefined>;
  /** Files of a folder; empty when there is no such folder. */
  list(path: string): Promise<readonly { readonly name: string; readonly byteCount: number }[]>;
  /** Gives a file another name in one step, replacing what has that name. */
  rename(from: string, to: string): Promise<void>;
  remove(path: string): Promise<void>;
  /** Makes the names in a folder durable. */
  syncFolder(path: string): Promise<void>;
  /** Bytes this user may still write. */
  freeBytes(path: string): Promise<number>;
  /** A SHA-256 fed piece by piece. */
  sha256(): RunningHash;
}

export interface AppendFile {
  /** Takes all bytes or rejects; what a rejected write left behind is unknown. */
  write(bytes: Uint8Array): Promise<void>;
  /** Makes what was written durable. After a rejection nothing since the last success is known to be there, for ever. */
  sync(): Promise<void>;
  close(): Promise<void>;
}

export interface RunningHash {
  update(bytes: Uint8Array): void;
  /** Lower-case hexadecimal; ends the hash. */
  hex(): string;
}

/** The system's code of a failure; 'unknown' when it names none. */
export function errorCode(error: unknown): string {
  const code = (error as { code?: unknown } | null)?.code;
  return typeof code === 'string' ? code : 'unknown';
}

export const isDiskFull = (code: string): boolean => code === 'ENOSPC' || code === 'EDQUOT';
