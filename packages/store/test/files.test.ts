import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { sha256Hex } from '../src/hash.ts';
import { type FileStore, folderFileStore } from '../src/index.ts';
import { countingIds } from './engines.ts';
import { fileOf } from './fernwater.ts';
import { type FaultPlan, PowerLossPort } from './power-loss-port.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });
const content = fileOf('time,force\n0,784\n1,785\n');
const sha256 = sha256Hex(content);

async function* pieces(...parts: Uint8Array[]): AsyncIterable<Uint8Array> {
  yield* parts;
}

async function collected<T>(items: AsyncIterable<T>): Promise<T[]> {
  const list: T[] = [];
  for await (const item of items) list.push(item);
  return list;
}

describe('files in a folder', () => {
  const folders: string[] = [];
  const open = () => {
    const folder = mkdtempSync(join(tmpdir(), 'sthene-files-'));
    folders.push(folder);
    return { folder, store: folderFileStore({ folder, ids: countingIds() }) };
  };
  afterEach(() => {
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
  });

  it('keeps bytes under their hash and nothing else', async () => {
    const { folder, store } = open();
    const kept = await store.put(content, 'csv');
    expect(kept).toEqual({ sha256, byteCount: content.length, extension: 'csv', duplicate: false });
    const path = join(folder, 'recordings', sha256.slice(0, 2), `${sha256}.csv`);
    expect(new Uint8Array(readFileSync(path))).toEqual(content);
    expect(readdirSync(join(folder, 'recordings', 'incoming'))).toEqual([]);
    expect(await store.get(sha256)).toEqual(content);
    expect([await store.has(sha256), await store.has('0'.repeat(64))]).toEqual([true, false]);
    expect(await store.get('0'.repeat(64))).toBeUndefined();
  });

  it('takes streams, empty files and files of several megabytes', async () => {
    const { store } = open();
    expect((await store.put(pieces(content.subarray(0, 5), content.subarray(5)), 'csv')).sha256).toBe(sha256);
    const empty = await store.put(new Uint8Array(), 'bin');
    // SHA-256 of nothing: FIPS 180-4 example value, `printf '' | sha256sum` (GNU coreutils 9.1).
    expect(empty.sha256).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
    expect(await store.get(empty.sha256)).toEqual(new Uint8Array());
    const large = new Uint8Array(5_000_001).map((_, index) => (index * 31) % 251);
    const kept = await store.put(large, 'parquet');
    expect(Buffer.compare((await store.get(kept.sha256))!, large)).toBe(0);
    expect((await collected(store.list())).map((file) => file.byteCount).sort((a, b) => a - b)).toEqual([
      0,
      content.length,
      5_000_001,
    ]);
  });

  it('recognises the same bytes under another extension', async () => {
    const { store } = open();
    await store.put(content, 'csv');
    expect(await store.put(content, 'txt')).toMatchObject({ duplicate: true, extension: 'csv' });
    expect(await collected(store.list())).toHaveLength(1);
  });

  it('keeps one whole file when many put the same at once', async () => {
    const { folder, store } = open();
    const other = folderFileStore({ folder, ids: countingIds('b') });
    const puts = Array.from({ length: 20 }, (_, n) => (n % 2 ? store : other).put(content, 'csv'));
    expect((await Promise.all(puts)).every((kept) => kept.sha256 === sha256)).toBe(true);
    expect(await collected(store.verify())).toEqual([
      { sha256, extension: 'csv', byteCount: content.length, whole: true },
    ]);
    expect(readdirSync(join(folder, 'recordings', 'incoming'))).toEqual([]);
  });

  it('finds a flipped bit and a cut file, refuses to return them, and heals by the same bytes', async () => {
    const { folder, store } = open();
    await store.put(content, 'csv');
    const path = join(folder, 'recordings', sha256.slice(0, 2), `${sha256}.csv`);
    for (const damaged of [content.map((byte, n) => (n === 7 ? byte ^ 1 : byte)), content.subarray(1)]) {
      writeFileSync(path, damaged);
      expect(await collected(store.verify())).toMatchObject([{ sha256, whole: false }]);
      await expect(store.get(sha256)).rejects.toEqual(failing('file-damaged'));
      expect(await store.put(content, 'csv')).toMatchObject({ duplicate: false });
      expect(await store.get(sha256)).toEqual(content);
    }
  });

  it.each([
    '../../etc/passwd',
    `../${sha256}`,
    `${sha256}/..`,
    sha256.toUpperCase(),
    `${sha256}\0`,
    `${sha256}\n`,
    '..%2f..%2fetc',
    'C:\\x',
    '\\\\host\\x',
    '',
  ])('never makes a path of %j', async (name) => {
    const { store } = open();
    await expect(store.get(name)).rejects.toEqual(failing('bad-hash'));
    await expect(store.has(name)).rejects.toEqual(failing('bad-hash'));
    await expect(store.put(content, name)).rejects.toEqual(failing('bad-value'));
  });

  it('follows no link and lists only what it named itself', async () => {
    const { folder, store } = open();
    const shard = join(folder, 'recordings', sha256.slice(0, 2));
    mkdirSync(shard, { recursive: true });
    writeFileSync(join(folder, 'outside'), content);
    symlinkSync(join(folder, 'outside'), join(shard, `${sha256}.csv`));
    writeFileSync(join(shard, 'notes.txt'), 'x');
    expect(await store.get(sha256)).toBeUndefined();
    expect(await collected(store.list())).toEqual([]);
  });

  it('clears abandoned temporary files, old ones only', async () => {
    const { folder, store } = open();
    await store.put(content, 'csv');
    const incoming = join(folder, 'recordings', 'incoming');
    for (const name of ['old.part', 'new.part', 'old.txt']) writeFileSync(join(incoming, name), 'x');
    for (const name of ['old.part', 'old.txt']) utimesSync(join(incoming, name), 1_000, 1_000);
    expect(await store.removeAbandoned(2_000_000)).toBe(1);
    expect(readdirSync(incoming).sort()).toEqual(['new.part', 'old.txt']);
  });
});

