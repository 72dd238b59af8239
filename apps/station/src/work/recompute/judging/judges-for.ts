import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { OpenLab } from '../../../labs/open-lab.ts';
import { inThisThread } from './in-this-thread.ts';
import type { Judges } from './judges.ts';
import { JudgingThreads } from './threads.ts';

/** For so few trials no thread is started: starting takes as long as judging about this many. */
const fewTrials = 100;

/** Most threads, whatever the machine: beyond, the one that writes is the limit. */
const mostThreads = 8;

/** Once compiled it lies beside this file; where the program runs from its source there is none, and none is needed. */
const script = new URL('./thread.js', import.meta.url);

/** One for each core; where a thread cannot have a lower priority than the station's own, one core stays free for that. */
const threads = (): number =>
  Math.min(mostThreads, Math.max(1, availableParallelism() - (process.platform === 'linux' ? 0 : 1)));

/** Judges for about so many trials: threads where it is worth while. */
export function judgesFor({ store, folder }: OpenLab, trials: number): Judges {
  if (trials <= fewTrials || !existsSync(fileURLToPath(script)))
    return inThisThread((sha256) => store.files.get(sha256));
  return new JudgingThreads(script, folder, threads());
}
