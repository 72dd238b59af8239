import type { CheckResult, Reason, Verdict } from '@sthene/core';
import type { Closeness, Correction, EffortKind, EngineReason } from '../trial.ts';
import { jumpCorrections } from './jump-corrections.ts';

/**
 * What an athlete is told when a check speaks, worst first: what makes a trial worthless before what shifts a rate. At most six
 * words, with the attention outside the body (Wulf 2013, Int Rev Sport Exerc Psychol 6(1):77-104, from memory).
 */
export const corrections: Readonly<Record<string, string>> = {
  clipping: 'Not your fault: plates too small',
  gap: 'Signal was lost. Once more, please',
  lift_off: 'Keep weight on both plates',
  other_foot: 'Keep the other plate free',
  early_pull: 'Wait for the cue',
  countermovement: 'No dip before you push',
  pretension: 'Less tension before the cue',
  steady_before: 'Hold steady until the cue',
  quiet_baseline: 'Stand still before you pull',
  rest_before: 'Start the pull from rest',
  double_pull: 'One single long push',
  stepped_start: 'Push the ground away at once',
  stepped_rise: 'One smooth push into the ground',
  sustained_effort: 'Keep pushing until you hear stop',
  peak_at_end: 'Push hard from the start',
  spike: 'Push, never jerk the bar',
  onset_agreement: 'One clear start of the push',
  noise_for_rfd: 'Stand still, then push hard',
  zero_after: 'Please wait: plates need a check',
  sample_rate: 'Not your fault: plates too slow',
};

/** For what the engine holds against a trial. */
export const reasonSayings: Readonly<Record<EngineReason, string>> = {
  aborted: 'Stopped. Relax',
  'pain-stop': 'Stopped. Let go and relax',
  'gap-in-pull': 'Signal was lost. Once more, please',
  'signal-lost': 'Signal was lost. Relax',
  'too-long': 'Stop when you hear stop',
  'pulled-without-cue': 'Wait for the cue',
  'cue-time-unknown': 'Not your fault: cue went missing',
  'cell-at-limit': 'Not your fault: plates too small',
  'identity-unsure': 'Not your fault: checked later',
  'not-still': 'Land and stand still',
};

const noEffort = 'Stand still, then push hard';
const noJump = 'Stand still, then jump';
export const praise = 'Good. That one counts';
/** After a submaximal effort without a band to come close to. */
const warmer = 'Good. Warmer now';

/** Sentences for checks of every kind of test, worst first within a kind; no test has checks of two. */
const byCheck = Object.entries({ ...corrections, ...jumpCorrections });
const closeSayings: Readonly<Record<Closeness['where'], string>> = {
  inside: 'On target',
  under: 'A little harder next time',
  over: 'A little easier next time',
};

/**
 * The one thing to say after a trial: what the engine holds against it, else the worst check (failed before warned, then in the
 * order of `corrections`), else praise. After a submaximal effort: how close it came.
 */
export function correctionFor(
  verdict: Verdict,
  checks: Readonly<Record<string, CheckResult>>,
  reason: Reason | undefined,
  engine: readonly EngineReason[],
  closeness: Closeness | undefined,
  effort: EffortKind = 'maximal',
): Correction {
  const [first] = engine.filter((reason) => reason !== 'not-still');
  if (first !== undefined) return { for: first, words: reasonSayings[first] };
  if (closeness !== undefined) return { for: closeness.where, words: closeSayings[closeness.where] };
  if (reason !== undefined) return { for: reason, words: reason === 'no-jump' ? noJump : noEffort };
  for (const status of ['fail', 'warn'] as const) {
    for (const [id, words] of byCheck) {
      if (checks[id]?.status === status) return { for: id, words };
    }
    // A landing that was not held takes nothing from the jump: said after what does.
    if (engine.includes('not-still')) return { for: 'not-still', words: reasonSayings['not-still'] };
  }
  if (effort === 'submaximal' && verdict === 'counts') return { for: 'submaximal', words: warmer };
  return verdict === 'counts' ? { for: 'counts', words: praise } : { for: 'onset', words: noEffort };
}

/** Every sentence an athlete may hear after a trial. */
export const allCorrections: readonly string[] = [
  ...byCheck.map(([, words]) => words),
  ...Object.values(reasonSayings),
  ...Object.values(closeSayings),
  noEffort,
  noJump,
  praise,
  warmer,
];
