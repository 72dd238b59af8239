import { inShort } from '@sthene/core';
import type { Machine } from '../machine.ts';
import type { ClosedTrial } from '../trial.ts';
import { analyseClosed } from './analyse-closed.ts';
import { tellSet } from './close-trial.ts';
import { worstVerdict } from './verdict.ts';

/**
 * Once the plates were quiet and empty for a second after a trial, their mean is known and the trial is analysed again with it.
 * One trial a block, so that the stream is never kept waiting.
 */
export function reviewWaiting(machine: Machine): void {
  const { unreviewed, unloaded, config, method } = machine;
  if (unreviewed.length === 0) return;
  const { quiet } = unloaded;
  if (quiet !== undefined) {
    for (const waiting of unreviewed) waiting.after ??= quiet.total;
  }
  const [first] = unreviewed;
  if (first?.after === undefined) return;
  unreviewed.shift();
  const entry = first.person.trials[first.at];
  if (entry === undefined) return;
  // The zero is the mean of the empty plates before the turn, so what they read with it is 0 by definition.
  const before = { ...entry.trial, unloaded: { before: 0, after: first.after } };
  const result = analyseClosed(first.forces, before, config.protocol, method, config.gravity, config.jumpMethod);
  const trial: ClosedTrial = { ...before, result, verdict: worstVerdict(result.verdict, before.reasons) };
  const changed = trial.verdict !== entry.trial.verdict;
  entry.trial = { ...before, result: inShort(result), verdict: trial.verdict };
  machine.emit({ kind: 'trial-reviewed', trial });
  machine.mark('trial reviewed', machine.now, { person: trial.person, trial: trial.trial, unloaded: trial.unloaded });
  if (!changed) return;
  machine.alert('verdict-changed', 'The plates did not come back to zero after the turn; the verdict was changed.');
  machine.emit({ kind: 'verdict', trial: trial.trial, verdict: trial.verdict });
  if (trial.effort === 'maximal') tellSet(machine, first.person, false);
}
