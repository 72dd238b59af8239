import { createHash, randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, open, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { ReceivedUpload, Upload } from '@sthene/contract';
import { bytesOf, detectFormats, formats } from '@sthene/formats';
import type { OpenLab } from '../labs/open-lab.ts';
import { uploadLimit } from '../server/errors.ts';
import { ProblemError, problems } from '../server/problem-error.ts';
import { nameOf } from './people.ts';

/** A received file that nothing was decided about yet. It lies outside the recordings until it is imported. */
export interface ReceivedFile {
  readonly sha256: string;
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Takes a file in whole, names it by its content, and says what it looks like and whether it is known. */
export async function receiveUpload(lab: OpenLab, name: string, body: unknown): Promise<Upload> {
  if (body === undefined || body === null || typeof body !== 'object' || !(Symbol.asyncIterator in body))
    throw problems.notBytes();
  const { sha256, length } = await keep(lab, name, body as AsyncIterable<Uint8Array>);
  const { bytes } = await received(lab, sha256);
  const answers = await detectFormats(bytesOf(bytes, name), formats);
  const best = answers.find(({ detection }) => detection.match !== 'no');
  const trials = await lab.store.trials.ofRecording(sha256);
  const duplicates = await Promise.all(
    trials.map(async (trial) => {
      const view = await lab.store.trials.view(trial.id);
      return {
        trial: trial.id,
        words:
          view === undefined
            ? trial.id
            : `${nameOf(view.person)}, ${view.session.startedAt.slice(0, 10)}, trial ${trial.position}`,
      };
    }),
  );
  return {
    id: sha256,
    sha256,
    fileName: name,
    bytes: length,
    format: best?.format.id ?? '',
    candidates: answers.map(({ format, detection }) => ({
      format: format.id,
      match: detection.match,
      reason: detection.reason,
    })),
    duplicates,
  };
}

/** A file received earlier, by its hash. */
export async function received(lab: OpenLab, sha256: string): Promise<ReceivedFile> {
  const path = join(lab.folder, 'received', sha256);
  if (!/^[0-9a-f]{64}$/.test(sha256) || !existsSync(path)) {
    throw new ProblemError(
      404,
      'upload-missing',
      'The file is no longer here.',
      'Choose it again; it is sent once more.',
    );
  }
  const { name } = JSON.parse(await readFile(`${path}.json`, 'utf8')) as { name: string };
  return { sha256, name, bytes: new Uint8Array(await readFile(path)) };
}

/** Received files that nothing was decided about yet, newest first. */
export async function listUploads(lab: OpenLab): Promise<ReceivedUpload[]> {
  const folder = join(lab.folder, 'received');
  if (!existsSync(folder)) return [];
  const ids = (await readdir(folder)).filter((name) => /^[0-9a-f]{64}$/.test(name));
  const found = await Promise.all(
    ids.map(async (id) => {
      // One that is imported or forgotten in this very moment is simply not there any more.
      const [about, size] = await Promise.all([
        readFile(join(folder, `${id}.json`), 'utf8').catch(() => undefined),
        stat(join(folder, id)).catch(() => undefined),
      ]);
      if (about === undefined || size === undefined) return [];
      const { name } = JSON.parse(about) as { name: string };
      return [{ id, fileName: name, bytes: size.size, receivedAt: size.mtime.toISOString() }];
    }),
  );
  return found.flat().sort((a, b) => b.receivedAt.localeCompare(a.receivedAt));
}

/** Forgets a file that a person takes off the list. */
export async function dropUpload(lab: OpenLab, id: string): Promise<{ forgotten: boolean }> {
  if (!/^[0-9a-f]{64}$/.test(id) || !existsSync(join(lab.folder, 'received', id))) return { forgotten: false };
  await forgetUpload(lab, id);
  return { forgotten: true };
}

/** Forgets a received file once its bytes are among the recordings. */
export async function forgetUpload(lab: OpenLab, sha256: string): Promise<void> {
  const path = join(lab.folder, 'received', sha256);
  await Promise.all([rm(path, { force: true }), rm(`${path}.json`, { force: true })]);
}

async function keep(
  lab: OpenLab,
  name: string,
  pieces: AsyncIterable<Uint8Array>,
): Promise<{ sha256: string; length: number }> {
  const folder = join(lab.folder, 'received');
  await mkdir(folder, { recursive: true });
  const temporary = join(folder, `${randomUUID()}.part`);
  const hash = createHash('sha256');
  let length = 0;
  const file = await open(temporary, 'wx');
  try {
    for await (const piece of pieces) {
      length += piece.length;
      if (length > uploadLimit) throw problems.tooLarge(uploadLimit);
      hash.update(piece);
      await file.write(piece);
    }
    await file.sync();
  } catch (error) {
    await file.close();
    await rm(temporary, { force: true });
    throw error;
  }
  await file.close();
  const sha256 = hash.digest('hex');
  await writeFile(join(folder, `${sha256}.json`), JSON.stringify({ name }));
  await rename(temporary, join(folder, sha256));
  return { sha256, length };
}
