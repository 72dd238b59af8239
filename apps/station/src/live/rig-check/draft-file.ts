import { mkdir, open, readFile, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { rigCheckDraft } from '@sthene/contract';
import { z } from 'zod';
import type { OpenLab } from '../../labs/open-lab.ts';

/** A check under way, with what the plates showed empty when it began. */
const keptDraft = rigCheckDraft.omit({ next: true, result: true }).extend({
  /** Mean of each empty plate, N, as its channels give it. */
  zeros: z.record(z.string(), z.number()),
  /** Id of the correction that was in force. */
  correction: z.string().optional(),
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

export const dropDraft = (lab: OpenLab, rig: string): Promise<void> => rm(fileOf(lab, rig), { force: true });
