import { open, rm } from 'node:fs/promises';
import { join } from 'node:path';

/** Longest time this disk took to make 4 kB durable, seen from outside the station. */
export interface DiskWatch {
  stop(): Promise<{ readonly syncs: number; readonly median: number; readonly longest: number }>;
}

const every = 250;
const piece = new Uint8Array(4096);

/** Writes and syncs 4 kB four times a second in a file of its own, so that a slow disk can be told from a slow station. */
export async function watchDisk(folder: string): Promise<DiskWatch> {
  const path = join(folder, 'disk-watch');
  const file = await open(path, 'w');
  const took: number[] = [];
  let running: Promise<void> | undefined;
  const look = async () => {
    const began = performance.now();
    await file.write(piece, 0, piece.length, 0);
    await file.datasync();
    took.push(performance.now() - began);
  };
  const timer = setInterval(() => {
    running ??= look().finally(() => {
      running = undefined;
    });
  }, every);
  return {
    async stop() {
      clearInterval(timer);
      await running;
      await file.close();
      await rm(path, { force: true });
      const sorted = took.toSorted((a, b) => a - b);
      return { syncs: took.length, median: sorted[took.length >> 1] ?? 0, longest: sorted.at(-1) ?? 0 };
    },
  };
}