describe('files on a failing disk', () => {
  const root = '/data';
  const storeOn = (port: PowerLossPort, prefix = 'a') =>
    folderFileStore({ folder: root, ids: countingIds(prefix), port });
  const put = (store: FileStore) => store.put(pieces(content.subarray(0, 9), content.subarray(9)), 'csv');

  /** Either the whole file is there under its hash, or nothing is; nothing else carries a kept name. */
  const wholeOrNothing = (port: PowerLossPort): boolean => {
    const kept = [...port.files].filter(([path]) => !path.includes('/incoming/'));
    for (const [path, bytes] of kept)
      expect([path, sha256Hex(bytes)]).toEqual([expect.stringContaining(sha256), sha256]);
    expect(kept.length).toBeLessThanOrEqual(1);
    return kept.length === 1;
  };

  it('survives a power cut once it has confirmed', async () => {
    const port = new PowerLossPort(root);
    await put(storeOn(port));
    port.cutPower();
    expect(wholeOrNothing(port)).toBe(true);
    expect(await storeOn(port).get(sha256)).toEqual(content);
  });

  const undisturbed = new PowerLossPort(root);
  const plans: FaultPlan[] = (['once', 'from-then-on'] as const).flatMap((mode) =>
    [false, true].flatMap((partly) => Array.from({ length: 40 }, (_, n) => ({ at: n + 1, mode, partly }))),
  );

  it('knows every act of a put', async () => {
    await put(storeOn(undisturbed));
    // 3 folders made, 4 synced by put and settle, the file's own five acts, listing and renaming.
    expect(undisturbed.acts).toBeGreaterThan(12);
    expect(undisturbed.acts).toBeLessThan(40);
  });

  it('leaves the whole file or nothing when the n-th act fails, for every n, with and without a power cut', async () => {
    let refused = 0;
    for (const plan of plans) {
      for (const powerCut of [false, true]) {
        const port = new PowerLossPort(root);
        port.plan = plan;
        const confirmed = await put(storeOn(port)).then(
          () => true,
          (error: unknown) => {
            expect(error).toEqual(failing('disk-failed'));
            return false;
          },
        );
        if (!confirmed) refused += 1;
        if (powerCut) port.cutPower();
        const there = wholeOrNothing(port);
        if (confirmed) expect(there).toBe(true);
        port.plan = undefined;
        // Whatever was left behind, the next attempt succeeds and is durable.
        await put(storeOn(port, 'b'));
        port.cutPower();
        expect(wholeOrNothing(port)).toBe(true);
      }
    }
    // Each act but the best-effort clearing was made to fail at least once.
    expect(refused).toBeGreaterThan(4 * 12);
  });

  it('writes anew after a failed sync instead of trusting a second one', async () => {
    for (let at = 1; at <= undisturbed.acts; at += 1) {
      const port = new PowerLossPort(root);
      const store = storeOn(port);
      port.plan = { at, mode: 'once' };
      const first = await put(store).catch(() => undefined);
      if (first !== undefined) continue;
      const after = await put(store);
      expect(after.duplicate).toBe(false);
      port.cutPower();
      expect(wholeOrNothing(port)).toBe(true);
    }
  });

  it('never loses a file that was confirmed before, whatever fails while the same bytes come again', async () => {
    for (const plan of plans) {
      const port = new PowerLossPort(root);
      await put(storeOn(port));
      port.acts = 0;
      port.plan = plan;
      await put(storeOn(port, 'b')).catch(() => {});
      port.cutPower();
      expect(wholeOrNothing(port)).toBe(true);
    }
  });
});
