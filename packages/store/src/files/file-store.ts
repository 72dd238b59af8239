/** A file as one piece or as a stream of pieces. */
export type Bytes = Uint8Array | AsyncIterable<Uint8Array>;

/** A file that is kept. */
export interface KeptFile {
  /** SHA-256 of its bytes; its name in the store. */
  readonly sha256: string;
  readonly byteCount: number;
  readonly extension: string;
}

/** A kept file that is read piece by piece. */
export interface OpenedFile extends KeptFile {
  /**
   * All of it or a part; undefined when it was removed meanwhile.
   *
   * @param range first and last byte, both included; must lie inside the file.
   */
  pieces(range?: { readonly first: number; readonly last: number }): Promise<AsyncIterable<Uint8Array> | undefined>;
}

/**
 * Files kept by the hash of their content: on a disk of this machine, a shared folder, or an object store. What is put is
 * never changed and has no other name than its hash, so nothing a user types can become a path.
 */
export interface FileStore {
  /**
   * Keeps the bytes. When it resolves the file is whole and durable; when it throws, either the whole file is there or
   * nothing is. `duplicate`: the same bytes were there before, under whatever extension.
   *
   * @param extension one to eight small letters or digits, for people who look into the folder.
   */
  put(bytes: Bytes, extension: string): Promise<KeptFile & { readonly duplicate: boolean }>;
  /** The bytes; undefined when absent. Throws `file-damaged` when they do not give the hash. */
  get(sha256: string): Promise<Uint8Array | undefined>;
  /** The file to be read as a stream; undefined when absent. The hash is not proven, which would need all of it: `verify` does. */
  open(sha256: string): Promise<OpenedFile | undefined>;
  /** Removes a file for good; false when it was not there. Only for what may be forgotten: recordings never are. */
  remove(sha256: string): Promise<boolean>;
  has(sha256: string): Promise<boolean>;
  /** Every kept file, in the order of hashes. */
  list(): AsyncIterable<KeptFile>;
  /** Reads and hashes every kept file. */
  verify(): AsyncIterable<KeptFile & { readonly whole: boolean }>;
}
