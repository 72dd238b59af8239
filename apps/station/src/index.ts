export type { HeadlessOptions } from './live/headless.ts';
export { type LabReader, ProblemError, type ReadLabOptions, readLab } from './read-lab.ts';
export { type LabRecomputer, recomputeLab } from './recompute-lab.ts';
export { type RunningStation, type StationOptions, startStation } from './start-station.ts';
export type { BringIn } from './work/received/bring-in.ts';
export { type LabWriter, writeLab } from './write-lab.ts';
