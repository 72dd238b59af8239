import { mkdir, open, readFile, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { rigCheckDraft } from '@sthene/contract';
import { z } from 'zod';
import type { OpenLab } from '../../labs/open-lab.ts';

/** A check under way, with what the plates showed empty when it began. */
const keptDraft = rigCheckDraft.omit({ next: true, result: true }).extend({
  /** Mean of each empty plate, N, as its channels give it. */
  zeros: z.record(z.string(), z.number()),
  /** The same of each channel by its name, for plates that tell where a load stands. */
  channelZeros: z.record(z.string(), z.number()).optional(),
});
export type KeptDraft = z.infer<typeof keptDraft>;

const folderOf = (lab: OpenLab) => join(lab.folder, 'rig-check');
const fileOf = (lab: OpenLab, rig: string) => join(folderOf(lab), `${rig}.json`);

/** The check that is being made on a rig; undefined where there is none. */
export async function readDraft(lab: OpenLab, rig: string): Promise<KeptDraft | undefined> {
  let text: string;
  try {
    text = await readFile(fileOf(lab, rig), 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
  const read = keptDraft.safeParse(JSON.parse(text));
  return read.success ? read.data : undefined;
}

/** Replaces the draft on disk as a whole, so that a cut leaves the old one or the new one. */
export async function writeDraft(lab: OpenLab, draft: KeptDraft): Promise<void> {
  await mkdir(folderOf(lab), { recursive: true });
  const file = fileOf(lab, draft.rig);
  const beside = `${file}.new`;
  const handle = await open(beside, 'w');
  try {
    await handle.writeFile(JSON.stringify(draft));
    await handle.sync();
  } finally {
    await handle.close();
  }
  await rename(beside, file);
}

const acts = new Map<string, Promise<unknown>>();

/** Acts on the draft of a rig one after the other: each reads it, changes it and writes it back. */
export function alone<T>(lab: OpenLab, rig: string, act: () => Promise<T>): Promise<T> {
  const key = fileOf(lab, rig);
  const next = (acts.get(key) ?? Promise.resolve()).then(act);
  const settled = next.then(
    () => {},
    () => {},
  );
  acts.set(key, settled);
  void settled.then(() => {
    if (acts.get(key) === settled) acts.delete(key);
  });
  return next;
}

export const dropDraft = (lab: OpenLab, rig: string): Promise<void> => rm(fileOf(lab, rig), { force: true });
