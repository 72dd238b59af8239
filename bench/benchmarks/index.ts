import type { Benchmark } from '../benchmark.ts';
import { analysis } from './analysis.ts';
import { binaryFiles } from './binary-files.ts';
import { jumpDraws } from './jump-draws.ts';
import { jumps } from './jumps.ts';
import { largeText } from './large-text.ts';
import { jumpDay, liveDay } from './live-day.ts';
import { livePixels } from './live-pixels.ts';
import { monteCarlo } from './monte-carlo.ts';
import { readAndAnalyse } from './read-and-analyse.ts';
import { recompute } from './recompute.ts';
import { reports } from './reports.ts';
import { soak } from './soak.ts';
import { squadScreen } from './squad-screen.ts';
import { statistics } from './statistics.ts';
import { trialScreen } from './trial-screen.ts';

/** Every benchmark, in the order they run. */
export const benchmarks: readonly Benchmark[] = [
  readAndAnalyse,
  analysis,
  largeText,
  binaryFiles,
  trialScreen,
  squadScreen,
  statistics,
  monteCarlo,
  livePixels,
  liveDay,
  jumpDay,
  reports,
  soak,
  recompute,
  jumps,
  jumpDraws,
];
