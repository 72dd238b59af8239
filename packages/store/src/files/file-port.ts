/**
 * The few acts on a file system that decide what is safe on disk. Paths are absolute. Tests supply one that fails at any
 * act, or that loses what was not synced.
 */
export interface FilePort {
  /** Makes one folder; nothing happens when it is there. */
  makeFolder(path: string): Promise<void>;
  /** Opens a new file for writing; fails when the name is taken. */
  create(path: string): Promise<OpenFile>;
  /** Gives a file another name in one step, replacing what has that name. */
  rename(from: string, to: string): Promise<void>;
  /** Makes the names in a folder durable. */
  syncFolder(path: string): Promise<void>;
  /** Makes the content of a closed file durable. */
  syncFile(path: string): Promise<void>;
  /** Pieces of a file in order, or of the bytes of a range (both ends included); undefined when there is no such regular file. */
  read(
    path: string,
    range?: { readonly first: number; readonly last: number },
  ): Promise<AsyncIterable<Uint8Array> | undefined>;
  /** Names in a folder with size and time of change; empty when there is no such folder. */
  list(path: string): Promise<readonly FolderEntry[]>;
  /** Removes a file. */
  remove(path: string): Promise<void>;
}

export interface OpenFile {
  write(piece: Uint8Array): Promise<void>;
  sync(): Promise<void>;
  close(): Promise<void>;
}

export interface FolderEntry {
  readonly name: string;
  readonly kind: 'file' | 'folder' | 'other';
  readonly byteCount: number;
  /** Last change, ms since 1970. */
  readonly changedAt: number;
}
