import {
  analyse,
  forcesOf,
  type Method,
  protocolRegistry,
  recordingOf,
  type SimulatedPull,
  simulatePull,
} from '@sthene/core';
import type { PlannedPull } from './plan.ts';
import { isMarginal, type ScoredPull } from './score.ts';

/** Simulates one planned pull, analyses it as a live trial with a weighing would be, and sets the verdict beside the truth. */
export function scorePull(planned: PlannedPull, method: Method): ScoredPull {
  const pull = simulatePull(planned.spec, planned.seed);
  const trial = judge(pull, method);
  const { truth } = pull;
  const raised = Object.entries(trial.checks)
    .filter(([, check]) => check.status === 'warn' || check.status === 'fail')
    .map(([id]) => id);
  const reason = trial.reason ?? (trial.onset.ok ? undefined : trial.onset.reason);
  return {
    kind: planned.kind.id,
    good: planned.kind.good,
    seed: planned.seed,
    bodyMass: planned.bodyMass,
    plateNoise: planned.plateNoise,
    pace: truth.parameters.pace,
    form: truth.parameters.rise.form,
    breathing: truth.parameters.breathing.amplitude,
    severity: truth.severity,
    marginal: isMarginal(planned.kind, truth.severity),
    verdict: trial.verdict,
    raised: reason === undefined ? raised : [...raised, reason],
    onsetError: trial.onset.ok ? (1000 * (trial.onset.value.index - truth.onset.sample)) / pull.sampleRate : null,
  };
}

function judge(pull: SimulatedPull, method: Method) {
  const { limbs } = pull.truth.parameters;
  const protocol = protocolRegistry.get(limbs === 'both' ? 'imtp' : `imtp-${limbs}`);
  if (protocol === undefined) throw new Error(`no protocol for ${limbs}`);
  const forces = forcesOf(recordingOf(pull), {
    inputs: [
      { from: { kind: 'channel', index: 0 }, part: 'left' },
      { from: { kind: 'channel', index: 1 }, part: 'right' },
    ],
  });
  if (!forces.ok) throw new Error(`the simulated recording has no forces: ${forces.reason}`);
  const { trials } = analyse({
    forces: forces.value,
    protocol,
    method,
    gravity: 9.80665,
    bodyWeight: { value: pull.truth.weighed, from: 'weighing' },
    efforts: 'largest',
  });
  return trials[0]!;
}

/**
 * The method without the metrics that nobody scores: verdict and onset come from events, onset rules and checks alone, and the
 * scoring of thousands of pulls takes a fraction of the time.
 */
export const scoredPart = (method: Method): Method => ({ ...method, metrics: {} });
