import type { JudgingOrder, Made } from './order.ts';

/** Who judges the trials of a run. */
export interface Judges {
  /** Orders worth handing over at once. */
  readonly room: number;
  /** What became of each trial of an order. Rejects for a fault that is not a trial's, and where it was closed meanwhile. */
  judge(order: JudgingOrder): Promise<readonly Made[]>;
  /** Stands still after the trials under way, or goes on. */
  hold(on: boolean): void;
  /** Ends after the trials under way. */
  close(): Promise<void>;
}
