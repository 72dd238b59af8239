import type { Goal } from './goal.ts';

/** One line of the table: our side, what a user would do instead, and what became of the goal. */
export interface Row {
  readonly what: string;
  readonly ours: string;
  /** The other side; empty where a row stands for itself. */
  readonly instead: string;
  /** How the two compare, ready to print; empty where a row stands for itself. */
  readonly ratio: string;
  /** Absent for rows that only inform. */
  readonly goal?: Goal;
  /** Why a goal may be missed, from what this run measured; printed only when it is. */
  readonly because?: string;
}

/** What a benchmark found. */
export interface Report {
  readonly rows: readonly Row[];
  /** Sentences about what was compared and what was checked, with this run's numbers. */
  readonly notes: readonly string[];
}

/** A report, or the reason why nothing could be measured. */
export type Finding = { readonly ok: true; readonly report: Report } | { readonly ok: false; readonly reason: string };

/** What a benchmark is given. */
export interface Bench {
  readonly quick: boolean;
  /** Bytes of the large text file. */
  readonly textBytes: number;
  /** Hours of the day that is played faster than real time. */
  readonly hours: number;
  /** Longest real time of that day. */
  readonly minutes: number;
  /** Minutes of the test day at true speed. */
  readonly day: number;
  /** Trials of the archive that is judged again. */
  readonly trials: number;
  /** A temporary folder of its own, deleted afterwards. */
  readonly folder: string;
  /** A Python with numpy, scipy and pandas; absent with the reason. */
  readonly python: { readonly path: string } | { readonly missing: string };
}

/** Numbers and files, the live path, reports, a day of 24 hours, an archive judged again, jumps: each page is measured in a run of its own. */
export type PageId = 'files' | 'live' | 'reports' | 'soak' | 'archive' | 'jumps';

/** One benchmark: a letter to ask for it, a title, what stands side by side. */
export interface Benchmark {
  readonly id: string;
  /** Page of the documentation it stands on. */
  readonly page: PageId;
  readonly title: string;
  readonly compared: string;
  run(bench: Bench): Promise<Finding>;
}
