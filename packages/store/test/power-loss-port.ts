import type { FilePort, OpenFile } from '../src/files/file-port.ts';

/** When the port fails: at the n-th act only, or at the n-th and every later one (a disk that is gone). */
export interface FaultPlan {
  readonly at: number;
  readonly mode: 'once' | 'from-then-on';
  /** A failing write still takes half of its piece. */
  readonly partly?: boolean;
}

interface Node {
  bytes: Uint8Array;
  synced: Uint8Array;
}

/**
 * A file system in memory that tells what is written from what is durable: content counts once its file is synced, a name
 * once its folder is. `cutPower` throws away the rest, as the worst disk would; another disk may keep any part of it.
 */
export class PowerLossPort implements FilePort {
  acts = 0;
  plan: FaultPlan | undefined;
  #names = new Map<string, Node | 'folder'>();
  #durable = new Map<string, Node | 'folder'>();

  constructor(root: string) {
    this.#names.set(root, 'folder');
    this.#durable.set(root, 'folder');
  }

  /** Content by path as a reader sees it now. */
  get files(): Map<string, Uint8Array> {
    const found = new Map<string, Uint8Array>();
    for (const [path, node] of this.#names) if (node !== 'folder') found.set(path, node.bytes);
    return found;
  }

  /** After this only durable names with durable content are there. A name whose folder is not durable is gone too. */
  cutPower(): void {
    this.#names = new Map();
    for (const [path, node] of [...this.#durable].sort(([a], [b]) => a.length - b.length)) {
      if (this.#names.size > 0 && !this.#names.has(parent(path))) continue;
      this.#names.set(path, node === 'folder' ? node : { bytes: node.synced, synced: node.synced });
    }
    this.#durable = new Map(this.#names);
  }

  #act(): void {
    this.acts += 1;
    const { plan } = this;
    if (plan === undefined) return;
    if (plan.mode === 'once' ? this.acts === plan.at : this.acts >= plan.at) {
      throw Object.assign(new Error('injected fault'), { code: 'EIO' });
    }
  }

  async makeFolder(path: string): Promise<void> {
    this.#act();
    if (!this.#names.has(path)) this.#names.set(path, 'folder');
  }

  async create(path: string): Promise<OpenFile> {
    this.#act();
    if (this.#names.has(path) || this.#names.get(parent(path)) !== 'folder') throw new Error(`cannot create ${path}`);
    const node: Node = { bytes: new Uint8Array(), synced: new Uint8Array() };
    this.#names.set(path, node);
    const append = (piece: Uint8Array) => {
      node.bytes = Uint8Array.from([...node.bytes, ...piece]);
    };
    return {
      write: async (piece) => {
        try {
          this.#act();
        } catch (error) {
          if (this.plan?.partly) append(piece.subarray(0, piece.length >> 1));
          throw error;
        }
        append(piece);
      },
      sync: async () => {
        this.#act();
        node.synced = node.bytes;
      },
      close: async () => this.#act(),
    };
  }

  async rename(from: string, to: string): Promise<void> {
    this.#act();
    const node = this.#names.get(from);
    if (node === undefined) throw Object.assign(new Error('no such file'), { code: 'ENOENT' });
    this.#names.delete(from);
    this.#names.set(to, node);
  }

  async syncFolder(path: string): Promise<void> {
    this.#act();
    for (const name of this.#durable.keys())
      if (parent(name) === path && !this.#names.has(name)) this.#durable.delete(name);
    for (const [name, node] of this.#names) if (parent(name) === path) this.#durable.set(name, node);
  }

  async syncFile(path: string): Promise<void> {
    this.#act();
    const node = this.#names.get(path);
    if (node === undefined || node === 'folder') throw Object.assign(new Error('no such file'), { code: 'ENOENT' });
    node.synced = node.bytes;
  }

  async read(path: string): Promise<AsyncIterable<Uint8Array> | undefined> {
    this.#act();
    const node = this.#names.get(path);
    if (node === undefined || node === 'folder') return undefined;
    const { bytes } = node;
    return (async function* () {
      yield bytes;
    })();
  }

  async list(path: string) {
    this.#act();
    return [...this.#names]
      .filter(([name]) => parent(name) === path)
      .map(([name, node]) => ({
        name: name.slice(path.length + 1),
        kind: node === 'folder' ? ('folder' as const) : ('file' as const),
        byteCount: node === 'folder' ? 0 : node.bytes.length,
        changedAt: 0,
      }));
  }

  async remove(path: string): Promise<void> {
    this.#act();
    this.#names.delete(path);
  }
}

function parent(path: string): string {
  return path.slice(0, path.lastIndexOf('/'));
}
