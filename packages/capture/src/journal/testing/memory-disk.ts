import type { JournalFilePort } from '../file-port.ts';
import { nodeJournalPort } from '../node/index.ts';
import type { Draw } from './random.ts';

const sectorBytes = 512;

interface MemoryFile {
  bytes: Uint8Array;
  length: number;
  /** Bytes before this are on the platter, except the lost ones. */
  durable: number;
  /** [start, end) that a failed sync threw away: the cache shows them, no later sync brings them to the platter. */
  lost: { start: number; end: number }[];
}

export class DiskError extends Error {
  readonly code: string;
  constructor(code: string) {
    super(code);
    this.code = code;
  }
}

/**
 * A file system in memory that keeps two views: what a running process sees, and what a power cut would leave. Like a real
 * one, it forgets unsynced bytes, may keep some of them in any order, and after a failed sync says yes to the next one
 * although the bytes are gone.
 */
export class MemoryDisk implements JournalFilePort {
  /** Names a running process sees, and names that survive. */
  readonly #names = new Map<string, MemoryFile>();
  #durableNames = new Map<string, MemoryFile>();
  capacity = Number.POSITIVE_INFINITY;
  /** A failed sync tears the whole 4 KiB page in which it began, with what was synced in it before. */
  tearsPages = false;

  used(): number {
    let sum = 0;
    for (const file of this.#names.values()) sum += file.length;
    return sum;
  }

  async makeFolder(): Promise<void> {}

  async create(path: string) {
    if (this.#names.has(path)) throw new DiskError('EEXIST');
    const file: MemoryFile = { bytes: new Uint8Array(256), length: 0, durable: 0, lost: [] };
    this.#names.set(path, file);
    return {
      write: async (bytes: Uint8Array) => {
        const room = Math.max(0, this.capacity - this.used());
        append(file, bytes.subarray(0, room));
        if (room < bytes.length) throw new DiskError('ENOSPC');
      },
      sync: async () => {
        file.durable = file.length;
      },
      close: async () => {},
    };
  }

  /** What a failed sync does: pages that were not durable are marked clean and gone. */
  dropUnsynced(path: string): void {
    const file = this.#names.get(path);
    if (file === undefined || file.length === file.durable) return;
    const start = this.tearsPages ? file.durable - (file.durable % 4096) : file.durable;
    file.lost.push({ start, end: file.length });
    file.durable = file.length;
  }

  /** Some bytes of a write that then failed. */
  appendPart(path: string, bytes: Uint8Array): void {
    const file = this.#names.get(path);
    if (file !== undefined) append(file, bytes);
  }

  async read(path: string): Promise<Uint8Array | undefined> {
    const file = this.#names.get(path);
    return file?.bytes.slice(0, file.length);
  }

  async list(path: string) {
    return [...this.#names]
      .filter(([name]) => name.startsWith(`${path}/`))
      .map(([name, { length }]) => ({ name: name.slice(path.length + 1), byteCount: length }));
  }

  async rename(from: string, to: string): Promise<void> {
    const file = this.#names.get(from);
    if (file === undefined) throw new DiskError('ENOENT');
    this.#names.delete(from);
    this.#names.set(to, file);
  }

  async remove(path: string): Promise<void> {
    if (!this.#names.delete(path)) throw new DiskError('ENOENT');
  }

  async syncFolder(path: string): Promise<void> {
    const others = [...this.#durableNames].filter(([name]) => !name.startsWith(`${path}/`));
    this.#durableNames = new Map([...others, ...[...this.#names].filter(([name]) => name.startsWith(`${path}/`))]);
  }

  async freeBytes(): Promise<number> {
    return Math.max(0, this.capacity - this.used());
  }

  sha256 = nodeJournalPort.sha256;

  /** Puts a file there as it would lie on a platter. */
  place(path: string, bytes: Uint8Array): void {
    const file = { bytes: bytes.slice(), length: bytes.length, durable: bytes.length, lost: [] };
    this.#names.set(path, file);
    this.#durableNames.set(path, file);
  }

  /** All files as a running process sees them. */
  files(): Map<string, Uint8Array> {
    return new Map([...this.#names].map(([name, file]) => [name, file.bytes.slice(0, file.length)]));
  }

  /**
   * The disk after the power was cut. What was synced is there. Of the rest, by the draw: nothing, a piece, all, or sectors at
   * random, the others being zero, stale, or in each other's place. A name that was not made durable may be there or not.
   */
  afterPowerCut(draw: Draw): MemoryDisk {
    const disk = new MemoryDisk();
    const survivors = new Map(this.#durableNames);
    for (const [name, file] of this.#names) {
      if (survivors.get(name) === file || !draw.chance(0.5)) continue;
      // Of a rename either the old name or the new one is there.
      for (const [other, kept] of survivors) if (kept === file) survivors.delete(other);
      survivors.set(name, file);
    }
    for (const [name] of this.#durableNames) {
      if (!this.#names.has(name) && draw.chance(0.5)) survivors.delete(name);
    }
    for (const [name, file] of survivors) disk.place(name, platter(file, draw));
    return disk;
  }
}

function append(file: MemoryFile, bytes: Uint8Array): void {
  if (file.length + bytes.length > file.bytes.length) {
    const larger = new Uint8Array(2 * (file.length + bytes.length));
    larger.set(file.bytes.subarray(0, file.length));
    file.bytes = larger;
  }
  file.bytes.set(bytes, file.length);
  file.length += bytes.length;
}

function platter(file: MemoryFile, draw: Draw): Uint8Array {
  const bytes = file.bytes.slice(0, file.length);
  for (const { start, end } of file.lost) {
    bytes.fill(0, start, end);
    // Part of it may have reached the platter before the drive failed.
    if (draw.chance(0.3)) bytes.set(file.bytes.subarray(start, start + draw.below(end - start)), start);
  }
  const tail = file.length - file.durable;
  const way = draw.below(5);
  if (tail === 0 || way === 0) return bytes.slice(0, file.durable);
  if (way === 1) return bytes.slice(0, file.durable + draw.below(tail + 1));
  if (way === 2) return bytes;
  const out = bytes.slice(0, way === 3 ? file.length : file.durable + draw.below(tail + 1));
  for (let at = file.durable; at < out.length; at += sectorBytes - (at % sectorBytes)) {
    const end = Math.min(out.length, at + sectorBytes - (at % sectorBytes));
    const fate = draw.below(4);
    if (fate === 0) out.fill(0, at, end);
    else if (fate === 1) for (let i = at; i < end; i++) out[i] = draw.below(256);
    else if (fate === 2) {
      // Another sector of the same tail, whole frames and all.
      const from = file.durable + draw.below(tail);
      out.set(bytes.subarray(from, Math.min(from + end - at, file.length)), at);
    }
  }
  return out;
}
