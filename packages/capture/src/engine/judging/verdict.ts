import type { TrialResult, Verdict } from '@sthene/core';
import type { ClosedTrial, Closeness, EngineReason, Target, TrialEnd } from '../trial.ts';

const weight: Readonly<Record<EngineReason, Verdict>> = {
  aborted: 'repeat',
  'pain-stop': 'repeat',
  'gap-in-pull': 'repeat',
  'signal-lost': 'repeat',
  'cell-at-limit': 'repeat',
  'too-long': 'look-again',
  'pulled-without-cue': 'look-again',
  'cue-time-unknown': 'look-again',
  'identity-unsure': 'look-again',
  // What a landing does to the numbers is for the checks to say.
  'not-still': 'counts',
};

const rank: readonly Verdict[] = ['counts', 'look-again', 'repeat'];

/** The worse of what the analysis says and what the engine holds against the trial. */
export function worstVerdict(result: Verdict, reasons: readonly EngineReason[]): Verdict {
  const worst = Math.max(rank.indexOf(result), ...reasons.map((reason) => rank.indexOf(weight[reason])));
  return rank[worst] as Verdict;
}

const byEnd: Readonly<Record<TrialEnd, EngineReason | undefined>> = {
  released: undefined,
  aborted: 'aborted',
  pain: 'pain-stop',
  gap: 'gap-in-pull',
  'signal-lost': 'signal-lost',
  'too-long': 'too-long',
  'not-still': 'not-still',
};

/** What the engine holds against a trial, worst first. */
export function reasonsOf(
  trial: Pick<ClosedTrial, 'ended' | 'effort' | 'cue'>,
  requested: boolean,
  cellAtLimit: boolean,
  unsure = false,
): EngineReason[] {
  const reasons: EngineReason[] = [];
  const end = byEnd[trial.ended];
  if (end !== undefined) reasons.push(end);
  if (cellAtLimit) reasons.push('cell-at-limit');
  if (trial.effort === 'maximal' && trial.cue === undefined) {
    reasons.push(requested ? 'cue-time-unknown' : 'pulled-without-cue');
  }
  if (unsure) reasons.push('identity-unsure');
  return reasons.sort((a, b) => rank.indexOf(weight[b]) - rank.indexOf(weight[a]));
}

/** How close a submaximal effort came: its best second, else its peak, against the aim. Undefined when neither was found. */
export function closenessOf(result: TrialResult, target: Target, base: number): Closeness | undefined {
  for (const id of ['best_mean_1000', 'peak_force']) {
    const measured = result.metrics[id];
    if (measured === undefined || !('value' in measured)) continue;
    const reached = measured.value;
    const where = reached < target.low ? 'under' : reached > target.high ? 'over' : 'inside';
    return { reached, deviation: (100 * (reached - target.aim)) / (target.aim - base), where };
  }
  return undefined;
}
