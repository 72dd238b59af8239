import type { ResultText, Session, Trial } from '@sthene/store';
import type { OriginFacts } from '../../../live/rig/keep-trial.ts';
import type { Judging } from '../../analysis-of.ts';
import type { Reading } from '../../recordings-from.ts';

/** One trial to judge. */
export interface OrderedTrial extends Omit<Judging, 'trial' | 'session' | 'live'> {
  readonly trial: Pick<Trial, 'recordingLabel' | 'forceSelection' | 'span' | 'cue'>;
  readonly session: Pick<Session, 'protocol' | 'bodyWeight' | 'gravity' | 'setup'>;
  /** Hash of the recipe that judges, by which a thread knows it again. */
  readonly sha256: string;
  readonly live?: OriginFacts;
}

/** Some trials of one file, with all that is needed to judge them: pure data, for whatever thread. */
export interface JudgingOrder {
  readonly recording: string;
  /** Absent where the store knows no such recording. */
  readonly file?: { readonly format: string; readonly name: string };
  readonly reading: Reading;
  readonly trials: readonly OrderedTrial[];
}

/** What became of one trial: its result as text, or why it has none. */
export type Made = { readonly text: ResultText } | { readonly code: string; readonly words: string };
