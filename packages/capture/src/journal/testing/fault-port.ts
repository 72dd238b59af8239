import type { AppendFile, JournalFilePort } from '../file-port.ts';
import { DiskError, type MemoryDisk } from './memory-disk.ts';

/** Acts that are counted and can be made to fail; `sha256` computes and cannot. */
export type PortAct =
  | 'makeFolder'
  | 'create'
  | 'write'
  | 'sync'
  | 'close'
  | 'read'
  | 'list'
  | 'rename'
  | 'remove'
  | 'syncFolder'
  | 'freeBytes';

/** One call, as a plan sees it before it happens. */
export interface PortCall {
  readonly act: PortAct;
  readonly path: string;
  /** 0-based among all calls, and among those of this act. */
  readonly index: number;
  readonly ofAct: number;
}

/**
 * What becomes of a call. `fail`: rejects with the code; of a write `share` of its bytes arrive first, a sync throws its pages
 * away. `die`: the process is gone, this call does not happen (of a write, `share` of it does), and no later one does.
 * `hang`: never answers.
 */
export type Fate =
  | { readonly kind: 'fail'; readonly code: string; readonly share?: number }
  | { readonly kind: 'die'; readonly share?: number }
  | { readonly kind: 'hang' }
  | undefined;

/** The process that used the port is dead. */
export class Died extends Error {}

/** A port on a disk in memory that follows a plan of faults. */
export class FaultPort implements JournalFilePort {
  readonly disk: MemoryDisk;
  readonly calls: PortCall[] = [];
  dead = false;
  readonly #plan: (call: PortCall) => Fate;
  readonly #count = new Map<PortAct, number>();

  constructor(disk: MemoryDisk, plan: (call: PortCall) => Fate = () => undefined) {
    this.disk = disk;
    this.#plan = plan;
  }

  #next(act: PortAct, path: string): Fate {
    if (this.dead) throw new Died();
    const ofAct = this.#count.get(act) ?? 0;
    this.#count.set(act, ofAct + 1);
    const call = { act, path, index: this.calls.length, ofAct };
    this.calls.push(call);
    return this.#plan(call);
  }

  async #pass<T>(
    act: PortAct,
    path: string,
    go: () => Promise<T>,
    part: (share: number) => void = () => {},
  ): Promise<T> {
    const fate = this.#next(act, path);
    if (fate === undefined) return go();
    if (fate.kind === 'hang') return new Promise<T>(() => {});
    if (fate.share !== undefined) part(fate.share);
    if (fate.kind === 'die') {
      this.dead = true;
      throw new Died();
    }
    if (act === 'sync') this.disk.dropUnsynced(path);
    throw new DiskError(fate.code);
  }

  makeFolder = (path: string) => this.#pass('makeFolder', path, () => this.disk.makeFolder());
  read = (path: string) => this.#pass('read', path, () => this.disk.read(path));
  list = (path: string) => this.#pass('list', path, () => this.disk.list(path));
  rename = (from: string, to: string) => this.#pass('rename', from, () => this.disk.rename(from, to));
  remove = (path: string) => this.#pass('remove', path, () => this.disk.remove(path));
  syncFolder = (path: string) => this.#pass('syncFolder', path, () => this.disk.syncFolder(path));
  freeBytes = (path: string) => this.#pass('freeBytes', path, () => this.disk.freeBytes());
  sha256 = () => this.disk.sha256();

  async create(path: string): Promise<AppendFile> {
    const file = await this.#pass('create', path, () => this.disk.create(path));
    return {
      write: (bytes) =>
        this.#pass(
          'write',
          path,
          () => file.write(bytes),
          (share) => this.disk.appendPart(path, bytes.subarray(0, Math.floor(share * bytes.length))),
        ),
      sync: () => this.#pass('sync', path, () => file.sync()),
      close: () => this.#pass('close', path, () => file.close()),
    };
  }
}
